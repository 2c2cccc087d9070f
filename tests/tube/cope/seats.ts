import { type Cope, copeOn } from '../../../src/tube/cope/cope.ts';
import type { HeaderSeat, Seat } from '../../../src/tube/cope/seat.ts';

/** The cope of a tube on a seat that has one. */
export const made = (tube: { diameterMm: number; wallMm: number }, seat: Seat): Cope => {
  const result = copeOn(tube, seat);
  if (!result.ok) throw new Error(result.flaw.kind);
  return result.cope;
};

/** A seat on a straight tube. */
export const header = (diameterMm: number, angleDeg: number, offsetMm = 0): HeaderSeat => ({
  kind: 'header',
  diameterMm,
  angleDeg,
  offsetMm,
});
