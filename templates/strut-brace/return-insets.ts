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
  /** The least from `mm` on that suits the reliefs; no more than `mm` where all is well. */
  readonly needMm: number;
}

/** A relief is as wide and as deep, from the side in, as `flatten` cuts it. */
const reliefSize = (v: StrutBrace): { readonly wide: number; readonly deep: number } => {
  const wide = v.reliefShape === 'slit' ? v.leastSlotMm : Math.max(v.thicknessMm, v.leastSlotMm);
  return { wide, deep: setback(v) + Math.max(v.insideRadiusMm + v.thicknessMm, wide / 2) };
};

/**
 * How far the return stops before one end of its edge. A given `returnInset` holds at the ends of
 * the side; where a crease or a notch cuts the side it stops as it must.
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
  // From end to end there is no relief.
  return {
    mm: v.returnInset,
    needMm: v.returnInset === 0 ? 0 : from(Math.max(least, v.returnInset)),
  };
}

/**
 * Along the side from where the crease crosses it: its bend, and what a slanting crease comes
 * nearer by within the depth of the relief. And so far that the two returns do not meet when the
 * crease turns them towards each other by half its angle each.
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
 * The least inset from `least` on whose relief keeps two thicknesses of metal to every hole (common
 * practice).
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
    .flatMap((hole) => spotsOf(hole, 2 * v.thicknessMm))
    .flatMap(({ centre, radius }) => {
      const [at, off] = [dot(sub(centre, end), dir), dot(sub(centre, end), into)];
      const below = Math.max(0, off - deep);
      const half = below >= radius ? 0 : Math.sqrt(radius * radius - below * below);
      return half === 0 ? [] : [[at - half, at + half + wide] as const];
    });
  // From low to high, so that one that is passed is not met again.
  return refused
    .toSorted((a, b) => a[0] - b[0])
    .reduce((inset, [low, high]) => (inset > low && inset < high - NOISE_MM ? high : inset), least);
}

export const setback = (v: StrutBrace): number =>
  setbackMm(90, v.insideRadiusMm, v.thicknessMm, v.measure);
