import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type RanJob, runJob } from '../../src/cli/job/run-job.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { readJob } from '../../src/jobfile/read.ts';
import angle from '../../templates/bracket-angle/index.ts';
import { contents, tempFolder } from '../helpers/command.ts';

/** One part with a warning, for its radius; one that is stopped, for its rule has no figures. */
const CART = `title: vineyard cart
defaults: { material: s275, thickness: 3 }
parts:
  - { family: bracket-angle, name: seat post, hand: both, note: deburr, inputs: { legA: 60, legB: 40, width: 80, radius: 3 } }
  - { family: bracket-angle, name: stay, inputs: { legA: 60, legB: 40, width: 80, radius: 4, rule: measured } }
`;

const families = new Map([[angle.family, angle]]);
const shop = { ...DEFAULT_SHOP, machines: [] };

const run = (out: string, keepsProofs: boolean): Promise<RanJob> => {
  const read = readJob(CART, families);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return runJob({
    ready: { job: read.job, families, shop },
    make: makeParts,
    out,
    isForcedAnew: false,
    force: false,
    keepsProofs,
    onPart: () => undefined,
  });
};

const proofsOf = ({ parts }: RanJob) =>
  parts.flatMap((p) => p.outcome.record?.parts ?? []).map((p) => p.proof !== null);

test('a job that is not told in full keeps no proofs, and makes the same files', async () => {
  const [whole, lean] = [tempFolder(), tempFolder()];
  const [inFull, inShort] = [await run(whole, true), await run(lean, false)];
  expect([proofsOf(inFull), proofsOf(inShort)]).toEqual([
    [true, true, false],
    [false, false, false],
  ]);
  expect(inShort.parts.map((p) => p.outcome.status)).toEqual(['made', 'refused']);
  for (const place of ['', 'seat-post', 'stay']) {
    const made = contents(join(lean, 'vineyard-cart', place));
    expect(made).toEqual(contents(join(whole, 'vineyard-cart', place)));
    expect(Object.keys(made).length).toBeGreaterThan(0);
  }
  expect(contents(join(lean, 'vineyard-cart'))['index.html']).toContain('Warning:');
});

test('what has not changed is told in full too, when that is asked for', async () => {
  const out = tempFolder();
  await run(out, false);
  const again = await run(out, true);
  expect(again.parts.map((p) => p.outcome.status)).toEqual(['unchanged', 'refused']);
  expect(proofsOf(again)).toEqual([true, true, false]);
});
