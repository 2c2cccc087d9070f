import * as fields from '../forms/fields.ts';
import type { InputProblem } from '../forms/problem.ts';
import { readDocument } from '../forms/read-document.ts';
import { checked, list, optional, section } from '../forms/sections.ts';
import { type BenderFit, benderFit } from '../tube/bender-fit.ts';

const leg = (about: string) => optional(fields.length({ about, min: 1, max: 20_000 }));

const bend = checked(
  section('A test bend.', {
    pulled: fields.angle({ about: "What the bender's scale said.", min: 1, max: 240 }),
    stayed: fields.angle({
      about: 'What the angle finder said when it was let go.',
      min: 1,
      max: 179,
    }),
    cut: leg('Length of the tube before it was bent.'),
    legA: leg('One leg, from its end to the corner of the middle lines.'),
    legB: leg('The other leg.'),
  }),
  ({ pulled, stayed, cut, legA, legB }, disagree) => {
    if (stayed > pulled) disagree(['stayed'], 'no more than it was pulled to', 'exchange the two');
    const given = [cut, legA, legB].filter((mm) => mm !== undefined);
    if (given.length !== 0 && given.length !== 3)
      disagree([], 'cut, legA and legB together, or none of them');
    if (cut !== undefined && legA !== undefined && legB !== undefined && legA + legB <= cut)
      disagree(['cut'], 'less than both legs together', 'measure the legs to the corner');
  },
);

/** Test bends closer to each other in angle tell more of the reading than of the bender. */
const LEAST_APART_DEG = 10;

const bends = checked(
  section('Test bends of one bender with one former.', {
    bender: fields.text({ about: 'The bender.', max: 80 }),
    tube: fields.length({ about: 'Outside diameter of the tube.', min: 3, max: 400 }),
    radius: fields.length({ about: 'Centre-line radius of the former.', min: 3, max: 6000 }),
    bends: list('The test bends.', bend, { what: 'test bends', min: 2, max: 100 }),
  }),
  ({ bends: all }, disagree) => {
    const stayed = all.map((one) => one.stayed);
    if (Math.max(...stayed) - Math.min(...stayed) < LEAST_APART_DEG)
      disagree(
        ['bends'],
        `bends of which the angles lie ${LEAST_APART_DEG} degrees apart at least`,
        'bend one of some 20 and one of some 120 degrees',
      );
  },
);

const WORDS = {
  input: 'bends',
  allowed: 'a YAML or JSON file of test bends: bender, tube, radius, bends',
  look: 'blankwright calibrate tube shows one',
};

/** Test bends as a file holds them, and what they tell. */
export interface BenderTest {
  readonly bender: string;
  readonly tubeMm: number;
  readonly radiusMm: number;
  readonly bends: number;
  readonly fit: BenderFit;
}

/** Reads the text of measured test bends, and works out what they tell of the bender. */
export function readBenderTest(
  text: string,
):
  | { readonly ok: true; readonly value: BenderTest }
  | { readonly ok: false; readonly problems: readonly InputProblem[] } {
  const read = readDocument(text, bends, WORDS);
  if (!read.ok) return read;
  const { bender, tube, radius, bends: all } = read.value;
  const fit = benderFit(
    all.map(({ pulled, stayed, cut, legA, legB }) => ({
      pulledDeg: pulled,
      stayedDeg: stayed,
      cutMm: cut,
      ...(legA !== undefined && legB !== undefined && { legsMm: [legA, legB] as const }),
    })),
  );
  if (fit === undefined) throw new Error('bends of angles far apart tell no springback');
  return { ok: true, value: { bender, tubeMm: tube, radiusMm: radius, bends: all.length, fit } };
}
