import { layStrip } from '../../src/use/lay/lay-strip.ts';
import { readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  bendSums,
  calibrateStrips,
  cutListOfJob,
  DEFAULT_SHOP,
  inspectFile,
  inspectOptions,
  makeFiles,
  makeJobPart,
  packJob,
  planPanels,
  planParts,
  prove,
  readJob,
  type ReadyJob,
  surveyDistances,
  type UseCase,
} from '../../src/index.ts';
import angle from '../../templates/bracket-angle/index.ts';
import { blankwright, json, tempFolder } from '../helpers/command.ts';
import { strips } from '../helpers/strips.ts';
import { caseOf } from '../plan/cases.ts';

const INPUTS = { name: 'post', legA: 60, legB: 40, width: 80, thickness: 3, radius: 4 };
const MAKE = 'bracket-angle --name post --leg-a 60 --leg-b 40 --width 80 --thickness 3 --radius 4';

const JOB = `title: cart
defaults: { material: s275, thickness: 3, papers: [card] }
parts:
  - { family: bracket-angle, name: post, hand: both, note: deburr, inputs: { legA: 60, legB: 40, width: 80, radius: 4 } }
  - { family: bracket-angle, name: stay, silence: [rule-stretched], inputs: { legA: 60, legB: 40, width: 80, radius: 1 } }
`;

const families = new Map([[angle.family, angle]]);
const ready = (): ReadyJob => {
  const read = readJob(JOB, families);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { job: read.job, families, shop: DEFAULT_SHOP };
};

/** As a program that reads the JSON of a command has it. */
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

/** The same with the names of files in place of the paths that they were written to. */
const named = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value).replaceAll(/"(?:out|pack)\//g, '"'));

const done = <T extends UseCase<unknown>>(used: T): T & { readonly ok: true } => {
  if (!used.ok) throw new Error(JSON.stringify(used.problems));
  return used as T & { readonly ok: true };
};

/** Runs a command in a folder of its own, and gives what it printed and what it wrote. */
const ran = async (line: string, files: Readonly<Record<string, string | Uint8Array>> = {}) => {
  const cwd = tempFolder();
  for (const [name, contents] of Object.entries(files)) writeFileSync(join(cwd, name), contents);
  const told = await blankwright([...line.split(' '), '--json'], cwd);
  expect(told.err).toBe('');
  return {
    result: json<unknown>(told),
    read: (name: string): Buffer => readFileSync(join(cwd, name)),
  };
};

describe('what a use case gives is what its command prints and writes', () => {
  test('make', async () => {
    const made = done(
      await makeFiles({ template: angle, inputs: INPUTS, outputs: ['card', 'sheet', 'folding'] }),
    );
    const { result, read } = await ran(`make ${MAKE} --papers card,sheet,folding`);
    expect(named(result)).toEqual(asJson(made.result));
    expect(made.files.length).toBeGreaterThan(5);
    for (const { name, contents } of made.files)
      expect(read(`out/${name}`).equals(Buffer.from(contents)), name).toBe(true);
  });

  test('plan of a family', async () => {
    const planned = done(planParts({ template: angle, inputs: INPUTS, isDrawn: true }));
    const { result, read } = await ran(`plan ${MAKE} --out out`);
    expect(named(result)).toEqual(asJson(planned.result));
    expect(planned.isFoldable).toBe(true);
    expect(planned.files.map(({ name }) => name)).toEqual([
      'post-folding.svg',
      'post-folding.pdf',
      'post-folding.html',
    ]);
    for (const { name, contents } of planned.files)
      expect(Buffer.from(contents).equals(read(`out/${name}`))).toBe(true);
  });

  test('plan of panels', async () => {
    const text = JSON.stringify(caseOf('FC04'));
    const planned = done(planPanels({ text, name: 'case.json', count: true }));
    const { result } = await ran('plan --panels case.json --count', { 'case.json': text });
    expect(result).toEqual(asJson(planned.result));
  });

  test('job, part by part', async () => {
    const made = [];
    for (const part of ready().job.parts) made.push(await makeJobPart(ready(), part));
    const { result, read } = await ran('job job.yaml --out out', { 'job.yaml': JOB });
    const told = result as { parts: { folder: string; parts: unknown }[] };
    expect(told.parts.map((p) => p.parts)).toEqual(made.map((m) => asJson(m.result.parts)));
    expect(made.map((m) => m.result.silenced)).toEqual([0, 1]);
    made.forEach((m, i) => {
      for (const { name, contents } of m.files) {
        const saved = read(`out/cart/${told.parts[i]?.folder}/${name}`);
        expect(saved.equals(Buffer.from(contents)), name).toBe(true);
      }
    });
  });

  test('cutlist', async () => {
    const { result } = await ran('cutlist job.yaml', { 'job.yaml': JOB });
    expect(result).toEqual(asJson(cutListOfJob(ready()).result));
  });

  test('pack', async () => {
    const packed = await packJob(ready(), { fold: 'service' });
    const { result, read } = await ran('pack job.yaml --fold service', { 'job.yaml': JOB });
    expect(named(result)).toEqual(asJson(packed.result));
    expect(packed.files).toHaveLength(1);
    for (const { name, contents } of packed.files)
      expect(read(`pack/${name}`).equals(Buffer.from(contents))).toBe(true);
  });

  test('proof and inspect', async () => {
    const made = done(await makeFiles({ template: angle, inputs: INPUTS }));
    const part = JSON.stringify(made.result);
    const bytes = new TextEncoder().encode(String(made.files[0]?.contents));
    const files = { 'post.dxf': bytes, 'post.json': part };
    const proved = done(
      prove({
        dxf: { name: 'post.dxf', bytes },
        part: { name: 'post.json', text: part },
        fileName: basename('post.dxf'),
      }),
    );
    const proof = await ran('proof post.dxf --part post.json', files);
    expect(proof.result).toEqual(asJson(proved.result));
    expect([proved.name, proved.findings]).toEqual(['post', proved.result.findings]);

    const read = inspectOptions({ thickness: '3 mm' });
    if (!read.ok) throw new Error('options');
    const { options } = read;
    const looked = { name: 'post.dxf', title: 'post', bytes, options, mend: true, draw: true };
    const inspected = done(inspectFile(looked));
    const inspection = await ran('inspect post.dxf --thickness 3 --mend --svg', files);
    expect(named(inspection.result)).toEqual({ files: [asJson(inspected.result)] });
    expect(inspected.files).toHaveLength(2);
    for (const { name, contents } of inspected.files)
      expect(inspection.read(`out/${name}`).toString()).toBe(contents);
  });

  test('lay', async () => {
    const square = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ];
    const items = [{ id: 7, demand: 5, allowedRotations: [0], polygon: square }];
    const text = JSON.stringify({ stripWidth: 20, items });
    const strip = await ran('lay --strip strip.json --steps 5 --seed 3', { 'strip.json': text });
    const laid = done(layStrip({ text, seed: 3, mayGoOn: (steps) => steps < 5 }));
    expect(strip.result).toEqual(asJson(laid.result));
    // Five squares two by two: three columns.
    expect(laid.result.usedLength).toBeCloseTo(30, 6);
  });

  test('calibrate, trilaterate and bend', async () => {
    const csv = strips();
    const calibrated = await ran('calibrate strips.csv', { 'strips.csv': csv });
    expect(calibrated.result).toEqual(asJson(done(calibrateStrips(csv, 'csv')).result));

    // Two 3-4-5 triangles.
    const given = 'A-B: 400\nB-C: 300\nC-D: 400\nD-A: 300\nA-C: 500\nB-D: 500 # across\n';
    const survey = await ran('trilaterate post.txt', { 'post.txt': given });
    const points = done(surveyDistances({ name: 'post.txt', given })).result.points;
    expect((survey.result as { points: unknown[] }).points).toEqual(
      points.map(({ name, x, y }) => ({
        name,
        x: expect.closeTo(x, 5) as number,
        y: expect.closeTo(y, 5) as number,
      })),
    );

    const bend = await ran('bend --thickness 3 --radius 4 --angle 90');
    const sums = done(bendSums({ thickness: '3', radius: '4', angle: '90' }));
    expect(bend.result).toEqual(asJson(sums.result));
  });
});

