import { lacks } from '../model/measured.ts';
import { leastRadiusAlongGrainMm, leastRadiusMm } from '../bending/least-radius.ts';
import { atLeast, figure } from '../text/figures.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { cross, sub, unit } from '../geometry/vec2.ts';
import { note } from '../model/finding.ts';
import type { FlatBend, FlatPattern } from '../model/flat.ts';
import type { Material } from '../model/material.ts';
import type { Check } from './check.ts';

/** Fold lines nearer to parallel than this are laid across the rolling direction together. */
const SAME_WAY_SIN = 0.5;

/** A bend that holds across the rolling direction and cracks along it. */
export const grainDirection: Check = {
  rule: 'grain-direction',
  title: 'A bend holds only when it lies across the rolling direction.',
  severities: ['note'],
  reason: 'Rolled sheet cracks sooner when it is folded along the direction it was rolled in.',
  source:
    'DIN 6935: a fold along the rolling direction takes the least radius of the next thickness class; taken over for aluminium, common practice',
  measured: 'the inside radius against the least along the rolling direction',
  mend: 'Lay the folds across the rolling direction, or take a larger radius.',
  run: ({ flat, material }) => {
    const along = leastRadiusAlongGrainMm(material, flat.thicknessMm);
    const tight = tightBends(flat, material);
    const [first] = tight;
    if (first === undefined) return [];
    const names = `${tight.length === 1 ? 'Bend' : 'Bends'} ${tight.map((b) => b.id).join(', ')}`;
    const radius = [...new Set(tight.map((b) => figure(b.insideRadiusMm)))].join(' and ');
    const limit = `inside radius ${radius} holds only across the rolling direction of ${material.name}`;
    const mend = tight.every((b) => Math.abs(sineBetween(first, b)) <= SAME_WAY_SIN)
      ? `Cut the blank so that the sheet was rolled square to ${tight.length === 1 ? 'the fold line' : 'these fold lines'}, or use a radius of ${atLeast(along)} or more.`
      : `These folds run in several directions: use a radius of ${atLeast(along)} or more, or cut the blank with the rolling direction askew to all of them.`;
    return [
      {
        ...note(grainDirection, `${names}: ${limit}. ${mend}`),
        inputs: ['radius'],
        at: first.centreLine[0],
        ...lacks(first.insideRadiusMm, along),
      },
    ];
  },
};

/** The bends that hold across the rolling direction alone. */
export const tightBends = (
  { thicknessMm, bends }: FlatPattern,
  material: Material,
): readonly FlatBend[] => {
  const along = leastRadiusAlongGrainMm(material, thicknessMm);
  return bends.filter(
    (b) =>
      b.midSurface !== true &&
      b.insideRadiusMm < along - NOISE_MM &&
      b.insideRadiusMm >= leastRadiusMm(material, thicknessMm, b.angleDeg) - NOISE_MM,
  );
};

/**
 * How the rolling direction is wished to run in a blank, by its x axis, so that all tight bends lie
 * across it, as near as one of the two ways comes; `free` where there is none, or they run in
 * several directions.
 */
export const grainWish = (flat: FlatPattern, material: Material): 'along' | 'across' | 'free' => {
  const ways = tightBends(flat, material).map(directionOf);
  if (ways.length === 0) return 'free';
  if (ways.every(([, y]) => Math.abs(y) <= SAME_WAY_SIN)) return 'across';
  return ways.every(([x]) => Math.abs(x) <= SAME_WAY_SIN) ? 'along' : 'free';
};

const sineBetween = (a: FlatBend, b: FlatBend): number => cross(directionOf(a), directionOf(b));
const directionOf = ({ centreLine: [from, to] }: FlatBend) => unit(sub(to, from));
