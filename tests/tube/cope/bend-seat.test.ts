import { describe, expect, it } from 'vitest';
import { copeOn, placesRound } from '../../../src/tube/cope/cope.ts';
import type { Seat } from '../../../src/tube/cope/seat.ts';
import { inTurns } from '../../helpers/extent.ts';
import { header, made } from './seats.ts';
import { fromAxis, type P } from './witness.ts';

describe('a branch on a bend', () => {
  const bend = {
    kind: 'bend',
    diameterMm: 45,
    bendRadiusMm: 135,
    angleDeg: 70,
    leavesDeg: 0,
    beforeDeg: 45,
    behindDeg: 45,
  } as const;
  const tube = { diameterMm: 32, wallMm: 2 };

  it('is cut as a march along each generator finds it', () => {
    for (const [turn, leavesDeg] of [0, 50, 90, 180, 260].entries())
      for (const angleDeg of inTurns([58, 70, 90], turn, 3)) {
        const seat: Seat = { ...bend, leavesDeg, angleDeg };
        const cope = made(tube, seat);
        for (const deg of placesRound(10)) {
          const far = marched(seat, 16, deg);
          expect(Math.abs(cope.knifeMm(deg) - far), `${leavesDeg} ${angleDeg} ${deg}`).toBeLessThan(
            0.01,
          );
          expect(cope.fitMm(deg)).toBeGreaterThan(
            Math.max(...[14, 14.7, 15.3].map((r) => marched(seat, r, deg))) - 0.01,
          );
        }
      }
  });

  it('as thick as the bend, it grazes it with its outermost generators', () => {
    const seat: Seat = { ...bend, diameterMm: 32, bendRadiusMm: 96, angleDeg: 90 };
    const cope = made(tube, seat);
    // Square to the bend its widest place lies in the plane of the node.
    expect(cope.knifeMm(90)).toBeCloseTo(0, 6);
    expect(cope.knifeMm(89.9)).toBeCloseTo(marched(seat, 16, 89.9), 2);
    for (const leavesDeg of [0, 90, 180, 270])
      expect(copeOn(tube, { ...seat, leavesDeg })).toMatchObject({ ok: true });
  });

  it('a bend of a large radius is a straight header', () => {
    const straight = made(tube, header(45, 70));
    const bent = made(tube, { ...bend, bendRadiusMm: 1e5 });
    for (const deg of placesRound(24))
      expect(Math.abs(bent.fitMm(deg) - straight.fitMm(deg))).toBeLessThan(0.02);
  });
});

/** The outermost z at which a generator is in the bent header, by steps and halving. */
const marched = (seat: Extract<Seat, { kind: 'bend' }>, r: number, deg: number): number => {
  const [b, l] = [seat.angleDeg, seat.leavesDeg].map((d) => (d * Math.PI) / 180) as [
    number,
    number,
  ];
  // In the frame of the bend: its middle at the origin, the node at +X, the tube along +Y there.
  const up: P = [Math.cos(l), 0, -Math.sin(l)];
  const side: P = [up[2], 0, -up[0]];
  const axis: P = [up[0] * Math.sin(b), Math.cos(b), up[2] * Math.sin(b)];
  const acute: P = [-up[0] * Math.cos(b), Math.sin(b), -up[2] * Math.cos(b)];
  const a = (deg * Math.PI) / 180;
  const point = (z: number): P =>
    [0, 1, 2].map(
      (k) =>
        (k === 0 ? seat.bendRadiusMm : 0) +
        z * (axis[k] as number) +
        r * (Math.cos(a) * (acute[k] as number) - Math.sin(a) * (side[k] as number)),
    ) as unknown as P;
  const outside = (z: number): number => fromBentLine(point(z), seat) - seat.diameterMm / 2;
  const near = (z: number): boolean => point(z)[0] > 0;
  let z = 150;
  while (z > -150 && !(outside(z) <= 0 && near(z))) z -= 0.1;
  let [low, high] = [z, z + 0.1];
  for (let i = 0; i < 40; i++) {
    const mid = (low + high) / 2;
    if (outside(mid) <= 0) low = mid;
    else high = mid;
  }
  return low;
};

/** Distance of a point from the centre line: an arc of 45 degrees either way, and its tangents. */
const fromBentLine = (
  [x, y, z]: P,
  { bendRadiusMm: big }: { readonly bendRadiusMm: number },
): number => {
  const side = Math.abs(y);
  if (Math.atan2(side, x) <= Math.PI / 4) return Math.hypot(Math.hypot(x, y) - big, z);
  const k = Math.SQRT1_2;
  return fromAxis([x, side, z], [big * k, big * k, 0], [-k, k, 0]);
};
