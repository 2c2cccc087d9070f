import { polygon, type Loop } from '../geometry/loop.ts';
import { add, along, cross, dot, leftOf, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Part } from '../model/part.ts';
import { type Draft, jointFrom } from './draft.ts';
import { adjoiningFolds } from './walk.ts';
import { NEARLY_PARALLEL_SINE } from '../geometry/tolerance.ts';

/**
 * What is cut out of the blank where two folds meet, in the coordinates of the panel they stand on:
 * a circle about the crossing of the tangent lines, a square with a diagonal along the corner's
 * bisector (so that its sides lie along the edges at a square corner), or a slit along the
 * bisector. Each reaches at least inside radius and thickness past both tangent lines. The reliefs
 * are common practice; the crossing as the centre is after FAA-H-8083-31, ch. 4, 'Folding a box'.
 */
export const cornerReliefs = (draft: Draft, panel: string): Loop[] =>
  adjoiningFolds(draft.panels.get(panel)?.loop ?? []).flatMap(({ before, after, at }) => {
    const [a, b] = [jointFrom(draft, before, panel), jointFrom(draft, after, panel)];
    const depth = draft.part.thicknessMm + Math.max(a.fold.insideRadiusMm, b.fold.insideRadiusMm);
    if ([a, b].every(({ fold }) => fold.angleDeg === 0 || fold.midSurface === true)) return [];
    const apart = cross(a.parentDir, b.parentDir) < 0 ? innerHalfWidth(draft.part) : 0;
    return [reliefAt(draft.part, at, a.parentDir, b.parentDir, depth, apart)];
  });

/**
 * Half the width of a relief at an inner corner, where the two bend zones turn towards each other.
 * At the turn a each reaches (r + t) sin a, of which (r + K t) a lies flat already. Whatever K, r
 * and a are, that is at most one thickness more, along either edge.
 */
const innerHalfWidth = ({ thicknessMm, cornerGapMm }: Part): number =>
  thicknessMm / Math.SQRT2 + cornerGapMm / 2;

const reliefAt = (
  { relief }: Part,
  at: Vec2,
  before: Vec2,
  after: Vec2,
  depth: number,
  leastHalfWidth: number,
): Loop => {
  const inward = inwardBisector(before, after);
  // The slit is slightly wider than the distance between the flanges in the flat, so that its sides
  // never run along theirs.
  const halfWidth = Math.max(0.51 * relief.leastSlotMm, leastHalfWidth);
  // Sine of half the corner's inside angle: the share of a step along the bisector that leads away
  // from either edge.
  const sine = Math.max(0.3, Math.abs(dot(inward, leftOf(before))));
  if (relief.shape === 'round') return circle(at, inward, Math.max(depth, halfWidth));
  if (relief.shape === 'square')
    return diamond(
      at,
      inward,
      Math.max(depth * Math.max(Math.SQRT2, 1 / sine), relief.leastSlotMm),
    );
  return slit(at, inward, depth / sine, halfWidth);
};

const inwardBisector = (before: Vec2, after: Vec2): Vec2 => {
  const sum = add(leftOf(before), leftOf(after));
  return dot(sum, sum) < NEARLY_PARALLEL_SINE ** 2 ? unit(sub(after, before)) : unit(sum);
};

/**
 * A circle with its vertices on the bisector: one in the metal, one in the gap, never on the
 * outline that it cuts.
 */
const circle = (at: Vec2, axis: Vec2, radius: number): Loop =>
  [-radius, radius].map((reach) => {
    const [x, y] = along(at, axis, reach);
    return { x, y, bulge: 1 };
  });

const diamond = (at: Vec2, axis: Vec2, half: number): Loop =>
  polygon(
    along(at, axis, -half),
    along(at, leftOf(axis), -half),
    along(at, axis, half),
    along(at, leftOf(axis), half),
  );

/** A slit from as far outside as inside, so that it also opens the ends of the two bend zones. */
const slit = (at: Vec2, axis: Vec2, reach: number, halfWidth: number): Loop => {
  const side = scale(leftOf(axis), halfWidth);
  const [inner, outer] = [along(at, axis, reach), along(at, axis, -reach)];
  return polygon(sub(outer, side), sub(inner, side), add(inner, side), add(outer, side));
};
