import {
  cross,
  dot,
  leftOf,
  NOISE_MM,
  setbackMm,
  sub,
  unit,
  type Vec2,
} from '../../src/template.ts';
import type { CreaseLine } from './crease.ts';
import { spotsOf } from './holes.ts';
import { endsSide, type Side } from './side.ts';
import type { BraceHole } from './sizes.ts';
import type { StrutBrace } from './inputs.ts';

/** How far a return edge stops before an end of its side. */
export interface Inset {
  readonly mm: number;
  /**
   * The least inset, at least `mm`, that suits the reliefs; it is not above `mm` where all is well.
   */
  readonly needMm: number;
}

/** Size of a relief, as wide as `flatten` cuts it and as deep from the side in. */
const reliefSize = (v: StrutBrace): { readonly wide: number; readonly deep: number } => {
  const wide = v.reliefShape === 'slit' ? v.leastSlotMm : Math.max(v.thicknessMm, v.leastSlotMm);
  return { wide, deep: setback(v) + Math.max(v.insideRadiusMm + v.thicknessMm, wide / 2) };
};

/**
 * How far the return stops before one end of its edge. A given `returnInset` applies at the ends of
 * the side; where a crease or a notch cuts the side, the return stops as far away as it must.
 */
export function insetAt(
  v: StrutBrace,
  side: Side,
  end: Vec2,
  other: Vec2,
  holes: readonly BraceHole[],
  crease: CreaseLine | undefined,
): Inset {
  const { wide } = reliefSize(v);
  const isOwn = endsSide(side, end);
  const atCrease = !isOwn && crease !== undefined ? besideCrease(v, side, end, crease) : 0;
  const from = (least: number): number => passHoles(v, side, end, other, holes, least);
  const least = atCrease + wide + v.thicknessMm;
  if (!isOwn || v.returnInset === undefined) return { mm: from(least), needMm: 0 };
  // A return from end to end has no relief.
  return {
    mm: v.returnInset,
    needMm: v.returnInset === 0 ? 0 : from(Math.max(least, v.returnInset)),
  };
}

/**
 * Least inset from the place where the crease crosses the side: the width of its bend, and the
 * distance by which a slanting crease comes nearer within the depth of the relief. It is also so
 * large that the two returns do not meet when the crease turns each of them towards the other by
 * half its angle.
 */
function besideCrease(v: StrutBrace, side: Side, end: Vec2, [from, to]: CreaseLine): number {
  const [along, line] = [unit(sub(side.to, side.from)), unit(sub(to, from))];
  const sine = Math.abs(cross(along, line));
  if (sine < 0.01 || Math.abs(cross(line, sub(end, from))) > 1) return 0;
  const { deep } = reliefSize(v);
  const zone =
    setbackMm(v.creaseAngle, v.insideRadiusMm, v.thicknessMm, v.measure) / sine +
    deep * (Math.abs(dot(along, line)) / sine);
  const lean = v.returnHeight * Math.tan((v.creaseAngle * Math.PI) / 360) + v.cornerGapMm / 2;
  return Math.max(zone, lean);
}

/**
 * The smallest inset, `least` or more, whose relief keeps two thicknesses of metal to every hole
 * (common practice).
 */
function passHoles(
  v: StrutBrace,
  side: Side,
  end: Vec2,
  other: Vec2,
  holes: readonly BraceHole[],
  least: number,
): number {
  const { wide, deep } = reliefSize(v);
  const dir = unit(sub(other, end));
  const into = leftOf(unit(sub(side.to, side.from)));
  const refused = holes
    .flatMap((hole) => spotsOf(v, hole, 2 * v.thicknessMm))
    .flatMap(({ centre, radius }) => {
      const [at, off] = [dot(sub(centre, end), dir), dot(sub(centre, end), into)];
      const below = Math.max(0, off - deep);
      const half = below >= radius ? 0 : Math.sqrt(radius * radius - below * below);
      return half === 0 ? [] : [[at - half, at + half + wide] as const];
    });
  // The stretches are taken from low to high, so that one that has been passed is not met again.
  return refused
    .toSorted((a, b) => a[0] - b[0])
    .reduce((inset, [low, high]) => (inset > low && inset < high - NOISE_MM ? high : inset), least);
}

export const setback = (v: StrutBrace): number =>
  setbackMm(90, v.insideRadiusMm, v.thicknessMm, v.measure);
