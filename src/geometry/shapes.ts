import { cosDeg, sinDeg } from './degrees.ts';
import type { Loop } from './loop.ts';
import { HALF_CIRCLE_BULGE } from './tolerance.ts';
import type { Vec2 } from './vec2.ts';

/**
 * A slot with round ends, counter-clockwise. `lengthMm` is measured overall and must be more than
 * `widthMm`; at 0 degrees it runs along x, and `turnDeg` turns it counter-clockwise about its
 * centre.
 */
export function obround(centre: Vec2, widthMm: number, lengthMm: number, turnDeg: number): Loop {
  const r = widthMm / 2;
  const half = lengthMm / 2 - r;
  const at = turned(centre, turnDeg);
  return [
    { ...at(-half, -r), bulge: 0 },
    { ...at(half, -r), bulge: 1 },
    { ...at(half, r), bulge: 0 },
    { ...at(-half, r), bulge: 1 },
  ];
}

/**
 * A regular polygon with an even number of sides, counter-clockwise, given its width across flats.
 * Its first side runs along x below the centre at 0 degrees, and `turnDeg` turns it
 * counter-clockwise.
 */
export function regularPolygon(
  centre: Vec2,
  sides: number,
  widthMm: number,
  turnDeg: number,
): Loop {
  const radius = widthMm / 2 / cosDeg(180 / sides);
  const at = turned(centre, turnDeg);
  return Array.from({ length: sides }, (_, i) => {
    const deg = -90 - 180 / sides + (360 * i) / sides;
    return { ...at(radius * cosDeg(deg), radius * sinDeg(deg)), bulge: 0 };
  });
}

/** A circle as two half arcs, counter-clockwise. */
export const circle = ([x, y]: Vec2, radius: number): Loop => [
  { x: x - radius, y, bulge: 1 },
  { x: x + radius, y, bulge: 1 },
];

/** Whether a loop is a circle of two half arcs. */
export const isCircle = (loop: Loop): boolean =>
  loop.length === 2 && loop.every(({ bulge }) => Math.abs(bulge - 1) < HALF_CIRCLE_BULGE);

const turned = (
  centre: Vec2,
  deg: number,
): ((x: number, y: number) => { x: number; y: number }) => {
  const c = cosDeg(deg);
  const s = sinDeg(deg);
  return (x, y) => ({ x: centre[0] + c * x - s * y, y: centre[1] + s * x + c * y });
};
