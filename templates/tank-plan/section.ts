import { cross, distance, dot3, SAME_POINT_MM, sub } from '../../src/template.ts';
import type { Pose, Vec2, Vec3 } from '../../src/template.ts';
import { areaVector, type Body } from './solid.ts';

/** An edge of a section: the facet that it lies in, and its ends in the plane of the section, mm. */
export interface SectionEdge {
  readonly facet: string;
  readonly from: Vec2;
  readonly to: Vec2;
  /** Normal of the facet, length 1, into the body. */
  readonly normal: Vec3;
}

/** A closed loop of edges, counter-clockwise as seen against z of the section's frame. */
export type Section = readonly SectionEdge[];

/**
 * The loops in which a plane, z = 0 of a frame, cuts a body: one where it is convex, several where it
 * is not. The plane must run through no corner of the body.
 */
export const sectionsOf = (body: Body, frame: Pose): Section[] => {
  const edges = body.flatMap(({ name, points }): SectionEdge[] => {
    const area = areaVector(points);
    const size = Math.hypot(...area);
    const normal = area.map((c) => c / size) as unknown as Vec3;
    // The inside is on the left of an edge.
    const way: Vec2 = [dot3(normal, frame.y), -dot3(normal, frame.x)];
    const met = crossings(points, frame)
      .map((at) => ({ at, along: at[0] * way[0] + at[1] * way[1] }))
      .sort((a, b) => a.along - b.along);
    return met.flatMap(({ at }, i) =>
      i % 2 === 0 ? [{ facet: name, from: at, to: (met[i + 1] as { at: Vec2 }).at, normal }] : [],
    );
  });
  const loops: SectionEdge[][] = [];
  let left = edges;
  while (left.length > 0) {
    const loop = [left[0] as SectionEdge];
    for (;;) {
      const end = (loop.at(-1) as SectionEdge).to;
      const next = left.find((e) => !loop.includes(e) && distance(e.from, end) < SAME_POINT_MM);
      if (next === undefined) break;
      loop.push(next);
    }
    left = left.filter((e) => !loop.includes(e));
    loops.push(loop);
  }
  return loops;
};

/** Where the edges of a face meet the plane: an even number of points. */
const crossings = (points: readonly Vec3[], { o, x, y, z }: Pose): Vec2[] =>
  points.flatMap((a, i) => {
    const b = points[(i + 1) % points.length] as Vec3;
    const from: Vec3 = [a[0] - o[0], a[1] - o[1], a[2] - o[2]];
    const to: Vec3 = [b[0] - o[0], b[1] - o[1], b[2] - o[2]];
    const [over, next] = [dot3(from, z), dot3(to, z)];
    if (over < 0 === next < 0) return [];
    const share = over / (over - next);
    const mix = (axis: Vec3): number =>
      dot3(from, axis) + share * (dot3(to, axis) - dot3(from, axis));
    return [[mix(x), mix(y)]];
  });

/** Area of a section, mm2. */
export const sectionAreaMm2 = (section: Section): number => {
  const [first] = section;
  return section.reduce(
    (sum, { from, to }) =>
      sum + cross(sub(from, first?.from ?? from), sub(to, first?.from ?? from)) / 2,
    0,
  );
};
