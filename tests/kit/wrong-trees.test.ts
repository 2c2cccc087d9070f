import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/index.ts';
import {
  assemble,
  type CommonValues,
  defineTemplate,
  fields,
  flatten,
  type GivenPart,
  type GivenSide,
  mirrorPart,
  polygon,
  rectangle,
  reroot,
  roundFreeCorners,
  splitPlate,
  stripPart,
} from '../../src/template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/**
 * What an author outside may get wrong in a tree: it is made, or stopped by a finding that names
 * the panel, the fold or the edge. Nothing of the kit throws.
 */

const K = { id: 'k', k: 0.42 } as const;

const made = (build: (values: CommonValues) => GivenPart, hand = 'both') => {
  const read = makeParts(
    defineTemplate({
      family: 'crate-stop',
      summary: 'A stop for grape crates.',
      inputs: { width: fields.length({ about: 'Width.', min: 1, max: 500, default: 80 }) },
      build: (values) => ({ part: build(values) }),
    }),
    { thickness: 2, hand },
    UNPLANNED,
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.parts;
};

/** What common inputs a build receives, for what is called without one. */
const valuesOf = (): CommonValues => {
  let seen: CommonValues | undefined;
  made((values) => {
    seen = values;
    return { panels: [{ id: 'floor', outline: rectangle(0, 0, 80, 50) }] };
  }, 'left');
  return seen as CommonValues;
};

const stopOf = (tree: GivenPart): string => {
  const parts = made(() => tree);
  const messages = parts.map((p) => p.result.findings.map((f) => `${f.rule}: ${f.message}`).join());
  expect(parts.map((p) => [p.stopped, p.files()])).toEqual([
    [true, []],
    [true, []],
  ]);
  expect(messages[1]).toBe(messages[0]);
  return messages[0] ?? '';
};

const stop = (parent: GivenSide, outline = rectangle(0, 0, 80, 50)): GivenPart => ({
  panels: [
    { id: 'floor', outline },
    { id: 'lip', outline: rectangle(0, 0, 80, 20) },
  ],
  folds: [
    { id: 'A', parent, child: { panel: 'lip', edge: 'bottom' }, angleDeg: 90, direction: 'up' },
  ],
});

describe('an edge by its name', () => {
  test('is the edge by its number, on either hand, and whichever way the outline begins', () => {
    const files = (tree: GivenPart) => made(() => tree).flatMap((p) => p.files());
    const byNumber = files(stop({ panel: 'floor', edge: 2 }));
    expect(files(stop({ panel: 'floor', edge: 'top' }))).toEqual(byNumber);
    const renamed = polygon([0, 0], [80, 0], [80, 50, 'rear'], [0, 50]);
    expect(files(stop({ panel: 'floor', edge: 'rear' }, renamed))).toEqual(byNumber);
    const points = [
      { x: 0, y: 0 },
      { x: 80, y: 0 },
      { x: 80, y: 50, edge: 'rear' },
      { x: 0, y: 50 },
    ];
    const bare = { id: 'floor', outline: points };
    const tree = stop({ panel: 'floor', edge: 'rear' });
    expect(files({ ...tree, panels: [bare, ...tree.panels.slice(1)] })).toEqual(byNumber);
  });

  test('takes a stretch like any other', () => {
    const stretch = { panel: 'floor', edge: 'top', from: 10, to: 60 };
    const tree = stop(stretch);
    const narrow = { id: 'lip', outline: rectangle(0, 0, 50, 20) };
    const [part] = made(() => ({ ...tree, panels: [...tree.panels.slice(0, 1), narrow] }), 'left');
    expect(part?.stopped).toBe(false);
  });

  test.each([
    [
      'that the panel has not',
      stop({ panel: 'floor', edge: 'tpo' }),
      "Fold A is on edge 'tpo' of 'floor', which has edges bottom, right, top, left: name one of these.",
    ],
    [
      'that two of its edges have',
      stop(
        { panel: 'floor', edge: 'side' },
        polygon([0, 0], [80, 0, 'side'], [80, 50, 'top'], [0, 50, 'side']),
      ),
      "Fold A is on edge 'side' of 'floor', and edges 1 and 3 are called that: give each a name of its own; the names are side, top, side.",
    ],
    [
      'on an outline without names',
      stop({ panel: 'floor', edge: 'top' }, polygon([0, 0], [80, 0], [80, 50], [0, 50])),
      "Fold A is on edge 'top' of 'floor', whose edges have no names: give its number, 0 to 3, or its name at the point where it begins, as { x, y, edge: 'top' }.",
    ],
    [
      'of an arc',
      stop({ panel: 'floor', edge: 'crown' }, [
        { x: 0, y: 0, bulge: 0 },
        { x: 80, y: 0, bulge: 0 },
        { x: 80, y: 50, bulge: 0.2, edge: 'crown' },
        { x: 0, y: 50, bulge: 0 },
      ]),
      "Fold A is on edge 'crown' of 'floor', which is an arc",
    ],
    [
      'whose stretch is longer than the edge',
      stop({ panel: 'floor', edge: 'top', from: 10, to: 90 }),
      "Fold A takes edge 'top' of 'floor' from 10 to 90 mm, but it is 80 mm long",
    ],
    [
      'of another length',
      stop({ panel: 'floor', edge: 'right' }),
      "joins 50 mm of edge 'right' of 'floor' to 80 mm of edge 'bottom' of 'lip'",
    ],
    [
      'of a panel that there is not',
      stop({ panel: 'flor', edge: 'top' }),
      "Fold A has the parent 'flor', which is no panel: name one of 'floor', 'lip'",
    ],
    [
      'by a number beyond the last, which tells the names too',
      stop({ panel: 'floor', edge: 7 }),
      'which has edges 0 to 3: name one of these, or one by its name: bottom, right, top, left.',
    ],
  ])('%s is a stop that says which there are', (_, tree, says) => {
    expect(stopOf(tree)).toContain(says);
  });

  test('is kept through what is cut of its panel', () => {
    const rounded = roundFreeCorners('floor', rectangle(0, 0, 80, 50), ['top'], {
      cornerRadiusMm: 5,
      cornerChamferMm: 0,
    });
    expect(rounded.outline.map(({ edge }) => edge)).toEqual([
      'bottom',
      'right',
      undefined,
      'top',
      undefined,
      'left',
    ]);
  });
});

describe('a corner by the names of its edges', () => {
  const values = { cornerRadiusMm: 5, cornerChamferMm: 0 };
  const floor = rectangle(0, 0, 80, 50);
  const round = (
    ...[corners, keep]: [Parameters<typeof roundFreeCorners>[2], Record<string, number>?]
  ) => roundFreeCorners('floor', floor, corners, values, keep);

  test('is the point by its number, and so is what a bend keeps of an edge', () => {
    expect(round([['right', 'top']])).toEqual(round([2]));
    expect(round([['top', 'right']])).toEqual(round([2]));
    expect(round(['top'])).toEqual(round([2, 3]));
    const tight = roundFreeCorners('floor', floor, [2], values, [0, 47, 0, 0]);
    expect(round([['right', 'top']], { right: 47 })).toEqual(tight);
    expect(tight.findings.map((f) => f.rule)).toEqual(['corner-radius-too-big']);
  });

  test.each([
    [
      round(['tpo']),
      "The outline of floor has no one edge 'tpo': its edges are bottom, right, top, left.",
    ],
    [round([['top', 'bottom']]), "has no corner between edges 'top' and 'bottom': its edges are"],
    [round([9]), 'has no point 9: its edges are bottom, right, top, left'],
    [round(['top'], { lef: 3 }), "has no one edge 'lef'"],
    [
      roundFreeCorners('floor', polygon([0, 0], [9, 0], [9, 9]), ['top'], values),
      "has no one edge 'top': its edges have no names, and its points are 0 to 2.",
    ],
  ])('is a stop where there is none %#', ({ outline, findings }, says) => {
    expect(findings.map((f) => f.severity)).toEqual(['stop']);
    expect(findings[0]?.message).toContain(says);
    expect(outline.every(({ bulge }) => bulge === 0)).toBe(true);
  });
});

/** Names and numbers of panels and edges, most of which are right. */
const side = fc.record({
  panel: fc.constantFrom('floor', 'lip', 'rim', 'x', ''),
  edge: fc.constantFrom<string | number>('bottom', 'top', 'left', 'x', '', 0, 2, -1, 7, 0.5, NaN),
  from: fc.constantFrom(undefined, 0, 10, -5, NaN),
  to: fc.constantFrom(undefined, 80, 60, 1e9),
});
const tree = fc.record({
  root: fc.constantFrom('floor', 'lip', 'x'),
  panels: fc.array(
    fc.record({
      id: fc.constantFrom('floor', 'lip', 'rim'),
      outline: fc.constantFrom(
        rectangle(0, 0, 80, 50),
        rectangle(0, 0, 80, NaN),
        polygon([0, 0, 'top'], [80, 0, 'top'], [80, 50]),
        polygon([0, 0], [0, 50], [80, 50]),
        polygon(),
      ),
    }),
    { maxLength: 3 },
  ),
  folds: fc.array(
    fc.record({
      id: fc.constantFrom('A', 'B'),
      parent: side,
      child: side,
      angleDeg: fc.constantFrom(90, 0, 180, 200, NaN),
      direction: fc.constantFrom('up' as const, 'down' as const),
    }),
    { maxLength: 3 },
  ),
});

/** Without what is left out, as a type with exact properties wants it. */
const given = (drawn: unknown): GivenPart =>
  JSON.parse(JSON.stringify(drawn, keepNaN), readNaN) as GivenPart;
const keepNaN = (_: string, value: unknown): unknown =>
  Number.isNaN(value) ? 'not a number' : value;
const readNaN = (_: string, value: unknown): unknown => (value === 'not a number' ? NaN : value);

test('any tree of panels and folds goes through the kit without a throw, and is made or told', () => {
  const values = valuesOf();
  fc.assert(
    fc.property(tree, (drawn) => {
      const part = assemble(values, given(drawn));
      for (const one of [part, mirrorPart(part), reroot(part, 'lip'), reroot(part, 'x')]) {
        const { outline, findings } = flatten(one, K);
        if (outline.length === 0) expect(findings.some((f) => f.severity === 'stop')).toBe(true);
      }
      for (const one of made(() => given(drawn)))
        if (one.stopped) expect(one.result.findings.some((f) => f.severity === 'stop')).toBe(true);
    }),
    { numRuns: fuzzRuns(200) },
  );
});

test('any strip and any fold lines give a part or findings, and throw nothing', () => {
  const values = valuesOf();
  const mm = fc.constantFrom(80, 30, 5, 0, -10, NaN, 1e7);
  const place = fc.tuple(mm, mm);
  const angleDeg = fc.constantFrom(90, 30, 0, 180, 270, NaN);
  const direction = fc.constantFrom('up' as const, 'down' as const);
  const panel = fc.record({ id: fc.constantFrom('a', 'b', ''), lengthMm: mm });
  const line = fc.record({
    id: fc.constantFrom('1', '2'),
    called: fc.constant('fold line 1 of folds'),
    input: fc.constant('folds'),
    from: place,
    to: place,
    angleDeg,
    direction,
  });
  const bends = { insideRadiusMm: 3, slots: { longestMm: 50, landMm: 5, widthMm: 1 } };
  fc.assert(
    fc.property(
      fc.array(panel, { maxLength: 3 }),
      fc.array(fc.record({ angleDeg, direction }), { maxLength: 3 }),
      mm,
      fc.array(line, { maxLength: 3 }),
      (panels, folds, width, lines) => {
        const strip = stripPart(values, width, panels, folds, 'a');
        if (strip.part !== undefined) flatten(strip.part, K);
        const split = splitPlate(rectangle(0, 0, 80, 50), lines, [], bends);
        if ('findings' in split) expect(split.findings.length).toBeGreaterThan(0);
        else flatten(assemble(values, split), K);
      },
    ),
    { numRuns: fuzzRuns(300) },
  );
});
