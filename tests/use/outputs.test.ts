import { describe, expect, test } from 'vitest';
import { OUTPUT_FLAGS } from '../../src/cli/output-flags.ts';
import { jobJsonSchema } from '../../src/jobfile/json-schema.ts';
import { jobSchema } from '../../src/jobfile/schema.ts';
import { ANY_IMPORT } from '../../src/model/shop.ts';
import { makeFiles } from '../../src/use/make/make-files.ts';
import {
  ASKED_OUTPUTS,
  cutOutputs,
  OUTPUT_IDS,
  type OutputId,
} from '../../src/use/outputs/index.ts';
import type { DxfVersion } from '../../src/use/made-part.ts';
import angle from '../../templates/bracket-angle/index.ts';
import { CART_BRACKET } from '../helpers/drawings.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const INPUTS = { name: 'post', legA: 60, legB: 40, width: 80, thickness: 3, radius: 4 };

const filesOf = async (
  outputs: readonly OutputId[],
  inputs: Record<string, unknown> = INPUTS,
  options = {},
) => {
  const made = await makeFiles({ template: angle, inputs, outputs, options });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made;
};

const DIALECTS: readonly DxfVersion[] = ['r2000', 'r12'];

describe('each output', () => {
  test('to cut turns a drawing into a text of its own, shorter with cuts alone', () => {
    const cut = new Set(DIALECTS.flatMap(cutOutputs));
    const write = (cutOnly: boolean): string[] =>
      [...cut].map((o) => o.write({ drawing: CART_BRACKET, cutOnly, form: ANY_IMPORT }));
    expect(new Set(write(false)).size).toBe(cut.size);
    const whole = write(false);
    write(true).forEach((text, i) => expect(text.length).toBeLessThan((whole[i] as string).length));
  });

  test.each(DIALECTS)('has a file name of its own, cut files being %s', (dialect) => {
    const endings = [...cutOutputs(dialect), ...ASKED_OUTPUTS].map(({ extension }) => extension);
    expect(new Set(endings).size).toBe(endings.length);
    expect(endings).toContain('.dxf');
    for (const ending of endings) expect(ending).toMatch(/^(?:-[a-z]+)?\.[a-z]+$/);
  });

  test('is written where it is asked for, says whose file it is near its start, and is another', async () => {
    const { files, result, findings } = await filesOf(OUTPUT_IDS);
    const wanted = [
      ...cutOutputs('r2000'),
      // A part of one blank is not joined to anything.
      ...ASKED_OUTPUTS.filter(({ needs }) => !needs.includes('assembly')),
    ].map((o) => `post${o.extension}`);
    expect(files.map(({ name }) => name)).toEqual(wanted);
    expect(result.parts[0]?.files).toEqual(wanted);
    expect(result.parts[0]?.fit).not.toBeNull();
    expect(findings).toEqual(result.parts[0]?.findings);
    for (const { name, contents, mark } of files)
      expect(Buffer.from(contents).toString('latin1', 0, 2000), name).toContain(mark);
    expect(new Set(files.map(({ contents }) => String(contents))).size).toBe(files.length);
  });

  test('asked for alone is the same file', async () => {
    const { files } = await filesOf(OUTPUT_IDS);
    for (const id of OUTPUT_IDS) {
      const alone = await filesOf([id]);
      for (const file of alone.files)
        expect(Buffer.from(file.contents).equals(Buffer.from(contentsOf(files, file.name)))).toBe(
          true,
        );
    }
  });
});

const contentsOf = (
  files: readonly { readonly name: string; readonly contents: string | Uint8Array }[],
  name: string,
): string | Uint8Array => files.find((file) => file.name === name)?.contents ?? '';

test('steps of folding are left out where nothing is planned', async () => {
  const { files } = await filesOf(['folding'], INPUTS, UNPLANNED);
  expect(files.map(({ name }) => name)).toEqual(
    cutOutputs('r2000').map(({ extension }) => `post${extension}`),
  );
});

test('of a part that is stopped there are none, and none are told', async () => {
  const stopped = await filesOf(OUTPUT_IDS, { ...INPUTS, hand: 'both', holesA: '35,20,300' });
  expect([stopped.files, stopped.result.parts.map((part) => part.files)]).toEqual([[], [[], []]]);
  expect(stopped.findings.some(({ severity }) => severity === 'stop')).toBe(true);
});

test('flags, job files and their JSON Schema know every one', () => {
  const help = OUTPUT_FLAGS.papers?.describe ?? '';
  for (const { id, about } of ASKED_OUTPUTS) {
    expect(help).toContain(id);
    expect(help).toContain(about);
  }
  const job = { defaults: { papers: [...OUTPUT_IDS] }, parts: [{ family: 'ring' }] };
  const read = jobSchema.read(job);
  expect(read.ok && read.value.defaults.papers).toEqual(OUTPUT_IDS);
  expect(JSON.stringify(jobJsonSchema(new Map()))).toContain(
    `"enum":${JSON.stringify(OUTPUT_IDS)}`,
  );
});
