import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { fuzzRuns, IS_FULL } from '../helpers/extent.ts';
import { type Harm, HARMS } from '../helpers/harms.ts';
import { isOwnMirror } from '../helpers/own-mirror.ts';
import { proofOf, stopsOf } from '../helpers/proved.ts';
import { anyBlank, anySaving, type Blank, BLANKS } from '../helpers/saved-blanks.ts';
import { AS_IT_IS, saved, type Saving } from '../helpers/saved-dxf.ts';

/**
 * The table of what the proof makes of files that another program saved, sound ones and harmed ones:
 * how many were tried, how many harms it missed, and where it was wrong to speak. A search prints it.
 */
const TABLE = new Map<string, { tried: number; missed: number; 'false alarms': number }>();

const ofRow = (row: string) => {
  const found = TABLE.get(row) ?? { tried: 0, missed: 0, 'false alarms': 0 };
  TABLE.set(row, found);
  return found;
};

afterAll(() => {
  if (process.env['FUZZ_RUNS'] !== undefined) console.table(Object.fromEntries(TABLE));
});

/** What a case says when it goes wrong: enough to make it again. */
const said = (blank: Blank, how: Saving, told: unknown): string =>
  JSON.stringify([blank.name, how, told]);

/** What may be told of a file that nothing is wrong with. */
const harmless = ({ name }: Blank, { move, turnDeg, clutter }: Saving): readonly string[] => [
  ...(move[0] === 0 && turnDeg === 0 ? [] : ['file-moved']),
  ...(name.endsWith('cut only') ? ['fold-lines-left-out'] : []),
  ...(clutter.includes('hatch') || clutter.includes('dimension') ? ['no-line'] : []),
  ...(clutter.includes('frozen') ? ['lines-hidden'] : []),
];

test(`of a sound file nothing is told but what was done to it (${BLANKS.length} blanks)`, () => {
  const alarms: string[] = [];
  const row = ofRow('sound');
  for (const [blank, how] of fc.sample(fc.tuple(anyBlank, anySaving), fuzzRuns(300))) {
    const proof = proofOf(saved(blank.shapes, how), blank.asked);
    const may = harmless(blank, how);
    const told = proof.findings.filter((f) => !may.includes(f.rule)).map((f) => f.message);
    const isStopped = stopsOf(proof).length > 0 || proof.worstMm > 0.01;
    row.tried += 1;
    if (told.length === 0 && !isStopped) continue;
    row['false alarms'] += 1;
    alarms.push(said(blank, how, [told, proof.worstMm]));
  }
  expect(alarms).toEqual([]);
});

/**
 * What the proof has to do about a harm: a shape that is its own mirror image cannot be mirrored, and
 * of one that all but is either may be said.
 */
const wanted = (harm: Harm, { shapes }: Blank): 'told' | 'either' | 'silent' => {
  if (harm.name !== 'mirrored' || !isOwnMirror(shapes, 0.02)) return 'told';
  return isOwnMirror(shapes, 0.001) ? 'silent' : 'either';
};

/** These accuse the whole file, which is worse than to say nothing where only a line is wrong. */
const GREAT = ['file-mirrored', 'file-scaled'];

describe('a harmed file: the proof says so', () => {
  test.each(HARMS.map((harm) => [harm.name, harm] as const))('%s', (_, harm) => {
    const wrong: string[] = [];
    const row = ofRow(harm.name);
    const cases = fc.tuple(anyBlank, anySaving, fc.nat(10_000));
    for (const [blank, given, pick] of fc.sample(cases, fuzzRuns(30))) {
      const how = { ...given, unit: AS_IT_IS.unit };
      const harmed = harm.apply({ shapes: blank.shapes, how }, pick);
      if (harmed === undefined) continue;
      const { findings } = proofOf(saved(harmed.shapes, harmed.how), blank.asked);
      const rules = findings.map((f) => f.rule);
      const want = wanted(harm, blank);
      const isMissed = want === 'told' && !rules.some((rule) => harm.told.includes(rule));
      const isFalse =
        rules.some((rule) => GREAT.includes(rule) && !harm.told.includes(rule)) ||
        (want === 'silent' && findings.some((f) => f.severity === 'stop'));
      row.tried += 1;
      if (isMissed) row.missed += 1;
      if (isFalse) row['false alarms'] += 1;
      if (isMissed || isFalse) wrong.push(said(blank, harmed.how, [pick, rules]));
    }
    expect(wrong).toEqual([]);
    if (IS_FULL) expect(row.tried).toBeGreaterThan(0);
  });
});
