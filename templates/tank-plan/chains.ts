import { length3, sub3 } from '../../src/template.ts';
import type { Vec3 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { type Chain, type Folded, isFoldedIn, type Sheet } from './panels.ts';
import type { Room, Shape } from './planes.ts';

/**
 * How the sides are parted into blanks, beginning at the corner with the seam; those of a pan hang
 * on its floor, and on no other side.
 */
export const chainsOf = (
  { low }: Pick<Shape, 'low'>,
  seam: number,
  blanks: TankPlan['blanks'],
): Chain[] => {
  const n = low.length;
  const round = Array.from({ length: n }, (_, i) => (seam + i) % n);
  if (blanks === 'plates' || blanks === 'pan') return round.map((side) => [side]);
  if (blanks !== 'halves') return [round];
  const lengths = round.map((side) =>
    length3(sub3(low[(side + 1) % n] as Vec3, low[side] as Vec3)),
  );
  const girth = lengths.reduce((sum, l) => sum + l, 0);
  // The corner that is nearest to half way round.
  const off = (count: number): number =>
    Math.abs(lengths.slice(0, count).reduce((sum, l) => sum + l, 0) - girth / 2);
  const count = round.slice(1).reduce((best, _, i) => (off(i + 1) < off(best) ? i + 1 : best), 1);
  return [round.slice(0, count), round.slice(count)];
};

/** The fold at a corner of a chain has a letter, in their order along it. */
export const foldName = (chain: Chain, corner: number): string => letter(chain.indexOf(corner) - 1);

/** Corners inside a chain are folded; those between chains, and the one at the seam, are welded. */
export const foldedIn =
  (chains: readonly Chain[]): Folded =>
  (corner) =>
    chains.some((chain) => isFoldedIn(chain, corner));

export interface Blanks {
  readonly room: Room;
  readonly shape: Shape;
  readonly sheet: Sheet;
  readonly chains: readonly Chain[];
}

/** A to Z, then AA. */
export const letter = (i: number): string =>
  i < 26 ? String.fromCharCode(65 + i) : `${letter(Math.floor(i / 26) - 1)}${letter(i % 26)}`;
