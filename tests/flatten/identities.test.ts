import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { type Loop, polygon } from '../../src/geometry/loop.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { moveLoop, movePoint } from '../../src/geometry/motion2.ts';
import type { FlatPanel, FlatPattern } from '../../src/model/flat.ts';
import { mirrorLoop, mirrorPart } from '../../src/model/mirror.ts';
import type { Panel, Part } from '../../src/model/part.ts';
import { reroot } from '../../src/model/reroot.ts';
import { commonArea } from '../helpers/clipper.ts';
import { inTurns } from '../helpers/extent.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { box } from '../helpers/parts.ts';
import { TREES } from '../helpers/trees.ts';

const RULES = [{ id: 'k', k: 0.42 }, { id: 'din6935' }, { id: 'faa' }] as const;
const K = RULES[0];

/**
 * The same part with every panel's coordinates turned and shifted: nothing but the drawing's
 * position may change.
 */
const turned = (part: Part, deg: number): Part => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const m = { c, s, x: 17, y: -5 };
  const turn = (p: Panel): Panel => ({
    ...p,
    outline: moveLoop(m, p.outline),
    cutouts: p.cutouts.map((h) =>
      h.kind === 'round'
        ? { ...h, centre: movePoint(m, h.centre) }
        : { ...h, loop: moveLoop(m, h.loop) },
    ),
  });
  return { ...part, panels: part.panels.map(turn) };
};

const VARIANTS = TREES.flatMap(({ name, part }, place) =>
  inTurns(
    [
      { name, part },
      { name: `${name}, mirrored`, part: mirrorPart(part) },
      { name: `${name}, turned by 33 degrees`, part: turned(part, 33) },
      { name: `${name}, mirrored and turned by 211 degrees`, part: turned(mirrorPart(part), 211) },
    ],
    place,
    4,
  ),
);

const strips = (flat: FlatPattern): Loop[] =>
  flat.bends.map((b) =>
    polygon(b.parentTangent[0], b.childTangent[0], b.childTangent[1], b.parentTangent[1]),
  );

const inPlace = (panel: FlatPanel): Loop => moveLoop(panel.placement, panel.region);

describe.each(VARIANTS)('$name', ({ part }) => {
  const flat = flatten(part, K);

  it('is made without a finding', () => {
    expect(flat.findings).toEqual([]);
  });

  it('has one simple closed outline without pieces of no length', () => {
    expect(toFlatten(flat.outline).isValid()).toBe(true);
    expect(signedArea(flat.outline)).toBeGreaterThan(0);
    const lengths = flat.outline.map((v, i) =>
      Math.hypot(v.x - (flat.outline.at(i - 1)?.x ?? 0), v.y - (flat.outline.at(i - 1)?.y ?? 0)),
    );
    expect(Math.min(...lengths)).toBeGreaterThan(1e-3);
  });

  it('has the area of its flat regions and bend zones less what the reliefs take', () => {
    const pieces = [...flat.panels.map(inPlace), ...strips(flat)].filter(
      (l) => Math.abs(signedArea(l)) > 1e-9,
    );
    const whole = pieces.reduce((sum, l) => sum + Math.abs(signedArea(l)), 0);
    const inside = pieces.reduce((sum, l) => sum + commonArea(l, flat.outline), 0);
    const gone = whole - inside;
    expect(gone).toBeGreaterThan(-0.01);
    expect(Math.abs(signedArea(flat.outline) - (whole - gone))).toBeLessThan(0.02);
  });

  it('folds back, by other means, to where its mould lines say', () => {
    if (part.folds.some((f) => f.angleDeg > 90)) return;
    for (const rule of RULES) expectFoldsBack(part, flatten(part, rule));
  });
});

/**
 * Outlines as the same curve: a vertex of either lies on the other, and the areas and lengths
 * agree.
 */
const expectSameOutline = (a: Loop, b: Loop): void => {
  expect(a).toHaveLength(b.length);
  expect(signedArea(a)).toBeCloseTo(signedArea(b), 6);
  expect(perimeter(a)).toBeCloseTo(perimeter(b), 6);
  for (const v of a) {
    const nearest = Math.min(...b.map((w) => Math.hypot(v.x - w.x, v.y - w.y)));
    expect(nearest).toBeLessThan(1e-6);
  }
};

const homed = (loop: Loop): Loop => {
  const [x, y] = [Math.min(...loop.map((v) => v.x)), Math.min(...loop.map((v) => v.y))];
  return loop.map((v) => ({ ...v, x: v.x - x, y: v.y - y }));
};

describe.each(TREES)('$name', ({ part }) => {
  it('mirrored makes the mirrored blank, which is the blank turned over, and mirrored twice itself', () => {
    const flat = flatten(part, K);
    const other = flatten(mirrorPart(part), K);
    expectSameOutline(homed(other.outline), homed(mirrorLoop(flat.outline)));
    expect(other.bends.map((b) => [b.id, b.direction, b.angleDeg])).toEqual(
      flat.bends.map((b) => [b.id, b.direction, b.angleDeg]),
    );
    expect(
      flatten(mirrorPart(mirrorPart(part)), K).outline.map((v) => [v.x, v.y, v.bulge]),
    ).toEqual(
      flat.outline.map((v) => [
        expect.closeTo(v.x, 9),
        expect.closeTo(v.y, 9),
        expect.closeTo(v.bulge, 9),
      ]),
    );
  });

  it('makes the same blank whichever panel it starts from', () => {
    const flat = flatten(part, K);
    for (const { id } of part.panels) {
      const other = flatten(reroot(part, id), K);
      expect(other.findings).toEqual([]);
      // Turned in the drawing, so only what turning leaves alone is compared.
      expect(other.outline).toHaveLength(flat.outline.length);
      expect(signedArea(other.outline)).toBeCloseTo(signedArea(flat.outline), 6);
      expect(perimeter(other.outline)).toBeCloseTo(perimeter(flat.outline), 6);
    }
  });

  it('has the same overall size from either hand', () => {
    const [mine, theirs] = [part, mirrorPart(part)].map((p) => foldedSizeMm(p, flatten(p, K)));
    expect(theirs).toEqual(mine?.map((v) => expect.closeTo(v, 6)));
  });
});

describe('limits', () => {
  it('with no thickness and no radius the blank is the net of the polyhedron', () => {
    const flat = flatten(
      box(100, 60, 40, 90, 0, 1e-3, {
        cornerGapMm: 0,
        relief: { shape: 'slit', widthMm: 0, leastSlotMm: 1e-3 },
      }),
      K,
    );
    expect(flat.widthMm).toBeCloseTo(180, 2);
    expect(flat.heightMm).toBeCloseTo(140, 2);
    expect(flat.areaMm2).toBeCloseTo(100 * 60 + 2 * 40 * (100 + 60), -1);
  });

  it('with no angle the blank is the outlines laid side by side', () => {
    const flat = flatten(
      box(100, 60, 40, 0, 3, 3, {
        cornerGapMm: 0,
        relief: { shape: 'slit', widthMm: 0, leastSlotMm: 0 },
      }),
      K,
    );
    expect(flat.outline).toHaveLength(12);
    expect(flat.areaMm2).toBeCloseTo(100 * 60 + 2 * 40 * (100 + 60), 9);
  });
});