describe('a mistake in what is given is a problem, and nothing is thrown', () => {
  const bytes = new TextEncoder().encode('no DXF');
  const options = inspectOptions({});
  test.each<readonly [string, () => UseCase<unknown> | Promise<UseCase<unknown>>, string]>([
    ['make', () => makeFiles({ template: angle, inputs: { legA: 'x' } }), 'legA'],
    ['plan', () => planParts({ template: angle, inputs: INPUTS, machine: 'none' }), 'machine'],
    ['plan of panels', () => planPanels({ text: '{', name: 'x' }), 'panels'],
    [
      'proof',
      () => prove({ dxf: { name: 'x', bytes }, part: { name: 'y', text: '{' }, fileName: 'x' }),
      'part',
    ],
    [
      'inspect',
      () => {
        if (!options.ok) throw new Error('options');
        return inspectFile({ name: 'x', title: 'x', bytes, options: options.options });
      },
      'file',
    ],
    ['calibrate', () => calibrateStrips('{', 'yaml'), 'strips'],
    ['trilaterate', () => surveyDistances({ name: 'x', given: 'A to B' }), 'file'],
    [
      'lay',
      () => layStrip({ text: '{stripWidth: 0}', seed: 1, mayGoOn: () => false }),
      'stripWidth',
    ],
    ['bend', () => bendSums({ thickness: 'x' }), 'thickness'],
  ])('%s', async (_, use, input) => {
    const used = await use();
    expect(used.ok).toBe(false);
    if (!used.ok) expect(used.problems.map((p) => p.input)).toContain(input);
  });
});
