import { clearanceHoleMm, screwMm } from '../data/hole-sizes.ts';
import { piecesOf } from '../geometry/piece.ts';
import { middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { FlatCutout, FlatPattern } from '../model/flat.ts';
import { reachOf } from '../measure/asked-holes.ts';
import { HALF_CIRCLE_BULGE } from '../geometry/tolerance.ts';

/** A hole that a bolt goes through, on the blank. */
export interface BoltHole {
  readonly name: string;
  /** `h1`. */
  readonly key: string;
  readonly panel: string;
  /** Its number among the cut lines. */
  readonly of: number;
  readonly at: Vec2;
  /** Diameter of a round hole, or width across a slot. */
  readonly widthMm: number;
  /** Length of a slot, end to end; the width of a round hole. */
  readonly lengthMm: number;
  /** The direction of a slot. */
  readonly dir: Vec2;
  /** The bolt's size, such as `M8`. */
  readonly bolt: string;
  /** What it is bolted to, where that was stated. */
  readonly meets?: string;
  /**
   * Set where the thread is in this part, so that the bolt has its play in the hole of the other.
   */
  readonly isThreaded?: true;
}

/** The round holes and slots of a blank that were stated to take a bolt. */
export const boltHoles = ({ cutouts }: FlatPattern): BoltHole[] =>
  cutouts.flatMap((c, of): BoltHole[] => {
    const { screw, meets, thread } = c.use ?? {};
    const shape = screw === undefined ? undefined : shapeOf(c);
    if (shape === undefined || screw === undefined) return [];
    return [
      {
        name: c.from,
        key: c.name as string,
        panel: c.panel,
        of,
        bolt: screw,
        ...shape,
        ...(meets !== undefined && { meets }),
        ...(thread !== undefined && { isThreaded: true }),
      },
    ];
  });

const shapeOf = (
  c: FlatCutout,
): Pick<BoltHole, 'at' | 'widthMm' | 'lengthMm' | 'dir'> | undefined =>
  c.kind === 'round'
    ? { at: c.centre, widthMm: c.diameterMm, lengthMm: c.diameterMm, dir: [1, 0] }
    : slotOf(c.loop);

/** The figures of a slot, which has two straight edges and a half circle at each end. */
const slotOf = (
  loop: Parameters<typeof piecesOf>[0],
): Pick<BoltHole, 'at' | 'widthMm' | 'lengthMm' | 'dir'> | undefined => {
  const pieces = piecesOf(loop);
  const [one, other] = pieces.filter((p) => p.bulge === 0);
  if (
    pieces.length !== 4 ||
    one === undefined ||
    other === undefined ||
    pieces.some((p) => p.bulge !== 0 && Math.abs(Math.abs(p.bulge) - 1) > HALF_CIRCLE_BULGE)
  )
    return undefined;
  const dir = unit(sub(one.to, one.from));
  const [lengthMm, widthMm] = reachOf(loop, dir);
  return {
    at: middle(middle(one.from, one.to), middle(other.from, other.to)),
    widthMm,
    lengthMm,
    dir,
  };
};

const COARSER_BY_MM = 0.01;

/**
 * How far a bolt can be off the middle of its hole, across it; for a threaded hole, off the middle
 * of the medium hole of the other part.
 */
export const playMm = ({
  widthMm,
  bolt,
  isThreaded,
}: Pick<BoltHole, 'widthMm' | 'bolt' | 'isThreaded'>): number => {
  const medium = isThreaded === true ? clearanceHoleMm(bolt) : undefined;
  return ((medium?.ok === true ? medium.value : widthMm) - screwMm(bolt)) / 2;
};

/** The coarse hole of the same bolt, where it is larger. */
export const coarser = ({ widthMm, bolt, isThreaded }: BoltHole): number | undefined => {
  const read = clearanceHoleMm(bolt, 'coarse');
  return isThreaded !== true && read.ok && read.value > widthMm + COARSER_BY_MM
    ? read.value
    : undefined;
};
