import { cross3, dot3, length3, type Vec3 } from '../geometry/vec3.ts';
import {
  type Mesh,
  type MeshEdge,
  type MeshFace,
  type MeshTriangle,
  meshTriangleNormal,
} from '../model/mesh.ts';
import { NEARLY_PARALLEL_SINE } from '../geometry/tolerance.ts';

type Body = Pick<Mesh, 'points' | 'normals' | 'triangles' | 'faces'>;

/**
 * Two rims that meet in a fold make a corner when they turn by more than this, as the cosine of the
 * angle.
 */
const CORNER_COSINE = 0.94;

/**
 * The edges of a closed mesh at which two triangles do not lie in one plane. `corners` are the
 * lower points of corners of the rim. A mesh that is not closed is a bug, and throws.
 */
export const meshEdges = (body: Body, corners: ReadonlySet<number>): MeshEdge[] => {
  const { triangles } = body;
  const name = (from: number, to: number): number => from * 2 ** 26 + to;
  const sides = new Map<number, number>();
  triangles.forEach(({ corners: [a, b, c] }, t) => {
    for (const side of [name(a, b), name(b, c), name(c, a)]) {
      if (sides.has(side)) throw new Error('two triangles run along an edge in one direction');
      sides.set(side, t);
    }
  });
  const normals = triangles.map((triangle) => meshTriangleNormal(body, triangle));
  const edges: MeshEdge[] = [];
  triangles.forEach(({ corners: [a, b, c] }, t) => {
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      const other = sides.get(name(to, from));
      if (other === undefined) throw new Error('an edge of the mesh belongs to one triangle only');
      if (from > to) continue;
      const kind = kindOf(
        body,
        [t, other],
        [normals[t] as Vec3, normals[other] as Vec3],
        isPair(from, to) ? corners.has(from) : undefined,
      );
      if (kind !== undefined) edges.push({ ends: [from, to], triangles: [t, other], kind });
    }
  });
  return edges;
};

/** Whether an edge joins a lower point and the upper one over it. */
const isPair = (from: number, to: number): boolean => from % 2 === 0 && to === from + 1;

const kindOf = (
  { triangles, faces }: Body,
  [s, t]: readonly [number, number],
  [m, n]: readonly [Vec3, Vec3],
  isCorner: boolean | undefined,
): MeshEdge['kind'] | undefined => {
  const [f, g] = [(triangles[s] as MeshTriangle).face, (triangles[t] as MeshTriangle).face];
  const [first, second] = [faces[f], faces[g]] as [MeshFace, MeshFace];
  if ((first.side === 'rim') !== (second.side === 'rim')) return 'sharp';
  if (first.side === 'rim' && isCorner === true) return 'sharp';
  if (length3(cross3(m, n)) < NEARLY_PARALLEL_SINE && dot3(m, n) >= 0)
    return first.side !== 'rim' && f !== g ? 'tangent' : undefined;
  if (first.side === 'rim')
    return dot3(m, n) < CORNER_COSINE && first.of !== second.of ? 'sharp' : 'smooth';
  return f === g ? 'smooth' : 'tangent';
};
