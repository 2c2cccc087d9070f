import { cosDeg, sinDeg } from '../../src/template.ts';
import type { Pose, Standing, Vec3 } from '../../src/template.ts';
import type { Bays } from '../baffle/bays.ts';
import type { Tank } from './inputs.ts';
import { pastTangentMm, type TankSizes } from './sizes.ts';
import { depthAtMm, slopeDeg } from './volume.ts';

const RIGHT: Vec3 = [1, 0, 0];
const AWAY: Vec3 = [0, 1, 0];
const UP: Vec3 = [0, 0, 1];
const LEFT: Vec3 = [-1, 0, 0];
const BACK: Vec3 = [0, -1, 0];

/** Where the pieces of a tank stand, by name; baffles by their place in the list of pieces. */
export interface TankStanding {
  readonly wrap: Standing;
  readonly left: Standing;
  readonly right: Standing;
  readonly top: Standing;
  readonly baffles: (piece: number, quantity: number) => Standing;
}

/**
 * The tank with x from the left plate to the right, y from the deep end and z up, all from the
 * inside corner of floor and deep end. Baffles are welded to floor and sides before the sheet
 * closes over them, which is why they are not welded to that.
 */
export const tankStanding = (v: Tank, s: TankSizes, bays: Bays): TankStanding => {
  const { cavity: c, beyondMm, topSetbackMm } = s;
  const t = v.thicknessMm;
  return {
    wrap: { poses: [wrapPose(v, s)] },
    left: { poses: [{ o: [0, 0, 0], x: BACK, y: UP, z: LEFT }], turn: 3 },
    right: { poses: [{ o: [c.widthMm, 0, 0], x: AWAY, y: UP, z: RIGHT }], turn: 3 },
    top: {
      poses: [
        { o: [topSetbackMm - beyondMm, topSetbackMm - t, c.deepMm], x: RIGHT, y: AWAY, z: UP },
      ],
      turn: 4,
    },
    baffles: (piece, quantity) => ({
      poses: bays.stationsMm.slice(piece, piece + quantity).map((station): Pose => {
        // Its face away from the deep end is the one that was measured.
        const at = station + t;
        return { o: [0, at, c.deepMm - depthAtMm(c, at)], x: RIGHT, y: UP, z: BACK };
      }),
      turn: 2,
      weldedTo: ['wrap', 'end-left', 'end-right'],
    }),
  };
};

/** Its floor lies on the slope, with the inside face of the sheet on the inside of the tank. */
const wrapPose = (v: Tank, s: TankSizes): Pose => {
  const slope = slopeDeg(s.cavity);
  const [cos, sin] = [cosDeg(slope), sinDeg(slope)];
  const past = pastTangentMm(v, s.deepBendDeg);
  const t = v.thicknessMm;
  return {
    o: [-s.beyondMm, past * cos + t * sin, past * sin - t * cos],
    x: RIGHT,
    y: [0, cos, sin],
    z: [0, -sin, cos],
  };
};
