import type { Pose } from '../geometry/pose.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { along3, type Vec3 } from '../geometry/vec3.ts';
import type { BlankPlan } from './blank-plan.ts';
import type { Cell } from './subdivide.ts';
import { edgeName, triangulate } from './triangulate.ts';

/** A triangle in space, counter-clockwise from outside. */
export type Facet = readonly [Vec3, Vec3, Vec3];

/** The cells of one region of a blank. */
export const cellsOf = ({ division }: BlankPlan, region: number): Cell[] =>
  division.cells.filter((c) => c.region === region);

/**
 * The directed edges round all cells of a region, including cuts to other regions; metal on the
 * left.
 */
export const rimOf = (cells: readonly Cell[]): (readonly [number, number])[] => {
  const edges = cells.flatMap(({ rings }) =>
    rings.flatMap((ring) =>
      ring.map((from, i) => [from, ring[(i + 1) % ring.length] as number] as const),
    ),
  );
  const names = new Set(edges.map(([from, to]) => edgeName(from, to)));
  return edges.filter(([from, to]) => !names.has(edgeName(to, from)));
};

/**
 * A region of a folded blank as a closed body of triangles, between two heights of the sheet, cut
 * off square where other regions begin.
 */
export const regionFacets = (
  plan: BlankPlan,
  region: number,
  [low, high]: readonly [number, number],
): Facet[] => {
  const { division, regions } = plan;
  const cells = cellsOf(plan, region);
  const frames = new Map<number, Pose>();
  const at = (point: number, z: number): Vec3 => {
    const frame =
      frames.get(point) ??
      (regions[region] as BlankPlan['regions'][number]).at(division.points[point] as Vec2);
    frames.set(point, frame);
    return along3(frame.o, frame.z, z);
  };
  const sheets = cells.flatMap(({ rings }) =>
    triangulate(division.points, rings).flatMap(([a, b, c]): Facet[] => [
      [at(a, high), at(b, high), at(c, high)],
      [at(a, low), at(c, low), at(b, low)],
    ]),
  );
  const walls = rimOf(cells).flatMap(([a, b]): Facet[] => [
    [at(a, low), at(b, low), at(b, high)],
    [at(a, low), at(b, high), at(a, high)],
  ]);
  return [...sheets, ...walls];
};
