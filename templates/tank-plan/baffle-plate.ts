import { cross, distance, dot, dot3, leftOf, setbackMm, sub, unit } from '../../src/template.ts';
import type { Loop, Pose, Vec2, Vertex } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import type { SectionEdge } from './section.ts';
import { isFloorName, isRiserName } from './steps.ts';

/** An edge of a baffle's plate: how it is folded along its facet, and how far it is drawn in. */
export interface PlateEdge {
  readonly edge: SectionEdge;
  readonly hasFlange: boolean;
  readonly bendDeg: number;
  readonly setbackMm: number;
  readonly inMm: number;
}

/** A side that meets a baffle at a flatter angle gets no flange: the baffle is welded on its edge. */
const FLATTEST_DEG = 45;

export const plateEdge = (v: TankPlan, { z }: Pose, edge: SectionEdge): PlateEdge => {
  const cosine = dot3(edge.normal, z);
  const sine = Math.sqrt(1 - cosine * cosine);
  // The flange leaves the plate by the angle between its normal and the facet's.
  const bendDeg = (Math.atan2(sine, cosine) * 180) / Math.PI;
  // Along a step it is welded on its edge too: its flange and that of the floor above the step would
  // take the same sheet.
  const hasFlange =
    edge.facet !== 'top' &&
    !isRiserName(edge.facet) &&
    bendDeg >= FLATTEST_DEG &&
    bendDeg <= 180 - FLATTEST_DEG;
  if (!hasFlange)
    // Both faces of a plate that is cut square stay the gap off a facet that leans over it.
    return {
      edge,
      hasFlange,
      bendDeg,
      setbackMm: 0,
      inMm: (v.baffleGap + v.thicknessMm * Math.max(0, -cosine)) / sine,
    };
  const setback = setbackMm(bendDeg, v.insideRadiusMm, v.thicknessMm, 'outside');
  // Past square the mould line is the outermost tangent, nearer in than where the faces meet.
  const reach = (v.insideRadiusMm + v.thicknessMm) * Math.tan((bendDeg * Math.PI) / 360);
  return {
    edge,
    hasFlange,
    bendDeg,
    setbackMm: setback,
    inMm: v.baffleGap / sine + reach - setback,
  };
};

/** Usual cut of a corner, for flow at the floor and air at the top; common practice is 20 to 30 mm. */
const USUAL_CUT_MM = 25;

/** Where two edges of the plate meet, each drawn in. */
export const meetInPlane = (one: PlateEdge, other: PlateEdge): Vec2 => {
  const [a, b] = [one, other].map(({ edge, inMm }) => {
    const n = leftOf(unit(sub(edge.to, edge.from)));
    return { n, at: dot(n, edge.from) + inMm };
  }) as [{ n: Vec2; at: number }, { n: Vec2; at: number }];
  const size = a.n[0] * b.n[1] - a.n[1] * b.n[0];
  return [(a.at * b.n[1] - b.at * a.n[1]) / size, (b.at * a.n[0] - a.at * b.n[0]) / size];
};

/** How far a corner is cut along both its edges: those of the floor and those of the top. */
const cutMm = (v: TankPlan, before: PlateEdge, after: PlateEdge, turnDeg: number): number => {
  const facets = [before.edge.facet, after.edge.facet];
  // Where a step points into the tank the flange of the floor above it keeps off the plate below.
  if (turnDeg < 0) return USUAL_CUT_MM;
  const bends = before.setbackMm + after.setbackMm;
  const least = bends === 0 ? 0 : (bends + v.thicknessMm) / Math.sin((turnDeg * Math.PI) / 180);
  const step = [before, after].find(({ edge }) => isRiserName(edge.facet));
  // At the foot of a low step half of it stays, so that the plate is welded to it.
  if (step !== undefined)
    return Math.max(
      least,
      Math.min(v.limber ?? USUAL_CUT_MM, distance(step.edge.from, step.edge.to) / 2),
    );
  if (facets.some(isFloorName)) return v.limber ?? Math.max(USUAL_CUT_MM, least);
  return facets.includes('top') ? (v.vent ?? Math.max(USUAL_CUT_MM, least)) : least;
};

/** The plate with its corners cut off; missing where cuts meet on an edge. */
export const cutCorners = (
  v: TankPlan,
  edges: readonly PlateEdge[],
  corners: readonly Vec2[],
): Loop | undefined => {
  const n = corners.length;
  const at = (i: number): Vec2 => corners[(i + n) % n] as Vec2;
  const way = (i: number): Vec2 => unit(sub(at(i + 1), at(i)));
  const cuts = corners.map((_, i) => {
    const [a, b] = [way(i - 1), way(i)];
    const turn = (Math.atan2(a[0] * b[1] - a[1] * b[0], dot(a, b)) * 180) / Math.PI;
    return cutMm(v, edges.at(i - 1) as PlateEdge, edges[i] as PlateEdge, turn);
  });
  /** What a corner takes of an edge: where it points in, only of one with a flange. */
  const cutAt = (corner: number, edge: number): number =>
    cross(way(corner - 1), way(corner)) < 0 && edges[edge]?.hasFlange !== true
      ? 0
      : (cuts[corner] as number);
  const isShort = corners.some((_, i) => {
    const length = Math.hypot(...sub(at(i + 1), at(i)));
    const least = isRiserName((edges[i] as PlateEdge).edge.facet) ? 1 : 4;
    return length - cutAt(i, i) - cutAt((i + 1) % n, i) < least * v.thicknessMm;
  });
  if (isShort) return undefined;
  return corners.flatMap(([x, y], i): Vertex[] => {
    const cut = cuts[i] as number;
    const [a, b] = [way(i - 1), way(i)];
    const { facet } = (edges[i] as PlateEdge).edge;
    if (cross(a, b) < 0) return edgeBesideStep([x, y], cut, [a, b], [edges.at(i - 1), edges[i]]);
    const start: Vertex = { x: x + cut * b[0], y: y + cut * b[1], bulge: 0, edge: facet };
    return cut === 0
      ? [start]
      : [{ x: x - cut * a[0], y: y - cut * a[1], bulge: 0, edge: `cut ${i + 1}` }, start];
  });
};

/**
 * The edges of a plate at a corner that points into it: the edge of the floor above a step begins
 * so far from the step, and the plate's edge runs on to the corner without a flange.
 */
const edgeBesideStep = (
  [x, y]: Vec2,
  cut: number,
  [before, after]: readonly [Vec2, Vec2],
  [one, other]: readonly [PlateEdge | undefined, PlateEdge | undefined],
): Vertex[] => {
  const [a, b] = [one?.edge.facet ?? '', other?.edge.facet ?? ''];
  const corner: Vertex = { x, y, bulge: 0, edge: b };
  return one?.hasFlange === true
    ? [{ x: x - cut * before[0], y: y - cut * before[1], bulge: 0, edge: `beside ${a}` }, corner]
    : [
        { ...corner, edge: `beside ${b}` },
        { x: x + cut * after[0], y: y + cut * after[1], bulge: 0, edge: b },
      ];
};
