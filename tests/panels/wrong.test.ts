import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

type Inputs = Readonly<Record<string, unknown>>;

const panels = await loadFamily('panels');
const SHEET = { name: 'wrong', material: 's235', thickness: 2, radius: 2.5 };

/** What inputs come to: their problems, what stops or warns, or nothing at all. */
function toldBy(inputs: Inputs): readonly string[] {
  const made = makeParts(panels, { ...SHEET, ...inputs }, UNPLANNED);
  if (!made.ok)
    return made.problems.map(({ input, given, allowed, mend }) =>
      [input, given, allowed, ...(mend === undefined ? [] : [mend])].join(' | '),
    );
  return made.parts.flatMap(({ result }) =>
    result.findings
      .filter(({ severity }) => severity !== 'note')
      .map(({ rule, message }) => `${rule}: ${message}`),
  );
}

interface Wrong {
  readonly inputs: Inputs;
  /** What is told of it, in order. */
  readonly told: readonly RegExp[];
  /** The inputs mended by what was told, of which nothing is told any more. */
  readonly mended: Inputs;
}

const BASE = { base: '120 x 80' };

const WRONG: Readonly<Record<string, Wrong>> = {
  'an edge that does not exist: those that do': {
    inputs: { ...BASE, flanges: ['lip on base tpo 20 90 up'] },
    told: [
      /^flanges\[0\]\.on \| 'base tpo' \| a straight edge of base: bottom, right, top, left \| did you mean base top\?$/,
    ],
    mended: { ...BASE, flanges: ['lip on base top 20 90 up'] },
  },
  'an edge of an outline that does not exist': {
    inputs: { base: '0,0 edge front; 120,0; 120,80; 0,80', flanges: ['lip on frnt 20'] },
    told: [/a straight edge of base: front, 2, 3, 4 \| did you mean base front\?$/],
    mended: { base: '0,0 edge front; 120,0; 120,80; 0,80', flanges: ['lip on front 20'] },
  },
  'a panel that does not exist': {
    inputs: { ...BASE, flanges: ['lip on top 20', 'ear on lib end 10'] },
    told: [
      /^flanges\[1\]\.on \| 'lib end' \| .*the panels are base, lip \| did you mean lip end\?$/,
    ],
    mended: { ...BASE, flanges: ['lip on top 20', 'ear on lip end 10'] },
  },
  'the edge that a flange stands on itself': {
    inputs: { ...BASE, flanges: ['lip on top 20', 'ear on lip foot 10'] },
    told: [/^flanges\[1\]\.on \| 'lip foot' \| a straight edge of lip: right, end, left$/],
    mended: { ...BASE, flanges: ['lip on top 20', 'ear on lip end 10'] },
  },
  'a disc, which has no straight edge': {
    inputs: { base: 'disc 100', flanges: ['lip on 1 20'] },
    told: [/an edge that is straight; base has none$/],
    mended: { base: 'polygon 6 100', flanges: ['lip on 1 20'] },
  },
  'a flange wider than its edge: how long that is': {
    inputs: { ...BASE, flanges: ['lip on top 20 90 up width 130'] },
    told: [/^flanges\[0\]\.width \| '130' \| at most 120 mm, which is how long base top is/],
    mended: { ...BASE, flanges: ['lip on top 20 90 up width 120'] },
  },
  'a flange that ends beyond its edge': {
    inputs: { ...BASE, flanges: ['lip on top 20 90 up from 20 to 130'] },
    told: [/^flanges\[0\]\.to \| '130' \| a stretch of base top, .* from 0 to 120/],
    mended: { ...BASE, flanges: ['lip on top 20 90 up from 20 to 120'] },
  },
  'a flange that runs into its neighbour in the flat: from where to where the edge is free': {
    inputs: {
      ...BASE,
      flanges: ['one on top 20 90 up from 0 to 70', 'two on top 20 90 up from 60 to 120'],
    },
    told: [
      /^flanges\[1\]\.from \| '60' \| a stretch of base top that is free; one takes it from 0 to 70 \| give from 76 to 120$/,
    ],
    mended: {
      ...BASE,
      flanges: ['one on top 20 90 up from 0 to 70', 'two on top 20 90 up from 76 to 120'],
    },
  },
  'a flange that runs into another in the folded part: by how much': {
    inputs: { ...BASE, flanges: ['lip on top 30', 'back on lip end 100', 'front on bottom 31'] },
    told: [
      /^runs-into-itself: Folded, back runs into front by (\d+) mm: make one of them \1 mm shorter/,
      /^seam-without-access/,
    ],
    mended: { ...BASE, flanges: ['lip on top 30', 'back on lip end 77', 'front on bottom 31'] },
  },
  'a fold across a hole: how far it is to keep': {
    inputs: { ...BASE, flanges: ['lip on top 20 90 up holes from foot 5, middle, M5'] },
    told: [
      /^hole-near-bend: Hole h1 \(lip holes 1, flanges\) .*reaches into bend A .* keep its edge 4 mm clear/,
    ],
    mended: { ...BASE, flanges: ['lip on top 20 90 up holes from foot 11.5, middle, M5'] },
  },
  'sides that meet before the end: the angle at which they do': {
    inputs: { ...BASE, flanges: ['lip on top 60 90 up width 40 taper 30'] },
    told: [/^flanges\[0\]\.taper \| '30' \| less than 18.4 degrees/],
    mended: { ...BASE, flanges: ['lip on top 60 90 up width 40 taper 18'] },
  },
  'a joggle less than its two bends: the least': {
    inputs: { ...BASE, flanges: ['lip on top 30 joggle 0.4'] },
    told: [/^flanges\[0\]\.joggle \| '0.4' \| at least 2.13 mm/],
    mended: { ...BASE, flanges: ['lip on top 30 joggle 2.13'] },
  },
  'an outline whose foot is not as long as the stretch it is given': {
    inputs: {
      ...BASE,
      flanges: [{ name: 'lip', on: 'top', from: 10, to: 60, outline: '0,0; 40,0; 40,30; 0,30' }],
    },
    told: [/^flanges\[0\]\.to \| 60 \| .*40 mm \| from 10 to 50$/],
    mended: {
      ...BASE,
      flanges: [{ name: 'lip', on: 'top', from: 10, to: 50, outline: '0,0; 40,0; 40,30; 0,30' }],
    },
  },
  'one name for two flanges': {
    inputs: { ...BASE, flanges: ['lip on top 20', 'lip on bottom 20'] },
    told: [/^flanges\[1\]\.name \| 'lip' \| a name of its own \| call it lip 2$/],
    mended: { ...BASE, flanges: ['lip on top 20', 'lip 2 on bottom 20'] },
  },
  'a corner of a flange that does not exist': {
    inputs: {
      ...BASE,
      flanges: ['a on top 20', 'b on left 20'],
      corners: 'a and bb butt through a',
    },
    told: [/^corners\[0\]\.between \| 'bb' \| a flange: a, b \| did you mean b\?$/],
    mended: {
      ...BASE,
      flanges: ['a on top 20', 'b on left 20'],
      corners: 'a and b butt through a',
    },
  },
  'neither a base nor pieces': {
    inputs: { flanges: ['lip on top 20'] },
    told: [/^base \| nothing \| /],
    mended: { ...BASE, flanges: ['lip on top 20'] },
  },
  'a key that does not exist': {
    inputs: { ...BASE, flanges: [{ name: 'lip', on: 'top', hight: 20 }] },
    told: [
      /^flanges \| 'hight' in flange 1 \| the keys name, on, height, .* \| did you mean height\?$/,
    ],
    mended: { ...BASE, flanges: [{ name: 'lip', on: 'top', height: 20 }] },
  },
  'a word that has no place in a line': {
    inputs: { ...BASE, flanges: ['lip on top 20 90 up frm 20'] },
    told: [/^flanges \| 'lip on top 20 90 up frm 20' as flange 1 .* 'frm' has no meaning there/],
    mended: { ...BASE, flanges: ['lip on top 20 90 up from 20'] },
  },
  'an angle beyond the folder': {
    inputs: { ...BASE, flanges: ['lip on top 20 181 up'] },
    told: [/^flanges\[0\]\.angle \| '181' \| an angle from 0.5 to 180 degrees$/],
    mended: { ...BASE, flanges: ['lip on top 20 180 up'] },
  },
  'a length that is not there: the nearest': {
    inputs: { ...BASE, flanges: ['lip on top 20', 'ear on bottom lip.hight/2'] },
    told: [
      /^flanges\[1\]\.height \| 'lip.hight\/2' \| .* \| there is no lip.hight; did you mean lip.height\?$/,
    ],
    mended: { ...BASE, flanges: ['lip on top 20', 'ear on bottom lip.height/2'] },
  },
  'lengths that need each other: the way round': {
    inputs: { ...BASE, flanges: ['lip on top ear.height', 'ear on bottom lip.height'] },
    told: [/it goes round in a circle: ear.height -> lip.height -> ear.height$/],
    mended: { ...BASE, flanges: ['lip on top ear.height', 'ear on bottom 20'] },
  },
  'flanges that stand on each other': {
    inputs: { ...BASE, flanges: ['lip on ear end 20', 'ear on lip end 20'] },
    told: [/it goes round in a circle: lip -> ear -> lip$/],
    mended: { ...BASE, flanges: ['lip on top 20', 'ear on lip end 20'] },
  },
  'a hole measured from what is not there: the nearest': {
    inputs: { ...BASE, flanges: ['lip on top 30 holes from base 20, from base lft 30, M5'] },
    told: [/there is no base lft to measure from; did you mean base left\?$/],
    mended: { ...BASE, flanges: ['lip on top 30 holes from base 20, from base left 30, M5'] },
  },
  'a cut-out that only touches an edge': {
    inputs: { base: { size: '120 x 80', cutouts: '40,60; 60,60; 50,80' } },
    told: [/^panel-cut-apart: base cut-out 1 only touches the edge of base at 50, 80/],
    mended: { base: { size: '120 x 80', cutouts: '40,60; 60,60; 50,75' } },
  },
  'a cut-out that parts a panel in two': {
    inputs: { base: { size: '120 x 80', cutouts: '40,-5; 60,-5; 60,90; 40,90' } },
    told: [/^panel-cut-apart: base cut-out 1 parts base in two/],
    mended: { base: { size: '120 x 80', cutouts: '40,-5; 60,-5; 60,60; 40,60' } },
  },
  'a flange where a notch is': {
    inputs: {
      base: { size: '120 x 80', cutouts: '50,70; 70,70; 70,90; 50,90' },
      flanges: ['lip on top 20 90 up from 10 to 60'],
    },
    told: [
      /^hole-off-metal: Hole h1 \(base cut-out 1\) in base crosses the outline/,
      /^hole-near-bend: Hole h1 \(base cut-out 1\) in base reaches into bend A/,
    ],
    mended: {
      base: { size: '120 x 80', cutouts: '50,70; 70,70; 70,90; 50,90' },
      flanges: ['lip on top 20 90 up from 10 to 46'],
    },
  },
};

