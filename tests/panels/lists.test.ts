import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import panels from '../../templates/panels/index.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

type Inputs = Readonly<Record<string, unknown>>;

/** Each problem with what was given, and what is allowed there. */
const problemsOf = (inputs: Inputs): readonly string[] => {
  const made = makeParts(panels, { base: '120 x 80', thickness: 2, ...inputs }, UNPLANNED);
  return made.ok
    ? []
    : made.problems.map(({ input, given, allowed }) => `${input} | ${given} | ${allowed}`);
};

const lip = { name: 'lip', on: 'base top', height: 20 };

const WRONG: Readonly<Record<string, readonly [Inputs, RegExp]>> = {
  'a figure for a flange': [{ flanges: [5] }, /^flanges \| 5 as flange 1 \| a name, on, the panel/],
  'a flange left empty': [{ flanges: [null] }, /^flanges \| nothing as flange 1 \| a name, on,/],
  'a list for a flange': [
    { flanges: [['lip']] },
    /^flanges \| '0' in flange 1 \| the keys name, on,/,
  ],
  'an unknown word for a flange': [
    { flanges: { ...lip, hieght: 20 } },
    /^flanges \| 'hieght' in flange \| the keys name, on, height/,
  ],
  'a figure for a hole of a flange': [
    { flanges: [{ ...lip, holes: [5] }] },
    /^flanges \| \[5\] as holes of flange 1 \| Holes with ';' between them, or a list of them/,
  ],
  'a hole of the base without its place': [
    { base: { size: '120 x 80', holes: [{ x: 1 }] } },
    /^base \| \[\{"x":1\}\] as holes of base \| Holes with ';' between them/,
  ],
  'a figure for a cut-out': [
    { base: { size: '120 x 80', cutouts: [5] } },
    /^base \| \[5\] as cutouts of base \| Cut-outs of any shape/,
  ],
  'a figure for a slit': [
    { base: { size: '120 x 80', slits: [1] } },
    /^base \| \[1\] as slits of base \| Slits as narrow as the cutter cuts/,
  ],
  'a figure for a corner': [
    { flanges: [lip], corners: [3] },
    /^corners \| 3 as corner 1 \| two flanges with and between them/,
  ],
  'an unknown word for a corner': [
    { flanges: [lip], corners: { a: 1 } },
    /^corners \| 'a' in corner \| the keys between, style, through, gap, lap$/,
  ],
};

describe('a list that holds something else is told what belongs into it', () => {
  test.each(Object.entries(WRONG))('%s', (_, [inputs, told]) =>
    expect(problemsOf(inputs)).toEqual([expect.stringMatching(told)]),
  );

  test('the same lists as they belong are none of that', () =>
    expect(
      problemsOf({
        base: { size: '120 x 80', holes: ['20,20,M5'], slits: '50,0 50,15' },
        flanges: [{ ...lip, holes: 'from foot 12, middle, M5' }, 'ear on right 20'],
        corners: ['lip and ear open'],
      }),
    ).toEqual([]));
});
