import type { FlatBend, FlatPattern } from '../../src/model/flat.ts';

/**
 * A witness of where metal of a blank comes to lie when it is folded: each bend turns what lies
 * beyond it about its axis, worked out from the drawing alone with no code of the program.
 */

export type Point = readonly [x: number, y: number, z: number];

type Flat = readonly [x: number, y: number];

const cosine = (deg: number): number => Math.cos((deg * Math.PI) / 180);
const sine = (deg: number): number => Math.sin((deg * Math.PI) / 180);

/** A point beyond a bend, given as if the bend were still flat, in the plane of the parent. */
const turned = ([x, y, z]: Point, bend: FlatBend, t: number): Point => {
  const { parentTangent, childTangent, angleDeg, insideRadiusMm: r, direction } = bend;
  const [[ax, ay], [bx, by]] = parentTangent;
  const long = Math.hypot(bx - ax, by - ay);
  const [ux, uy] = [(bx - ax) / long, (by - ay) / long];
  // Away from the parent: square to its tangent line, towards that of the child.
  const side = (childTangent[0][0] - ax) * -uy + (childTangent[0][1] - ay) * ux > 0 ? 1 : -1;
  const [vx, vy] = [-uy * side, ux * side];
  const s = (x - ax) * ux + (y - ay) * uy;
  const beyond = (x - ax) * vx + (y - ay) * vy - bend.allowanceMm;
  const [axis, sign] = direction === 'up' ? [t + r, 1] : [-r, -1];
  const from = sign * (axis - z);
  const out = from * sine(angleDeg) + beyond * cosine(angleDeg);
  const up = axis + sign * (-from * cosine(angleDeg) + beyond * sine(angleDeg));
  return [ax + s * ux + out * vx, ay + s * uy + out * vy, up];
};

/** Takes a point of a panel, as it lies in the drawing, to the folded part, its root in the drawing. */
export const folder = (
  flat: FlatPattern,
  root: string,
): ((panel: string, at: Flat, z: number) => Point) => {
  const bendOf = (panel: string): FlatBend | undefined =>
    panel === root ? undefined : flat.bends.find(({ child }) => child === panel);
  return (panel, [x, y], z) => {
    let [at, id]: [Point, string] = [[x, y, z], panel];
    for (let bend = bendOf(id); bend !== undefined; bend = bendOf(id)) {
      at = turned(at, bend, flat.thicknessMm);
      id = bend.parent;
    }
    return at;
  };
};

export interface Box {
  readonly low: Point;
  readonly high: Point;
}

export const boxOf = (points: readonly Point[]): Box => {
  const side = (i: 0 | 1 | 2, pick: (...n: number[]) => number): number =>
    pick(...points.map((p) => p[i]));
  return {
    low: [side(0, Math.min), side(1, Math.min), side(2, Math.min)],
    high: [side(0, Math.max), side(1, Math.max), side(2, Math.max)],
  };
};
