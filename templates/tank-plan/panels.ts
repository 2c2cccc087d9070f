import {
  add,
  cosDeg,
  cross3,
  dot3,
  length3,
  roundCorners,
  scale,
  scale3,
  setbackMm,
  sub3,
  unit3,
} from '../../src/template.ts';
import type { Loop, Pose, Vec2, Vec3, Vertex } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { cornerTurnDeg, cornerWay, type Shape, sideName } from './planes.ts';
import { beyondMm, meetOf, type Plane } from './solid.ts';
import { crossingsOf, floorOf, isUp } from './steps.ts';

/** What of the sheet and the shop decides how blanks meet, mm. */
export interface Sheet {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly gapMm: number;
  /** How far floor and top stand back from the outside of the sides. */
  readonly backMm: number;
}

export const sheetOf = (v: TankPlan): Sheet => ({
  thicknessMm: v.thicknessMm,
  insideRadiusMm: v.insideRadiusMm,
  gapMm: v.cornerGapMm,
  backMm: v.setback ?? v.thicknessMm / 2,
});

/** A panel in its plane: its outline, and the pose that takes it to where it stands. */
export interface PlacedPanel {
  readonly name: string;
  readonly outline: Loop;
  readonly pose: Pose;
}

const halfTan = (deg: number): number => Math.tan((deg * Math.PI) / 360);

export const point = (pose: Pose, [x, y]: Vec2, z = 0): Vec3 =>
  [0, 1, 2].map(
    (i) =>
      (pose.o[i] as number) +
      x * (pose.x[i] as number) +
      y * (pose.y[i] as number) +
      z * (pose.z[i] as number),
  ) as unknown as Vec3;

/** Where a point lies in the plane of a panel. */
export const inPlane = ({ o, x, y }: Pose, p: Vec3): Vec2 => [
  dot3(sub3(p, o), x),
  dot3(sub3(p, o), y),
];

/**
 * The frame of floor or top on its inside face, as seen from above: x along the first side that has
 * one opposite whose edge runs alongside, as far as there are such, else as the plan has it.
 */
export const plateFrame = ({ planes, low, high }: Shape, which: 'floor' | 'top'): Pose => {
  const { normal } = planes[which];
  const z = which === 'floor' ? normal : scale3(normal, -1);
  const runs = planes.walls.map((wall) => unit3(cross3(wall.normal, z)));
  const x = runs.find((run) => runs.some((other) => isBack(run, other))) ?? unit3([z[2], 0, -z[0]]);
  return { o: (which === 'floor' ? low : high)[0] as Vec3, x, y: cross3(z, x), z };
};

/** Whether two edges run opposite ways. */
export const isBack = (one: Vec3, other: Vec3): boolean =>
  dot3(one, other) < 0 && length3(cross3(one, other)) < SAME_RUN;

/** Sine between two edges below which they run alongside: what turning and crossing leaves of none. */
const SAME_RUN = 1e-9;

/** How far an edge of floor or top reaches beyond the inside of the side that stands there, mm. */
export const overlapMm = (plate: Plane, wall: Plane, { thicknessMm, backMm }: Sheet): number =>
  thicknessMm / length3(cross3(plate.normal, wall.normal)) - backMm;

/**
 * Floor or top: a flat sheet over the edges of all sides, whose outside it stands back from. Corners
 * at which the sides are folded are rounded as the outside of those bends is.
 */
export const platePanel = (
  shape: Shape,
  which: 'floor' | 'top',
  sheet: Sheet,
  folded: readonly number[],
): PlacedPanel => {
  const frame = plateFrame(shape, which);
  const plate = shape.planes[which];
  const lines = shape.planes.walls.map((wall) => {
    const n: Vec2 = [dot3(wall.normal, frame.x), dot3(wall.normal, frame.y)];
    const size = Math.hypot(...n);
    return {
      n: scale(n, 1 / size),
      at: -beyondMm(wall, frame.o) / size - overlapMm(plate, wall, sheet),
    };
  });
  const sharp = lines.map(({ n, at }, i): Vertex => {
    const before = lines.at(i - 1) as (typeof lines)[number];
    const size = before.n[0] * n[1] - before.n[1] * n[0];
    return {
      x: (before.at * n[1] - at * before.n[1]) / size,
      y: (at * before.n[0] - before.at * n[0]) / size,
      bulge: 0,
      edge: sideName(i),
    };
  });
  const round = sheet.insideRadiusMm + sheet.thicknessMm - sheet.backMm;
  const convex = folded.filter((corner) => cornerTurnDeg(shape.planes, corner) > 0);
  const rounded = roundCorners(sharp, convex, Math.max(0, round));
  const inside = which === 'floor' ? -sheet.thicknessMm : 0;
  return {
    name: which,
    outline: rounded.ok ? rounded.loop : sharp,
    pose: { ...frame, o: point(frame, [0, 0], inside) },
  };
};

