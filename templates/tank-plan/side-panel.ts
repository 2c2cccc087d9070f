import { add, cross3, dot3, roundCorners, scale, unit3 } from '../../src/template.ts';
import type { Loop, Vec2, Vec3, Vertex } from '../../src/template.ts';
import {
  type Chain,
  endsMm,
  foldShiftMm,
  inPlane,
  isFoldedIn,
  type PlacedPanel,
  point,
  seamShiftMm,
  type Sheet,
  sideFrame,
} from './panels.ts';
import { cornerTurnDeg, cornerWay, type Shape, sideName } from './planes.ts';
import { beyondMm, meetOf, type Plane } from './solid.ts';
import { crossingsOf, floorOf, isUp } from './steps.ts';

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
    outline: sheet.isFloorInPieces ? sharp : aroundBends(shape, side, sharp, sheet),
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
