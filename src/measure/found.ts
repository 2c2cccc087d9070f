import { arcOf } from '../geometry/arc.ts';
import type { Loop } from '../geometry/loop.ts';
import { posePoint, type Pose, poseVector } from '../geometry/pose.ts';
import { FILE_STEP_MM, PROOF_MM, SAME_WAY_COSINE } from '../geometry/tolerance.ts';
import { distance, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { dot3, length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { AskedAngle, AskedMeasure, Place } from '../contract/asked.ts';
import { reachOf } from './asked-holes.ts';
import { centroidOf } from './centroid.ts';
import type { Contour } from './contours.ts';
import { type Hinge, type Line, mouldLine } from './folded.ts';
import { type FoldedFile, regionOf } from './folded-file.ts';
import { rolledMm } from './rolled-up.ts';
import { segmentGap, type Segment } from './segment-gap.ts';
import { distancesFrom, markersOf, nearestPiece } from './distances.ts';
import { loopOf, placed, placedVector } from './placing.ts';

/** What a measure comes to in the file; undefined when what it lies between is no longer there. */
export const foundMm = (
  body: FoldedFile,
  { between, askedMm, heightMm = 0, atLeast }: AskedMeasure,
): number | undefined => {
  const [first, second] = between;
  if (first === undefined) return undefined;
  if (first.kind === 'cut' || first.kind === 'line')
    return worstOf(between.map((place) => deviation(body, place)));
  if (second === undefined) return sizeOf(body, first);
  if (second.kind === 'face') return fromFace(body, second, first, heightMm);
  const [line, other] = [lineOf(body, first), lineOf(body, second)];
  if (line !== undefined && other !== undefined && atLeast === true)
    return gapBetween(body, [first, line], [second, other]);
  if (line !== undefined && other !== undefined) return betweenLines(line, other, askedMm);
  const [p, q] = [pointOf(body, first), pointOf(body, second)];
  if (p !== undefined && other !== undefined)
    return panelIn(first) === panelIn(second)
      ? fromLine(p, other)
      : fromSide(body, inSpace(body, first, p, heightMm), second, other);
  if (p === undefined || q === undefined) return undefined;
  const [a, b] = [inSpace(body, first, p, heightMm), inSpace(body, second, q, heightMm)];
  return a === undefined || b === undefined ? undefined : length3(sub3(a, b));
};

/**
 * Distance from a face to another that faces the same way or the opposite one, to an edge, or to
 * the middle of a hole.
 */
const fromFace = (
  body: FoldedFile,
  face: FacePlace,
  what: Place,
  heightMm: number,
): number | undefined => {
  const plane = planeOf(body, face);
  if (plane === undefined) return undefined;
  const height = (p: Vec3): number => Math.abs(dot3(plane.normal, sub3(p, plane.at)));
  if (what.kind === 'face') {
    const other = planeOf(body, what);
    return other === undefined ||
      Math.abs(Math.abs(dot3(plane.normal, other.normal)) - 1) > SAME_WAY_COSINE
      ? undefined
      : height(other.at);
  }
  const line = lineOf(body, what);
  const point = pointOf(body, what);
  const ends = line === undefined ? [point] : [line.from, line.to];
  const heights = ends
    .map((p) => (p === undefined ? undefined : inSpace(body, what, p, heightMm)))
    .map((p) => (p === undefined ? undefined : height(p)));
  // An edge that is not level with the face has no single distance from it.
  const [low, high] = [heights[0], heights.at(-1)];
  return low === undefined || high === undefined || Math.abs(high - low) > PROOF_MM
    ? undefined
    : (low + high) / 2;
};

/** A point of another panel from the plane through an edge, square to the edge's own panel. */
const fromSide = (
  body: FoldedFile,
  point: Vec3 | undefined,
  edge: Place,
  { from, to }: Line,
): number | undefined => {
  const region = 'panel' in edge ? regionOf(body, edge.panel) : undefined;
  const pose = region === undefined ? undefined : body.folded.poses[region];
  if (point === undefined || pose === undefined) return undefined;
  const [x, y] = unit(sub(to, from));
  const normal = poseVector(pose, [-y, x, 0]);
  return Math.abs(dot3(normal, sub3(point, posePoint(pose, [...from, 0]))));
};

const panelIn = (place: Place): string | undefined => ('panel' in place ? place.panel : undefined);

type FacePlace = Extract<Place, { readonly kind: 'face' }>;

const planeOf = (
  body: FoldedFile,
  { panel, heightMm }: FacePlace,
): { readonly at: Vec3; readonly normal: Vec3 } | undefined => {
  const region = regionOf(body, panel);
  const pose = region === undefined ? undefined : body.folded.poses[region];
  return pose === undefined
    ? undefined
    : { at: posePoint(pose, [0, 0, heightMm]), normal: poseVector(pose, [0, 0, 1]) };
};

/** The least distance between two cut edges of the folded part, each with its two faces. */
const gapBetween = (
  body: FoldedFile,
  ...ends: readonly (readonly [Place, Line])[]
): number | undefined => {
  const [first, second] = ends.map(([place, { from, to }]) =>
    [0, body.asked.thicknessMm].flatMap((z): Segment[] => {
      const [a, b] = [inSpace(body, place, from, z), inSpace(body, place, to, z)];
      return a === undefined || b === undefined ? [] : [[a, b]];
    }),
  ) as [Segment[], Segment[]];
  const gaps = first.flatMap((a) => second.map((b) => segmentGap(a, b)));
  return gaps.length === 0 ? undefined : Math.min(...gaps);
};

const worstOf = (values: readonly (number | undefined)[]): number | undefined =>
  values.reduce(
    (worst, v) => (worst === undefined || v === undefined ? undefined : Math.max(worst, v)),
    0,
  );

/**
 * The angle between the faces of two panels on the side to which they were to be folded; for panels
 * that are not neighbours, the angle below straight.
 */
export const foundDeg = (body: FoldedFile, { fold, panels }: AskedAngle): number | undefined => {
  if (fold === null) return panels === undefined ? undefined : betweenFaces(body, panels);
  const hinge = body.folded.hinges.find((h) => h.id === fold);
  if (hinge === undefined) return undefined;
  const out: Vec3 = [hinge.dir[1], -hinge.dir[0], 0];
  const turned = poseVector(hinge.pose, out);
  const up = (Math.atan2(turned[2], dot3(turned, out)) * 180) / Math.PI;
  const towards = hinge.bend.direction === 'up' ? up : -up;
  return towards < -179.9999 ? 0 : 180 - towards;
};

const betweenFaces = (body: FoldedFile, panels: readonly [string, string]): number | undefined => {
  const [a, b] = panels.map((panel) => planeOf(body, { kind: 'face', panel, heightMm: 0 })?.normal);
  if (a === undefined || b === undefined) return undefined;
  // This form is accurate near 0 and near 180 degrees, where a cosine is not.
  const turned = 2 * Math.atan2(length3(sub3(a, b)), length3(sub3(a, [-b[0], -b[1], -b[2]])));
  return 180 - (turned * 180) / Math.PI;
};

const contourAt = ({ outline, holes }: FoldedFile, of: number): Contour | undefined =>
  of < 0 ? outline : holes[of];

const deviation = (body: FoldedFile, place: Place): number | undefined => {
  if (place.kind === 'line') return sideways(body, place.fold);
  if (place.kind !== 'cut') return undefined;
  const now = contourAt(body, place.of)?.loop;
  const { outline, holes } = body.asked.cut;
  const made = loopOf((place.of < 0 ? outline : holes[place.of]) ?? []).map((v) => {
    const [x, y] = placed(body.to, [v.x, v.y]);
    return { x, y, bulge: body.to.mirrored ? -v.bulge : v.bulge };
  });
  if (now === undefined) return undefined;
  const far = (points: readonly Vec2[], loop: Loop): number =>
    points.map(distancesFrom(loop, FILE_STEP_MM / 2)).reduce((most, d) => Math.max(most, d), 0);
  return Math.max(far(markersOf(made), now), far(markersOf(now), made));
};

/**
 * The distance of a fold line from its place, square to it: a fold line that is drawn shorter or
 * longer is the same line.
 */
const sideways = ({ asked, to, folded }: FoldedFile, fold: string): number | undefined => {
  const [hinge, bend] = [
    folded.hinges.find((h) => h.id === fold),
    asked.bends.find((b) => b.id === fold),
  ];
  if (hinge === undefined || bend === undefined) return undefined;
  const made = { from: placed(to, bend.centreLine[0]), to: placed(to, bend.centreLine[1]) };
  const now = { from: hinge.ends[0], to: hinge.ends[1] };
  return Math.max(
    fromLine(now.from, made),
    fromLine(now.to, made),
    fromLine(made.from, now),
    fromLine(made.to, now),
  );
};

const sizeOf = (body: FoldedFile, place: Place): number | undefined => {
  switch (place.kind) {
    case 'rolled':
      return rolledMm(place, body.outline.loop, body.to);
    case 'diameter': {
      const circle = contourAt(body, place.of)?.circle;
      return circle === undefined ? undefined : 2 * circle.radius;
    }
    case 'radius': {
      const arc = nearestPiece(
        contourAt(body, place.of)?.loop ?? [],
        placed(body.to, place.at),
        undefined,
      );
      return arc === undefined ? undefined : arcOf(arc.from, arc.to, arc.bulge).radius;
    }
    case 'length':
    case 'width': {
      const loop = contourAt(body, place.of)?.loop;
      const edge = edgeNear(body, place.of, place.from, place.to);
      if (loop === undefined || edge === undefined) return undefined;
      return reachOf(loop, unit(sub(edge.to, edge.from)))[place.kind === 'length' ? 0 : 1];
    }
    default:
      return undefined;
  }
};

const edgeNear = (body: FoldedFile, of: number, from: Vec2, to: Vec2): Line | undefined =>
  nearestPiece(
    contourAt(body, of)?.loop ?? [],
    placed(body.to, middle(from, to)),
    unit(placedVector(body.to, sub(to, from))),
  );

const lineOf = (body: FoldedFile, place: Place): Line | undefined => {
  if (place.kind === 'edge') return edgeNear(body, place.of, place.from, place.to);
  if (place.kind !== 'mould') return undefined;
  const hinge = body.folded.hinges.find((h) => h.id === place.fold);
  const region = regionOf(body, place.panel);
  return hinge === undefined || region === undefined || !isOn(hinge, region)
    ? undefined
    : mouldLine(hinge, region, {
        ...body.asked,
        ...(place.measure !== undefined && { measure: place.measure }),
      });
};

const isOn = ({ parent, child }: Hinge, region: number): boolean =>
  region === parent || region === child;

const pointOf = (body: FoldedFile, place: Place): Vec2 | undefined => {
  if (place.kind === 'mark') return nearestOf(body.marks, placed(body.to, place.at));
  if (place.kind === 'centre') {
    const contour = contourAt(body, place.of);
    return contour === undefined ? undefined : (contour.circle?.centre ?? centroidOf(contour.loop));
  }
  if (place.kind !== 'corner') return undefined;
  const at = placed(body.to, place.at);
  return nearestOf(
    body.outline.loop.map((v): Vec2 => [v.x, v.y]),
    at,
  );
};

const nearestOf = (points: readonly Vec2[], at: Vec2): Vec2 | undefined =>
  points.reduce<Vec2 | undefined>(
    (best, p) => (best === undefined || distance(p, at) < distance(best, at) ? p : best),
    undefined,
  );

const inSpace = (body: FoldedFile, place: Place, [x, y]: Vec2, z: number): Vec3 | undefined => {
  const region = 'panel' in place ? regionOf(body, place.panel) : undefined;
  const pose: Pose | undefined = region === undefined ? undefined : body.folded.poses[region];
  return pose === undefined ? undefined : posePoint(pose, [x, y, z]);
};

const fromLine = (p: Vec2, { from, to }: Line): number => {
  const dir = unit(sub(to, from));
  return Math.abs((p[0] - from[0]) * dir[1] - (p[1] - from[1]) * dir[0]);
};

/**
 * The distance between two lines, measured at both ends of the shorter one and taken at the end
 * that is farther off: lines that are askew are as wrong as their worse end.
 */
const betweenLines = (a: Line, b: Line, askedMm: number): number => {
  const [short, base] = distance(a.from, a.to) < distance(b.from, b.to) ? [a, b] : [b, a];
  const [p, q] = [fromLine(short.from, base), fromLine(short.to, base)];
  return Math.abs(p - askedMm) > Math.abs(q - askedMm) ? p : q;
};
