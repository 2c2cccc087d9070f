import type { Pose } from '../geometry/pose.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { scale3, type Vec3 } from '../geometry/vec3.ts';
import type { BlankPlan, Seam } from './blank-plan.ts';
import { lifted, type MeshBuilder, outwards } from './mesh-builder.ts';
import type { Region } from './regions.ts';
import type { CutEdge } from './subdivide.ts';

/** The number of the upper face of every region; its lower face has the next number. */
export type SheetFaces = readonly number[];

/**
 * Adds what stands on a line where two panels part: a bend that has no length in the flat, or the
 * wedge between panels that turn about mid-sheet. An end of the line that is mitred needs no
 * filling, and the strips end in a point there.
 */
export const addSeam = (
  builder: MeshBuilder,
  sides: SheetFaces,
  { division: { points }, regions }: BlankPlan,
  seam: Seam,
  { from, to }: CutEdge,
): void => {
  const { zone, parent, child, strips } = seam;
  const panel = regions[parent] as Region;
  // A wedge belongs to the parent's faces, because it is not a bend of its own.
  const [face, { of, kind }] =
    strips > 0 ? [sides[regions.indexOf(zone)] as number, zone] : [sides[parent] as number, panel];
  const frames = (point: number): Pose[] => {
    const at = points[point] as Vec2;
    return strips > 0
      ? Array.from({ length: strips + 1 }, (_, k) => zone.turned(at, k / strips))
      : [panel.at(at), (regions[child] as Region).at(at)];
  };
  const pairs = (point: number): number[] =>
    frames(point).map((frame, k, all) =>
      k === 0
        ? builder.pair({ point, region: parent })
        : k === all.length - 1
          ? builder.pair({ point, region: child })
          : builder.addPair(frame),
    );
  const [atFrom, atTo] = [pairs(from), pairs(to)];
  const normals = frames(from).map(({ z }) => z);
  const [x, y] = outwards(points[from] as Vec2, points[to] as Vec2);
  const frame = panel.at(points[from] as Vec2);
  const [endFrom, endTo] = [lifted(frame, [y, -x]), lifted(frame, [-y, x])];
  const rims = [
    builder.addFace({ of, kind, side: 'rim' }),
    builder.addFace({ of, kind, side: 'rim' }),
  ] as const;
  for (let k = 0; k + 1 < normals.length; k++)
    addStrip(builder, {
      face,
      rims,
      from: [atFrom[k] as number, atFrom[k + 1] as number],
      to: [atTo[k] as number, atTo[k + 1] as number],
      normals: [normals[k] as Vec3, normals[k + 1] as Vec3],
      ends: [endFrom, endTo],
    });
};

/** One strip of a seam: the numbers of its faces, and what it has at both ends of the line. */
interface SeamStrip {
  readonly face: number;
  readonly rims: readonly [from: number, to: number];
  /** Pairs of points at the beginning of the line, and at its end. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly normals: readonly [Vec3, Vec3];
  /** Directions out of the metal at both ends of the line. */
  readonly ends: readonly [from: Vec3, to: Vec3];
}

/** Adds both faces of a strip, and its walls; an end where the strip has one point has no wall. */
const addStrip = (
  builder: MeshBuilder,
  { face, rims, from: [a0, a1], to: [b0, b1], normals: [m, n], ends }: SeamStrip,
): void => {
  const [down, up] = [scale3(m, -1), scale3(n, -1)];
  if (a0 !== a1) {
    builder.add(face, [a0 + 1, a1 + 1, b1 + 1], [m, n, n]);
    builder.add(face + 1, [a0, b1, a1], [down, up, up]);
    builder.addWall(rims[0], [a0, a1], [ends[0], ends[0]]);
  }
  if (b0 !== b1) {
    builder.add(face, [a0 + 1, b1 + 1, b0 + 1], [m, n, m]);
    builder.add(face + 1, [a0, b0, b1], [down, down, up]);
    builder.addWall(rims[1], [b1, b0], [ends[1], ends[1]]);
  }
};
