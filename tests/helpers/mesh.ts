import { cross3, dot3, sub3, length3, type Vec3 } from '../../src/geometry/vec3.ts';
import type { Mesh } from '../../src/model/mesh.ts';

/** Triangles as read from a file. */
export type Facets = readonly (readonly [Vec3, Vec3, Vec3])[];

export const facetsOf = ({ points, triangles }: Mesh): Facets =>
  triangles.map(({ corners: [a, b, c] }) => [
    points[a] as Vec3,
    points[b] as Vec3,
    points[c] as Vec3,
  ]);

/** Volume by the divergence theorem: a sixth of the sum of a . (b x c) over all triangles. */
export const facetVolume = (facets: Facets): number =>
  facets.reduce((sum, [a, b, c]) => sum + dot3(a, cross3(b, c)) / 6, 0);

export const meshVolume = (mesh: Mesh): number => facetVolume(facetsOf(mesh));

export const meshArea = (mesh: Mesh): number =>
  facetsOf(mesh).reduce((sum, [a, b, c]) => sum + length3(cross3(sub3(b, a), sub3(c, a))) / 2, 0);

/** Width, depth and height of the box round a mesh. */
export const meshSize = ({ points }: Pick<Mesh, 'points'>): number[] =>
  ([0, 1, 2] as const).map(
    (axis) => Math.max(...points.map((p) => p[axis])) - Math.min(...points.map((p) => p[axis])),
  );

/** Edges, by the numbers of their ends, that do not occur exactly once in each direction. */
export const openEdges = (corners: readonly (readonly [number, number, number])[]): string[] => {
  const walked = new Map<string, number>();
  for (const [a, b, c] of corners) {
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const)
      walked.set(`${from}>${to}`, (walked.get(`${from}>${to}`) ?? 0) + 1);
  }
  return [...walked]
    .filter(
      ([edge, times]) => times !== 1 || walked.get(edge.split('>').toReversed().join('>')) !== 1,
    )
    .map(([edge]) => edge);
};
