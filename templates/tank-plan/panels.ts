import {
  cosDeg,
  cross3,
  dot3,
  length3,
  roundCorners,
  scale,
  scale3,
  setbackMm,
  sinDeg,
  sub3,
  unit3,
} from '../../src/template.ts';
import type { Loop, Pose, Vec2, Vec3, Vertex } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { cornerTurnDeg, type Shape, sideName } from './planes.ts';
import { beyondMm, type Plane, turnOfDeg } from './solid.ts';

/** What of the sheet and the shop decides how blanks meet, mm. */
export interface Sheet {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly gapMm: number;
  /** How far floor and top stand back from the outside of the sides. */
  readonly backMm: number;
  readonly seams: { readonly floor: SeamKind; readonly top: SeamKind };
  /** Width of the flanges of floor and top, outside. */
  readonly seamFlangeMm: number;
  /** Whether a stepped floor is welded of pieces, and not folded at its steps. */
  readonly isFloorInPieces: boolean;
}

/** How floor or top meets the sides. */
export type SeamKind = TankPlan['topSeam'];

export const sheetOf = (v: TankPlan): Sheet => ({
  thicknessMm: v.thicknessMm,
  insideRadiusMm: v.insideRadiusMm,
  gapMm: v.cornerGapMm,
  backMm: v.setback ?? v.thicknessMm / 2,
  seams: { floor: v.blanks === 'pan' ? 'edge' : v.floorSeam, top: v.topSeam },
  seamFlangeMm: v.seamFlange + (v.measure === 'inside' ? v.thicknessMm : 0),
  isFloorInPieces: v.floorBlanks === 'pieces',
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
 * sides of a blank end alike, so that their edges meet at the bends. Below a floor or top whose
 * edges are folded over them they end where these bends do; past one that stands between them they
 * end with its flanges.
 */
export const endsMm = (
  plate: Plane,
  { planes: { walls, top } }: Shape,
  chain: Chain,
  { thicknessMm, insideRadiusMm, gapMm, seams, seamFlangeMm }: Sheet,
): number => {
  const seam = plate === top ? seams.top : seams.floor;
  if (seam === 'flanged') return -seamFlangeMm;
  const bends =
    seam === 'edge'
      ? []
      : chain.map((side) => {
          const turn = turnOfDeg(plate, walls[side] as Plane);
          return insideRadiusMm * halfTan(turn) * sinDeg(turn);
        });
  return (
    Math.max(gapMm, ...bends) +
    thicknessMm *
      Math.max(0, ...chain.map((side) => dot3(plate.normal, (walls[side] as Plane).normal)))
  );
};

/** Whether the corner at each place of the plan is folded. */
export type Folded = (corner: number) => boolean;

/** The frame of a side on its inside face, as seen from inside: x level, from its last corner. */
export const sideFrame = ({ planes, low }: Shape, side: number): Pose => {
  const { normal } = planes.walls[side] as Plane;
  const x = unit3([-normal[1], normal[0], 0]);
  return { o: low[(side + 1) % low.length] as Vec3, x, y: cross3(normal, x), z: normal };
};
