import { pointExtents, type Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { cross3, dot3, scale3, sub3, type Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import { type Camera, seen } from './camera.ts';
import { visibleEdges } from './visible-edges.ts';
import { NEARLY_PARALLEL_SINE } from '../../geometry/tolerance.ts';

/** A stretch of an edge in a view, mm of the part. */
export interface Stretch {
  readonly from: Vec2;
  readonly to: Vec2;
}

/** A part seen square to one of its sides. */
export interface OrthoView {
  readonly camera: Camera;
  readonly seen: readonly Stretch[];
  /** The lines where bends begin, as far as they are seen. */
  readonly bends: readonly Stretch[];
  readonly hidden: readonly Stretch[];
  readonly box: Extents;
}

/** The views from the front, from above and from the left. */
export type OrthoViews = readonly [front: OrthoView, top: OrthoView, left: OrthoView];

/**
 * The three views of a part. Seen from above it lies as its blank does in its file, turned by less
 * than 45 degrees so that `along`, a direction in the plane of the largest panel, runs upright or
 * level.
 */
export const orthoViews = (mesh: Mesh, along: Vec2): OrthoViews => {
  const turn = Math.atan2(along[1], along[0]);
  const off = turn - (Math.PI / 2) * Math.round(turn / (Math.PI / 2));
  const right: Vec3 = [Math.cos(off), Math.sin(off), 0];
  const up: Vec3 = [0, 0, 1];
  const back = cross3(up, right);
  return [
    viewFrom(mesh, { right, up, toward: scale3(back, -1) }),
    viewFrom(mesh, { right, up: back, toward: up }),
    viewFrom(mesh, { right: scale3(back, -1), up, toward: scale3(right, -1) }),
  ];
};

const viewFrom = (mesh: Mesh, camera: Camera): OrthoView => {
  const view = visibleEdges(mesh, camera);
  const flat = ([x, y]: Vec3): Vec2 => [x, y];
  const ofKind = (isBend: boolean): Stretch[] =>
    view.edges
      .filter((e) => (e.kind === 'bend') === isBend)
      .map((e) => ({ from: flat(e.from), to: flat(e.to) }));
  const points = mesh.points.map((p) => seen(camera, p));
  const isFront = frontOf(mesh, camera);
  const shown = ofKind(false);
  const hidden = mesh.edges.flatMap(({ ends, triangles: [s, t], kind }): Stretch[] => {
    const isContour = isFront[s] !== isFront[t];
    if (!isContour && kind !== 'sharp') return [];
    const [from, to] = ends.map((i) => points[i]) as [Vec3, Vec3];
    return view.occluders
      .hidden(from, to)
      .map(([a, b]) => ({ from: between(from, to, a), to: between(from, to, b) }));
  });
  return {
    camera,
    seen: shown,
    bends: ofKind(true),
    hidden: apart(hidden),
    box: pointExtents(points.map(flat)) as Extents,
  };
};

const between = (p: Vec3, q: Vec3, t: number): Vec2 => [
  p[0] + t * (q[0] - p[0]),
  p[1] + t * (q[1] - p[1]),
];

const frontOf = ({ points, triangles }: Mesh, { toward }: Camera): boolean[] =>
  triangles.map(({ corners: [a, b, c] }) => {
    const normal = cross3(
      sub3(points[b] as Vec3, points[a] as Vec3),
      sub3(points[c] as Vec3, points[a] as Vec3),
    );
    return dot3(normal, toward) > NEARLY_PARALLEL_SINE * Math.hypot(...normal);
  });

/** Hidden stretches shorter than this, mm, are left out: they would print as dots. */
const SHORTEST_HIDDEN_MM = 0.05;

/**
 * The stretches without duplicates: the edges of both faces of a sheet often lie behind each other
 * in a view.
 */
const apart = (stretches: readonly Stretch[]): Stretch[] => {
  const kept = new Map<string, Stretch>();
  for (const s of stretches) {
    if (Math.hypot(s.to[0] - s.from[0], s.to[1] - s.from[1]) < SHORTEST_HIDDEN_MM) continue;
    const key = [s.from, s.to]
      .map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`)
      .toSorted()
      .join(' ');
    kept.set(key, s);
  }
  return [...kept.values()];
};