/**
 * How far the mould line of a bend between two sides lies from where their insides meet, on each of
 * them, mm. Inside the tank a bend is the inside of the sheet where the corner points outwards, and
 * its outside, r + t, where it points inwards; the mould lines of the blank are those of the inside
 * of each bend.
 */
export const foldShiftMm = (
  turnDeg: number,
  { thicknessMm: t, insideRadiusMm: r }: Sheet,
): number => {
  const angle = Math.abs(turnDeg);
  const faceRadius = turnDeg > 0 ? r : r + t;
  return faceRadius * halfTan(angle) - setbackMm(angle, r, t, 'inside');
};

/** How far a side that is welded at a corner ends from where the insides meet there, mm. */
export const seamShiftMm = (turnDeg: number, { thicknessMm: t, gapMm }: Sheet): number =>
  // Where the corner points inwards the outer edges of both are the nearer ones.
  (turnDeg < 0 ? t * halfTan(-turnDeg) : 0) + gapMm / (2 * cosDeg(turnDeg / 2));

/** From where a bend takes up the flat of a side, mm from where the insides meet. */
export const bendReachMm = (
  turnDeg: number,
  { thicknessMm: t, insideRadiusMm: r }: Sheet,
): number => (turnDeg > 0 ? r : r + t) * halfTan(Math.abs(turnDeg));

/** Sides that are one blank, in their order round the plan; it is folded at the corners between. */
export type Chain = readonly number[];

export const isFoldedIn = (chain: Chain, corner: number): boolean => chain.indexOf(corner) > 0;

/**
 * How far the inside edges of a blank end from floor or top, square to that, so that no edge is
 * nearer than the gap: a side that is cut square and leans over comes nearest with its outside. All
 * sides of a blank end alike, so that their edges meet at the bends.
 */
export const endsMm = (
  plate: Plane,
  { planes: { walls } }: Shape,
  chain: Chain,
  { thicknessMm, gapMm }: Sheet,
): number =>
  gapMm +
  thicknessMm *
    Math.max(0, ...chain.map((side) => dot3(plate.normal, (walls[side] as Plane).normal)));

/** The end of a side at a corner: the line along which it is folded or cut, and its two ends. */
interface SideEnd {
  readonly from: Vec3;
  readonly way: Vec3;
  readonly lowMm: number;
  readonly highMm: number;
}

const sideEnd = (
  shape: Shape,
  side: number,
  corner: number,
  chain: Chain,
  sheet: Sheet,
): SideEnd => {
  const { planes, low } = shape;
  const wall = planes.walls[side] as Plane;
  const way = cornerWay(planes, corner);
  const turn = cornerTurnDeg(planes, corner);
  const shift = isFoldedIn(chain, corner) ? foldShiftMm(turn, sheet) : seamShiftMm(turn, sheet);
  // Square to the corner, into the side: to the left of the way up as seen from inside at its
  // start, to the right at its end.
  const square = unit3(cross3(way, wall.normal));
  const into = side === corner ? 1 : -1;
  const at = low[corner] as Vec3;
  const from = [0, 1, 2].map(
    (i) => (at[i] as number) - into * shift * (square[i] as number),
  ) as unknown as Vec3;
  const reach = (plate: Plane): number =>
    (endsMm(plate, shape, chain, sheet) - beyondMm(plate, from)) / dot3(plate.normal, way);
  return { from, way, lowMm: reach(floorOf(planes, corner)), highMm: reach(planes.top) };
};

/** Whether the corner at each place of the plan is folded. */
export type Folded = (corner: number) => boolean;

