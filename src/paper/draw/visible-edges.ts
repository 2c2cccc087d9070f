import { dot3, type Vec3 } from '../../geometry/vec3.ts';
import { type Mesh, type MeshEdge, meshTriangleNormal } from '../../model/mesh.ts';
import { type Camera, seen } from './camera.ts';
import { Occluders, type SeenTriangle } from './occluders.ts';
import { NEARLY_PARALLEL_SINE } from '../../geometry/tolerance.ts';

/** A stretch of an edge that is seen, from point to point: right, up and nearness, mm. */
export interface VisibleEdge {
  readonly from: Vec3;
  readonly to: Vec3;
  /**
   * `contour`: behind it the body turns away. `edge`: a corner of the metal. `bend`: where a bend
   * begins.
   */
  readonly kind: 'contour' | 'edge' | 'bend';
}

/** A body as a camera sees it. */
export interface Seen {
  readonly edges: readonly VisibleEdge[];
  readonly occluders: Occluders;
}

/**
 * Stretches shorter than this, mm, are left out: there an edge comes out from behind the face it
 * belongs to.
 */
const SHORTEST_SEEN_MM = 2e-3;

/** The edges of a closed mesh with all that is hidden taken out, exactly. */
export const visibleEdges = (mesh: Mesh, camera: Camera): Seen => {
  const points = mesh.points.map((p) => seen(camera, p));
  const isFront = mesh.triangles.map(
    (triangle) => dot3(meshTriangleNormal(mesh, triangle), camera.toward) > NEARLY_PARALLEL_SINE,
  );
  const front = mesh.triangles.flatMap(({ corners: [a, b, c] }, t): SeenTriangle[] =>
    isFront[t] === true ? [[points[a] as Vec3, points[b] as Vec3, points[c] as Vec3]] : [],
  );
  const occluders = new Occluders(front);
  const edges = mesh.edges.flatMap((edge): VisibleEdge[] => {
    const kind = kindOf(edge, isFront);
    if (kind === undefined) return [];
    const [from, to] = [points[edge.ends[0]] as Vec3, points[edge.ends[1]] as Vec3];
    return visibleStretches(occluders, from, to).map(([s, t]) => ({
      from: at(from, to, s),
      to: at(from, to, t),
      kind,
    }));
  });
  return { edges, occluders };
};

/**
 * `undefined` for an edge that is not drawn: on the far side, or between chords of one round face.
 */
const kindOf = (
  { triangles: [s, t], kind }: MeshEdge,
  isFront: readonly boolean[],
): VisibleEdge['kind'] | undefined => {
  if (isFront[s] !== isFront[t]) return 'contour';
  if (isFront[s] === false || kind === 'smooth') return undefined;
  return kind === 'sharp' ? 'edge' : 'bend';
};

/** What is left between the hidden stretches of a line. */
const visibleStretches = (occluders: Occluders, from: Vec3, to: Vec3): [number, number][] => {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const least = Math.min(SHORTEST_SEEN_MM, long / 2);
  let start = 0;
  const found: [number, number][] = [];
  for (const [hiddenFrom, hiddenTo] of [...occluders.hidden(from, to), [1, 1] as const]) {
    if ((hiddenFrom - start) * long > least) found.push([start, hiddenFrom]);
    start = hiddenTo;
  }
  return found;
};

const at = (p: Vec3, q: Vec3, t: number): Vec3 => [
  p[0] + t * (q[0] - p[0]),
  p[1] + t * (q[1] - p[1]),
  p[2] + t * (q[2] - p[2]),
];
