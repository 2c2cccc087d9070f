import flattenJs from '@flatten-js/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arcOf, bulgeOf } from '../../src/geometry/arc.ts';
import { crossings, endDirection, type Piece, pointOn } from '../../src/geometry/piece.ts';
import { along, distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { fuzzRuns } from '../helpers/extent.ts';

/** An arc that leaves a point in a direction, or a straight piece where its radius is endless. */
const pieceFrom = (from: Vec2, rad: number, radius: number, sweep: number): Piece => {
  if (!Number.isFinite(radius))
    return { from, to: along(from, [Math.cos(rad), Math.sin(rad)], sweep), bulge: 0 };
  const chord = 2 * radius * Math.sin(Math.abs(sweep) / 2);
  const lean = rad + sweep / 2;
  return {
    from,
    to: along(from, [Math.cos(lean), Math.sin(lean)], chord),
    bulge: bulgeOf(sweep),
  };
};

const shape = ({ from, to, bulge }: Piece): flattenJs.Segment | flattenJs.Arc => {
  if (bulge === 0)
    return new flattenJs.Segment(new flattenJs.Point(...from), new flattenJs.Point(...to));
  const { centre, radius, startRad, sweepRad } = arcOf(from, to, bulge);
  return new flattenJs.Arc(
    new flattenJs.Point(...centre),
    radius,
    startRad,
    startRad + sweepRad,
    sweepRad > 0,
  );
};

const turns = fc.double({ min: 0.3, max: 5.5, noNaN: true }).chain((s) => fc.constantFrom(s, -s));
const radii = fc.oneof(fc.double({ min: 5, max: 500, noNaN: true }), fc.constant(Infinity));

test('pieces that share an end cross there, and elsewhere where flatten-js says so', () => {
  let elsewhere = 0;
  fc.assert(
    fc.property(
      fc.tuple(radii, turns, radii, turns),
      fc.double({ min: 0.2, max: 6, noNaN: true }),
      ([r, sweepA, s, sweepB], kink) => {
        const long = (radius: number, sweep: number): number =>
          Number.isFinite(radius) ? sweep : 100 * Math.abs(sweep);
        const a = pieceFrom([3, -7], 0.4, r, long(r, sweepA));
        const b = pieceFrom(a.to, 0.4 + kink, s, long(s, sweepB));
        const found = crossings(a, b);
        expect(found[0]).toEqual({ a: 1, b: 0 });
        const others = found.slice(1);
        for (const { a: onA, b: onB } of others)
          expect(distance(pointOn(a, onA), pointOn(b, onB))).toBeLessThan(1e-6);
        const far = (at: Vec2): boolean => distance(at, a.to) > 1e-3;
        const wanted = shape(a)
          .intersect(shape(b))
          .map(({ x, y }): Vec2 => [x, y])
          .filter(far);
        const places = others.map((c) => pointOn(a, c.a)).filter(far);
        // Ends that lie on the other piece but for rounding are a matter of taste.
        const nearEnd = [...wanted, ...places].some((at) =>
          [a.from, b.to].some((end) => distance(end, at) < 1e-3),
        );
        if (nearEnd) return;
        expect(places).toHaveLength(wanted.length);
        wanted.forEach((at) =>
          expect(Math.min(...places.map((p) => distance(p, at)))).toBeLessThan(1e-4),
        );
        elsewhere += wanted.length;
      },
    ),
    { numRuns: fuzzRuns(2000) },
  );
  expect(elsewhere).toBeGreaterThan(0);
});

test('large arcs that run into each other smoothly cross at their common end alone', () => {
  const large = fc.double({ min: 2, max: 7, noNaN: true }).map((power) => 10 ** power);
  fc.assert(
    fc.property(
      fc.tuple(large, large, fc.boolean()),
      fc.double({ min: -3, max: 3, noNaN: true }),
      ([r, s, turnsBack], rad) => {
        const a = pieceFrom([60, 13], rad, r, 5 / r);
        const [x, y] = endDirection(a);
        const b = pieceFrom(a.to, Math.atan2(y, x), s, (turnsBack ? -5 : 5) / s);
        for (const { a: onA } of crossings(a, b))
          expect(distance(pointOn(a, onA), a.to)).toBeLessThan(1e-6);
      },
    ),
    { numRuns: fuzzRuns(2000) },
  );
});
