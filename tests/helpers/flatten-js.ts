import Flatten from '@flatten-js/core';
import type { Loop } from '../../src/geometry/loop.ts';
import { arcOf } from '../../src/geometry/arc.ts';
import { pieceOf } from '../../src/geometry/piece.ts';

/**
 * A loop as a polygon of a general geometry library, arcs kept, to check areas, validity and
 * distances independently.
 */
export const toFlatten = (loop: Loop): Flatten.Polygon => {
  const point = ([x, y]: readonly [number, number]): Flatten.Point => new Flatten.Point(x, y);
  const shapes = loop.map((_, i) => {
    const p = pieceOf(loop, i);
    if (p.bulge === 0) return new Flatten.Segment(point(p.from), point(p.to));
    const a = arcOf(p.from, p.to, p.bulge);
    return new Flatten.Arc(
      point(a.centre),
      a.radius,
      a.startRad,
      a.startRad + a.sweepRad,
      a.sweepRad > 0,
    );
  });
  const polygon = new Flatten.Polygon();
  polygon.addFace(shapes);
  return polygon;
};
