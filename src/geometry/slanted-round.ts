import { arcsAlong, type Stretch } from './arcs-along.ts';
import { cosDeg, sinDeg, tanDeg } from './degrees.ts';
import type { Loop, Vertex } from './loop.ts';
import { CURVE_ARC_MM, FILE_STEP_MM } from './tolerance.ts';
import type { Vec2 } from './vec2.ts';
import { circle } from './shapes.ts';

/** A cylinder that passes through a layer at an angle. */
export interface Passage {
  readonly diameterMm: number;
  /** Between the cylinder's axis and the normal of the layer, degrees, 0 up to less than 90. */
  readonly leanDeg: number;
  readonly thicknessMm: number;
  /** Where its axis meets the middle of the layer. */
  readonly centre: Vec2;
  /** The direction in which it leans, counter-clockwise from x. */
  readonly turnDeg: number;
}

/**
 * The outline of the smallest opening square through a layer that a cylinder passes at an angle. On
 * either face the cylinder leaves an ellipse, D by D / cos(a); the two lie t tan(a) apart, and what
 * holds both is two half ellipses with straight sides between them: D wide and D / cos(a) + t tan(a)
 * long. Counter-clockwise, of arcs that follow each other without a corner.
 */
export function slantedRound({ diameterMm, leanDeg, thicknessMm, centre, turnDeg }: Passage): Loop {
  const r = diameterMm / 2;
  if (leanDeg === 0) return circle(centre, r);
  const [long, apart] = [r / cosDeg(leanDeg), (thicknessMm * tanDeg(leanDeg)) / 2];
  const placed = ([x, y]: Vec2): Vec2 => [
    centre[0] + cosDeg(turnDeg) * x - sinDeg(turnDeg) * y,
    centre[1] + sinDeg(turnDeg) * x + cosDeg(turnDeg) * y,
  ];
  const quarter = (from: number): Vertex[] => {
    const middle = from === 0 || from === 270 ? apart : -apart;
    const at: Stretch['at'] = (deg) => ({
      at: [middle + long * cosDeg(deg), r * sinDeg(deg)],
      toward: [-long * sinDeg(deg), r * cosDeg(deg)],
    });
    return arcsAlong({ from, to: from + 90, at }, CURVE_ARC_MM).map(({ from: start, bulge }) => {
      const [x, y] = placed(start);
      return { x, y, bulge };
    });
  };
  const side = (deg: number, x: number): Vertex[] => {
    if (2 * apart < FILE_STEP_MM) return [];
    const [px, py] = placed([x, r * sinDeg(deg)]);
    return [{ x: px, y: py, bulge: 0 }];
  };
  return [
    ...quarter(270),
    ...quarter(0),
    ...side(90, apart),
    ...quarter(90),
    ...quarter(180),
    ...side(270, -apart),
  ];
}
