import { figure } from '../../src/template.ts';
import type { Formed, Vec2 } from '../../src/template.ts';
import type { Vent } from './inputs.ts';
import { cornersOf, saidOnBlank } from './louvres.ts';
import { type Box, boxAbout } from './sizes.ts';

/** A bead as it lies on the face. */
export interface Bead {
  readonly called: string;
  readonly box: Box;
}

/** How long a bead is from end to end, mm. */
export const beadLengthMm = (v: Vent): number =>
  (v.beadRun === 'level' ? v.width : v.height) - 2 * v.beadClear;

/** The size of the panel across the beads, mm. */
export const acrossBeadsMm = (v: Vent): number => (v.beadRun === 'level' ? v.height : v.width);

/** The middle of the first bead; without a figure, so that all of them stand about the middle. */
export const firstBeadMm = (v: Vent): number =>
  v.beadsAt ?? (acrossBeadsMm(v) - (v.beads - 1) * v.beadPitch) / 2;

export const beadsOf = (v: Vent): readonly Bead[] =>
  Array.from({ length: v.beads }, (_, i): Bead => {
    const at = firstBeadMm(v) + i * v.beadPitch;
    const long = beadLengthMm(v);
    return {
      called: `bead ${i + 1}`,
      box:
        v.beadRun === 'level'
          ? boxAbout(v.width / 2, at, long, v.beadWidth)
          : boxAbout(at, v.height / 2, v.beadWidth, long),
    };
  });

/**
 * What is formed of each bead: its middle, from end to end, and its edges, which run out round half a
 * width before the ends (common practice).
 */
export const formedBeads = (v: Vent, beads: readonly Bead[]): Formed[] =>
  beads.map(({ called, box }) => {
    const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
    const half = beadLengthMm(v) / 2;
    const at = (u: number, w: number): Vec2 =>
      v.beadRun === 'level' ? [x + u, y + w] : [x - w, y + u];
    const line = (end: number, w: number) => ({ from: at(-end, w), to: at(end, w) });
    return {
      called,
      inputs: ['beadsAt', 'beadPitch', 'beadClear'],
      zone: cornersOf(box),
      proudMm: v.beadDepth,
      direction: v.beadSide,
      marks: [
        {
          ...line(half, 0),
          ...saidOnBlank(
            v.beadSide,
            (way) => `${called} ${way} ${figure(v.beadWidth)} x ${figure(v.beadDepth)}`,
          ),
        },
        line(half - v.beadWidth / 2, v.beadWidth / 2),
        line(half - v.beadWidth / 2, -v.beadWidth / 2),
      ],
    };
  });
