import { clearanceHoleMm, THREADS } from '../data/hole-sizes.ts';
import { piecesOf } from '../geometry/piece.ts';
import { middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { FlatPattern } from '../model/flat.ts';
import { reachOf } from '../proof/asked-holes.ts';

/** A hole that a bolt goes through, on the blank. */
export interface BoltHole {
  readonly name: string;
  readonly panel: string;
  /** Its place among the cut lines. */
  readonly of: number;
  readonly at: Vec2;
  /** Of a round hole, or across a slot. */
  readonly widthMm: number;
  /** Of a slot, end to end; the width of a round one. */
  readonly lengthMm: number;
  /** Which way a slot runs. */
  readonly dir: Vec2;
  /** `M8`. */
  readonly bolt: string;
}

/** The holes of a blank that a metric screw goes through, by their size (ISO 273); those of other shapes and sizes are left out. */
export const boltHoles = ({ cutouts }: FlatPattern): BoltHole[] =>
  cutouts.flatMap((c, of): BoltHole[] => {
    const shape = c.kind === 'round' ? { at: c.centre, widthMm: c.diameterMm, lengthMm: c.diameterMm, dir: [1, 0] as Vec2 } : c.fold === undefined ? slotOf(c.loop) : undefined;
    const bolt = shape === undefined ? undefined : boltFor(shape.widthMm);
    return shape === undefined || bolt === undefined ? [] : [{ name: c.from, panel: c.panel, of, bolt, ...shape }];
  });

/** Two straight edges and a half circle at each end. */
const slotOf = (loop: Parameters<typeof piecesOf>[0]): Pick<BoltHole, 'at' | 'widthMm' | 'lengthMm' | 'dir'> | undefined => {
  const pieces = piecesOf(loop);
  const [one, other] = pieces.filter((p) => p.bulge === 0);
  if (pieces.length !== 4 || one === undefined || other === undefined || pieces.some((p) => p.bulge !== 0 && Math.abs(Math.abs(p.bulge) - 1) > 1e-6)) return undefined;
  const dir = unit(sub(one.to, one.from));
  const [lengthMm, widthMm] = reachOf(loop, dir);
  return { at: middle(middle(one.from, one.to), middle(other.from, other.to)), widthMm, lengthMm, dir };
};

const size = (bolt: string): number => Number(bolt.slice(1));

/** Screws that a shop keeps: the first choice of ISO 261 (from memory). */
const FIRST_CHOICE = ['M3', 'M4', 'M5', 'M6', 'M8', 'M10', 'M12', 'M16', 'M20'];

/** A hole this much wider than the coarse one of a screw, mm, is not for that screw. */
const TOO_WIDE_MM = 1;

/** The screw whose medium hole it is; else the largest usual one that goes through and does not rattle. */
const boltFor = (widthMm: number): string | undefined => {
  const hole = (thread: string, fit: 'fine' | 'medium' | 'coarse'): number => {
    const read = clearanceHoleMm(thread, fit);
    return read.ok ? read.value : NaN;
  };
  return (
    THREADS.find((thread) => Math.abs(hole(thread, 'medium') - widthMm) < SAME_MM) ??
    FIRST_CHOICE.findLast((thread) => hole(thread, 'fine') <= widthMm + SAME_MM && widthMm <= hole(thread, 'coarse') + TOO_WIDE_MM)
  );
};

const SAME_MM = 0.01;

/** How far a bolt can be off the middle of its hole, across it. */
export const playMm = ({ widthMm, bolt }: Pick<BoltHole, 'widthMm' | 'bolt'>): number => (widthMm - size(bolt)) / 2;

/** The coarse hole of the same bolt, where that is larger. */
export const coarser = ({ widthMm, bolt }: BoltHole): number | undefined => {
  const read = clearanceHoleMm(bolt, 'coarse');
  return read.ok && read.value > widthMm + SAME_MM ? read.value : undefined;
};
