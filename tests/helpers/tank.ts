import { foldUp } from '../../src/fold/fold-up.ts';
import { composePoses, invertPose, type Pose } from '../../src/geometry/pose.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { foldBlank } from './folded-solid.ts';
import type { Solid, Solids } from './solid.ts';

/** The inside of a tank, mm, and the figures of its blanks. */
export interface AskedTank {
  readonly length: number;
  readonly width: number;
  readonly deep: number;
  readonly shallow: number;
  readonly thickness: number;
  readonly radius: number;
  readonly gap: number;
  /** How far the wrap reaches beyond the plates at its sides. */
  readonly beyond: number;
  readonly topSetback: number;
  /** Distances of the baffles' far faces from the deep end. */
  readonly baffles: readonly number[];
}

/**
 * Pose of the root panel of a piece in the tank: x from the inside of the left plate to the right,
 * y from the inside of the deep end to the shallow end, z up from the inside corner of floor and
 * deep end. It is written by hand, from the text of the drawing: the wrap seen from inside, the
 * sides from outside, the top from above, baffles from the deep end.
 */
export const tankPose = (asked: AskedTank, piece: string): Pose => {
  const { length, width, deep, shallow, thickness: t } = asked;
  const floor = Math.hypot(length, deep - shallow);
  const [cos, sin] = [length / floor, (deep - shallow) / floor];
  switch (piece.replace(/-\d+$/, '')) {
    case 'wrap': {
      // The floor is drawn from the innermost tangent of the deep bend, r before where it turns
      // over square.
      const half = (Math.PI / 2 + Math.asin(sin)) / 2;
      const past = asked.radius * (Math.tan(half) - 1);
      return {
        x: [1, 0, 0],
        y: [0, cos, sin],
        z: [0, -sin, cos],
        o: [-asked.beyond, past * cos + t * sin, past * sin - t * cos],
      };
    }
    case 'end-right':
      return { x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0], o: [width, 0, 0] };
    case 'end-left':
      return { x: [0, -1, 0], y: [0, 0, 1], z: [-1, 0, 0], o: [0, 0, 0] };
    case 'top':
      return {
        x: [1, 0, 0],
        y: [0, 1, 0],
        z: [0, 0, 1],
        o: [asked.topSetback - asked.beyond, asked.topSetback - t, deep],
      };
    case 'baffle': {
      const at = asked.baffles[Number(/\d+$/.exec(piece)?.[0]) - 1] ?? NaN;
      return {
        x: [1, 0, 0],
        y: [0, 0, 1],
        z: [0, -1, 0],
        o: [0, at, (at * (deep - shallow)) / length],
      };
    }
    default:
      throw new Error(`no place for ${piece}`);
  }
};

/**
 * The metal of a piece where it stands in the tank, by name: its panels, and the bends whose ends
 * are square.
 */
export const standingPiece = (
  solids: Solids,
  { part, flat, result }: MadePart,
  asked: AskedTank,
): ReadonlyMap<string, Solid> => {
  if (part === undefined || flat === undefined || result.piece === null)
    throw new Error(`no flat pattern: ${JSON.stringify(result.findings)}`);
  const { panels, bends } = foldBlank(solids, part, flat);
  const root = foldUp(part, flat).poses.get(part.root);
  if (root === undefined) throw new Error('the root has no pose');
  const seat = composePoses(tankPose(asked, result.piece), invertPose(root));
  return new Map([...panels, ...bends].map(([id, solid]) => [id, solids.move(solid, seat)]));
};