describe('a mistake is told with what would be right, and that is right', () => {
  test.each(Object.entries(WRONG))('%s', (_, { inputs, told, mended }) => {
    expect(toldBy(inputs)).toEqual(told.map((text) => expect.stringMatching(text)));
    expect(toldBy(mended)).toEqual([]);
  });
});

describe('more than anybody folds', () => {
  const stair = (count: number) =>
    Array.from({ length: count }, (_, i) => ({
      name: `f${i + 1}`,
      on: i === 0 ? 'base top' : `f${i} end`,
      height: 12,
      direction: i % 2 === 0 ? 'up' : 'down',
    }));

  test.each([
    ['a hundred flanges on each other', 100, []],
    ['two hundred levels', 200, [/^flanges \| '?200 flanges'? \| at most 100$/]],
    ['two thousand flanges', 2000, [/^flanges \| '?2000 flanges'? \| at most 100$/]],
  ] as const)('%s get an answer in bounded time', (_, count, told) => {
    const began = performance.now();
    expect(toldBy({ base: '60 x 12', thickness: 1, radius: 1, flanges: stair(count) })).toEqual(
      told.map((text) => expect.stringMatching(text)),
    );
    // Some hundred times what it takes.
    expect(performance.now() - began).toBeLessThan(60_000);
  });

  test('a circle of a hundred lengths is told in short', () => {
    const flanges = stair(100).map((flange, i) => ({
      ...flange,
      height: `f${((i + 1) % 100) + 1}.height`,
    }));
    const [told, ...more] = toldBy({ base: '60 x 12', flanges });
    expect(more.length).toBeLessThan(100);
    expect(told).toMatch(/f2\.height -> f3\.height -> .*\.\.\. -> .*f1\.height -> f2\.height$/);
    expect(told?.length).toBeLessThan(300);
  });
});
