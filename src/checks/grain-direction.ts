import { lacks } from '../model/measured.ts';
import { leastRadiusAlongGrainMm, leastRadiusMm } from '../bending/least-radius.ts';
import { atLeast, figure } from '../text/figures.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { cross, sub, unit } from '../geometry/vec2.ts';
import { note } from '../model/finding.ts';
import type { FlatBend } from '../model/flat.ts';
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
    const t = flat.thicknessMm;
    const along = leastRadiusAlongGrainMm(material, t);
    const tight = flat.bends.filter(
      (b) =>
        b.midSurface !== true &&
        b.insideRadiusMm < along - NOISE_MM &&
        b.insideRadiusMm >= leastRadiusMm(material, t, b.angleDeg) - NOISE_MM,
    );
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

const sineBetween = (a: FlatBend, b: FlatBend): number => cross(directionOf(a), directionOf(b));
const directionOf = ({ centreLine: [from, to] }: FlatBend) => unit(sub(to, from));
