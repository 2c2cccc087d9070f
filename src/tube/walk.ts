import type { BendSheet } from './bend-sheet.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import { atLeast } from '../text/figures.ts';

/**
 * The proof of a bend sheet: a tube bent by nothing but the sheet's own figures, corner by corner. It
 * shares no code with what made the sheet: where that measures angles between directions, this turns
 * the bender's own three directions (forward, towards the former, up off the former) step by step.
 */
export interface WalkedTube {
  /** The leading end, the corners in their order, and the other end, mm. */
  readonly points: readonly Vec3[];
}

type Figures = Pick<BendSheet, 'straightsMm'> & {
  readonly bends: readonly Pick<
    BendSheet['bends'][number],
    'angleDeg' | 'rotateDeg' | 'radiusMm'
  >[];
};

/**
 * What the proof found, for whoever bends by the sheet: `walked back, the sheet meets every point asked`.
 */
export const walkedBackText = (offMm: number): string =>
  offMm < SAID_MM
    ? 'walked back, the sheet meets every point asked'
    : `walked back, the sheet is within ${atLeast(offMm, 3)} mm of every point asked`;

/** Half of the last figure that is told, mm. */
const SAID_MM = 5e-4;

/**
 * Walks a sheet from the origin along x, the first bend towards y: `points` lie in that frame.
 */
export function walkedTube({ bends, straightsMm }: Figures): WalkedTube {
  let forward = [1, 0, 0];
  let inward = [0, 1, 0];
  let up = [0, 0, 1];
  let at = [0, 0, 0];
  const points: Vec3[] = [[0, 0, 0]];
  bends.forEach(({ angleDeg, rotateDeg, radiusMm }, i) => {
    at = going(at, forward, straightsMm[i] ?? 0);
    const rolled = (rotateDeg * Math.PI) / 180;
    [inward, up] = [
      mixed(inward, Math.cos(rolled), up, Math.sin(rolled)),
      mixed(up, Math.cos(rolled), inward, -Math.sin(rolled)),
    ];
    const bent = (angleDeg * Math.PI) / 180;
    points.push(triple(going(at, forward, radiusMm * Math.tan(bent / 2))));
    const centre = going(at, inward, radiusMm);
    [forward, inward] = [
      mixed(forward, Math.cos(bent), inward, Math.sin(bent)),
      mixed(inward, Math.cos(bent), forward, -Math.sin(bent)),
    ];
    at = going(centre, inward, -radiusMm);
  });
  points.push(triple(going(at, forward, straightsMm[bends.length] ?? 0)));
  return { points };
}

/**
 * The greatest distance between points that were asked for and the same points of a walked sheet, mm,
 * when the walked ones are laid on them with their first point, first leg and the plane of the first
 * bend.
 */
export function walkedOffMm(asked: readonly Vec3[], walked: readonly Vec3[]): number {
  const [first, second, third] = asked;
  if (first === undefined || second === undefined || asked.length !== walked.length)
    return Infinity;
  const forward = sized(minus(second, first));
  const side = minus(third ?? second, second);
  const along = side[0] * forward[0] + side[1] * forward[1] + side[2] * forward[2];
  const inward =
    third === undefined ? anyAcross(forward) : sized(going(side, forward, -along) as number[]);
  const up = [
    forward[1] * inward[2] - forward[2] * inward[1],
    forward[2] * inward[0] - forward[0] * inward[2],
    forward[0] * inward[1] - forward[1] * inward[0],
  ] as const;
  return Math.max(
    ...walked.map(([x, y, z], i) => {
      const to = asked[i] as Vec3;
      return Math.hypot(
        ...([0, 1, 2] as const).map(
          (k) => first[k] + x * forward[k] + y * inward[k] + z * up[k] - to[k],
        ),
      );
    }),
  );
}

const going = (from: readonly number[], way: readonly number[], mm: number): number[] =>
  from.map((v, i) => v + (way[i] ?? 0) * mm);

const mixed = (a: readonly number[], p: number, b: readonly number[], q: number): number[] =>
  a.map((v, i) => v * p + (b[i] ?? 0) * q);

const triple = ([x = 0, y = 0, z = 0]: readonly number[]): Vec3 => [x, y, z];

const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

const sized = ([x = 0, y = 0, z = 0]: readonly number[]): Vec3 => {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
};

const anyAcross = ([x, y, z]: Vec3): Vec3 =>
  Math.abs(x) < Math.abs(y) ? sized([0, -z, y]) : sized([-z, 0, x]);