/** The frame of a side on its inside face, as seen from inside: x level, from its last corner. */
export const sideFrame = ({ planes, low }: Shape, side: number): Pose => {
  const { normal } = planes.walls[side] as Plane;
  const x = unit3([-normal[1], normal[0], 0]);
  return { o: low[(side + 1) % low.length] as Vec3, x, y: cross3(normal, x), z: normal };
};

/**
 * A side as seen from inside the tank, its edges `bottom`, `right` (its first corner), `top` and
 * `left`. Where two sides are folded at a corner both end at the same heights of it, those of the
 * one that ends sooner where their mould lines are not where the insides meet.
 */
export const sidePanel = (shape: Shape, side: number, chain: Chain, sheet: Sheet): PlacedPanel => {
  const n = shape.low.length;
  const next = (side + 1) % n;
  const frame = sideFrame(shape, side);
  const at = (corner: number): readonly [low: Vec2, high: Vec2] => {
    const own = sideEnd(shape, side, corner, chain, sheet);
    const other = sideEnd(shape, corner === side ? (side + n - 1) % n : next, corner, chain, sheet);
    const [lowMm, highMm] = isFoldedIn(chain, corner)
      ? [Math.max(own.lowMm, other.lowMm), Math.min(own.highMm, other.highMm)]
      : [own.lowMm, own.highMm];
    const on = (mm: number): Vec2 =>
      add(inPlane(frame, own.from), scale(inPlane({ ...frame, o: [0, 0, 0] }, own.way), mm));
    return [on(lowMm), on(highMm)];
  };
  const [[a, d], [b, c]] = [at(next), at(side)];
  const steps = stepsUnder(shape, side, chain, sheet).map((p) => inPlane(frame, p));
  const corners = [a, ...steps, b, c, d];
  const edges = ['bottom', ...steps.map((_, i) => `bottom ${i + 2}`), 'right', 'top', 'left'];
  const sharp = corners.map(([px, py], i): Vertex => ({
    x: px,
    y: py,
    bulge: 0,
    edge: edges[i] as string,
  }));
  return {
    name: sideName(side),
    outline: aroundBends(shape, side, sharp, sheet),
    pose: { ...frame, o: point(frame, [0, 0], -sheet.thicknessMm) },
  };
};

/** The corners of a side's lower edge at the steps of the floor, from its last corner to its first. */
const stepsUnder = (shape: Shape, side: number, chain: Chain, sheet: Sheet): Vec3[] => {
  const { walls, floors, risers } = shape.planes;
  const off = (plane: Plane, along: Chain): Plane => ({
    ...plane,
    atMm: plane.atMm + endsMm(plane, shape, along, sheet),
  });
  return crossingsOf(shape.planes, side)
    .flatMap(({ step, from, to }) =>
      [from, to].map((floor) =>
        meetOf(
          walls[side] as Plane,
          off(risers[step] as Plane, [side]),
          off(floors[floor] as Plane, chain),
        ),
      ),
    )
    .toReversed();
};

/**
 * A side with its lower corners at steps rounded about the bends of the floor, so that the gap is
 * the same round them: at the foot of a step about the inside of the bend, and over its edge about
 * the outside.
 */
const aroundBends = (shape: Shape, side: number, sharp: Loop, sheet: Sheet): Loop => {
  const { insideRadiusMm: r, thicknessMm: t, gapMm } = sheet;
  return crossingsOf(shape.planes, side).reduce<Loop>((loop, { step, from, to }, i) => {
    // Each crossing has two corners, that on the floor it runs onto coming first. The last in the
    // outline are rounded first, so that the places of those before them stay.
    const riser = shape.planes.risers[step] as Plane;
    const lower = isUp(riser) ? Math.min(from, to) : Math.max(from, to);
    const at = sharp.length - 5 - 2 * i;
    const [foot, edge] = to === lower ? [at, at + 1] : [at + 1, at];
    const both = [
      { corner: foot, radius: Math.max(0, r - gapMm) },
      { corner: edge, radius: r + t + gapMm },
    ].sort((one, other) => other.corner - one.corner);
    return both.reduce<Loop>((left, { corner, radius }) => {
      const rounded = roundCorners(left, [corner], radius);
      return rounded.ok ? rounded.loop : left;
    }, loop);
  }, sharp);
};
