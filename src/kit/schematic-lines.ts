import type { Vec2 } from '../geometry/vec2.ts';
import type { SchematicLine } from '../model/schematic.ts';

/** Points of an arc, from one angle to another, degrees. */
export const arcPoints = (
  [x, y]: Vec2,
  radius: number,
  fromDeg: number,
  toDeg: number,
): readonly Vec2[] => {
  const steps = Math.max(2, Math.ceil(Math.abs(toDeg - fromDeg) / 6));
  return Array.from({ length: steps + 1 }, (_, i): Vec2 => {
    const rad = ((fromDeg + ((toDeg - fromDeg) * i) / steps) * Math.PI) / 180;
    return [x + radius * Math.cos(rad), y + radius * Math.sin(rad)];
  });
};

/** A circle, or a ring of two. */
export const ringLines = (centre: Vec2, ...radii: readonly number[]): SchematicLine[] =>
  radii.map((radius) => ({ points: arcPoints(centre, radius, 0, 360) }));

/** A tube seen from the side along its middle line, with square ends: both edges, the ends, the middle. */
export const tubeLines = (
  middle: readonly Vec2[],
  width: number,
  { startsOpen = false, endsOpen = false } = {},
): SchematicLine[] => {
  const edges = [width / 2, -width / 2].map((by) => middle.map((p, i) => moved(middle, i, p, by)));
  const [left, right] = edges as [Vec2[], Vec2[]];
  const across = (i: number): SchematicLine => ({
    points: [left.at(i) as Vec2, right.at(i) as Vec2],
  });
  return [
    { points: left },
    { points: right },
    ...(startsOpen ? [] : [across(0)]),
    ...(endsOpen ? [] : [across(-1)]),
    { points: middle, as: 'centre' },
  ];
};

/** A point of a line moved to its left, square to the way from its neighbour before to that behind. */
const moved = (line: readonly Vec2[], i: number, [x, y]: Vec2, by: number): Vec2 => {
  const [from, to] = [line[Math.max(0, i - 1)], line[Math.min(line.length - 1, i + 1)]] as [
    Vec2,
    Vec2,
  ];
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(dx, dy);
  return [x - (by * dy) / long, y + (by * dx) / long];
};

/** A point from another, so far in a direction. */
export const polar = ([x, y]: Vec2, reach: number, deg: number): Vec2 => {
  const rad = (deg * Math.PI) / 180;
  return [x + reach * Math.cos(rad), y + reach * Math.sin(rad)];
};
