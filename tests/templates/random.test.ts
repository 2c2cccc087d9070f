import flattenJs from '@flatten-js/core';
import fc from 'fast-check';
import makerjs from 'makerjs';
import { describe, expect, test } from 'vitest';
import { describeInputs } from '../../src/forms/read.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { makerModel } from '../../src/maker-model.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { inputsOf } from '../helpers/random-inputs.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import { fileNames } from '../helpers/file-names.ts';

/**
 * By libraries of others: the outline is simple and every hole lies within it. Mirrored twice it is
 * the same. Each of the two errs on a few points (one on those level with an arc's end, the other
 * on some of a slanting line through one), so a point is outside when both say so.
 */
const expectSound = ({ part, flat, result }: MadePart): void => {
  if (part === undefined || flat === undefined)
    throw new Error(`${result.name} has no flat pattern`);
  const outline = toFlatten(flat.outline);
  expect(outline.isValid()).toBe(true);
  const model = makerModel({
    title: result.name,
    items: [{ kind: 'loop', role: 'outline', loop: flat.outline }],
  });
  for (const hole of flat.cutouts) {
    const points =
      hole.kind === 'round'
        ? roundPoints(hole.centre, hole.diameterMm / 2)
        : hole.loop.map((v) => [v.x, v.y] as const);
    for (const [x, y] of points)
      expect(
        makerjs.measure.isPointInsideModel([x, y], model) ||
          outline.contains(new flattenJs.Point(x, y)),
        `${hole.from} at ${x}, ${y}`,
      ).toBe(true);
  }
  const twice = flatten(mirrorPart(mirrorPart(part)), { id: 'k', k: 0.42 }).outline;
  const once = flatten(part, { id: 'k', k: 0.42 }).outline;
  expect(twice.map((v) => [v.x, v.y, v.bulge])).toEqual(
    once.map((v) => [v.x, v.y, v.bulge].map((n) => expect.closeTo(n, 6))),
  );
};

const roundPoints = ([x, y]: Vec2, r: number): Vec2[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((i) => [
    x + r * Math.cos((i * Math.PI) / 4),
    y + r * Math.sin((i * Math.PI) / 4),
  ]);

const expectSameBothHands = (left: MadePart, right: MadePart | undefined): void => {
  expect(left.stopped).toBe(left.result.findings.some((f) => f.severity === 'stop'));
  if (left.stopped) return;
  const [a, b] = [left.result, right?.result];
  expect(a.blank?.areaMm2).toBeGreaterThan(0);
  expect(b?.blank?.areaMm2).toBeCloseTo(a.blank?.areaMm2 ?? 0, 4);
  expect(b?.blank?.widthMm).toBeCloseTo(a.blank?.widthMm ?? 0, 5);
  expect(b?.blank?.cutLengthMm).toBeCloseTo(a.blank?.cutLengthMm ?? 0, 4);
  for (const [i, size] of (a.folded?.sizeMm ?? []).entries())
    expect(b?.folded?.sizeMm[i]).toBeCloseTo(size, 5);
  expect(left.files()).toHaveLength(fileNames('').length);
  expectSound(left);
};

/**
 * Their inputs have to make sense together: random ones stand in tests/panels and in
 * tests/templates/tank-plan.test.ts, tank-sections.test.ts and duct-between-random.test.ts.
 */
const OF_THEIR_OWN = ['duct-between', 'panels', 'tank-plan', 'tank-sections'];
const OTHERS = [...FAMILIES.keys()].filter((family) => !OF_THEIR_OWN.includes(family));

describe.each(OTHERS)('%s out of random valid inputs', (family) => {
  test('is a whole part or says what stops it, and the other hand measures the same', async () => {
    const template = await loadFamily(family);
    let whole = 0;
    fc.assert(
      fc.property(inputsOf(describeInputs(template)), (inputs) => {
        const { cornerChamfer, ...others } = inputs;
        const one =
          cornerChamfer === undefined ? others : { ...others, cornerChamfer, cornerRadius: 0 };
        const made = makeParts(template, { ...one, hand: 'both' }, UNPLANNED);
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        const [lefts, rights] = (['left', 'right'] as const).map((hand) =>
          made.parts.filter((p) => p.result.hand === hand),
        );
        expect(rights?.map((p) => [p.result.piece, p.stopped])).toEqual(
          lefts?.map((p) => [p.result.piece, p.stopped]),
        );
        // What can be cut folds to what was asked, by the family's own word too.
        const unproved = made.parts.flatMap((p) =>
          p.result.findings.filter((f) => f.rule === 'proof-failed').map((f) => f.message),
        );
        expect(unproved).toEqual([]);
        if (made.parts.every((p) => !p.stopped)) whole += 1;
        for (const [i, left] of lefts?.entries() ?? []) expectSameBothHands(left, rights?.[i]);
      }),
      { numRuns: fuzzRuns(300, 30) },
    );
    expect(whole).toBeGreaterThan(shareOf(2));
  });
});
