import type { Body } from './body.ts';
import { surfaceCutBack, type Tube, wallCutBack } from './cut-back.ts';
import { type CopeFlaw, copeFlaw } from './flaw.ts';
import { bodiesOf, type Seat } from './seat.ts';

/**
 * One end of a tube, cut so that it sits on its seat. Places round the branch are degrees from its
 * acute side (`seat.ts`), places along it are millimetres from the node: the tube keeps what lies
 * beyond.
 */
export interface Cope {
  readonly tube: Tube;
  readonly seat: Seat;
  /**
   * The line to cut along on the outside: what a cut square to the wall needs, so that the tube goes
   * home and no layer of it bites; of a mitre that of the saw, which goes straight through.
   */
  readonly fitMm: (roundDeg: number) => number;
  /** Where a layer of the wall ends, by its radius, once the tube is cut like that. */
  readonly layerMm: (radiusMm: number, roundDeg: number) => number;
  /**
   * Where the outside of the tube meets the seat: the line to cut along when the wall is ground
   * back to a knife edge behind it. A square cut along it stands on its inside.
   */
  readonly knifeMm: (roundDeg: number) => number;
}

export type CopeMade =
  { readonly ok: true; readonly cope: Cope } | { readonly ok: false; readonly flaw: CopeFlaw };

/** The cope of a tube on its seat, or why there is none. */
export function copeOn(tube: Tube, seat: Seat): CopeMade {
  const bodies = bodiesOf(seat);
  const flaw = copeFlaw(tube, seat, bodies);
  if (flaw !== undefined) return { ok: false, flaw };
  const layerMm = (radiusMm: number, roundDeg: number): number =>
    found(surfaceCutBack(bodies, radiusMm, roundDeg), bodies);
  const knifeMm = (roundDeg: number): number => layerMm(tube.diameterMm / 2, roundDeg);
  if (seat.kind === 'mitre')
    return { ok: true, cope: { tube, seat, fitMm: knifeMm, knifeMm, layerMm } };
  const fitMm = remembered((roundDeg) => found(wallCutBack(bodies, tube, roundDeg), bodies));
  const square = (_: number, roundDeg: number): number => fitMm(roundDeg);
  return { ok: true, cope: { tube, seat, fitMm, knifeMm, layerMm: square } };
}

/** Drawing, table and check ask for the same places of one curve. */
const remembered = (alongMm: (roundDeg: number) => number): ((roundDeg: number) => number) => {
  const known = new Map<number, number>();
  return (roundDeg) => {
    const deg = ((roundDeg % 360) + 360) % 360;
    const mm = known.get(deg) ?? alongMm(deg);
    known.set(deg, mm);
    return mm;
  };
};

/** A tube that meets its seat at every degree of its outside meets it between them. */
const found = (mm: number | undefined, bodies: readonly Body[]): number => {
  if (mm === undefined) throw new Error(`no contact with ${bodies.length} bodies`);
  return mm;
};

/** Places round a tube, evenly from 0 and up to one before 360. */
export const placesRound = (count: number): number[] =>
  Array.from({ length: count }, (_, i) => (i * 360) / count);

/** The curve as pairs of degrees and mm, from 0 to 360, every so many degrees. */
export const curveOf = (
  alongMm: (roundDeg: number) => number,
  stepDeg: number,
): (readonly [roundDeg: number, alongMm: number])[] =>
  Array.from({ length: Math.round(360 / stepDeg) + 1 }, (_, i) => {
    const deg = i * stepDeg;
    return [deg, alongMm(deg % 360)] as const;
  });

/** How closely a curve is looked at for its ends. */
const LOOKS = 720;

export interface Span {
  readonly leastMm: number;
  readonly mostMm: number;
}

/** The least and the greatest of a curve round a tube, to a ten-thousandth of its rise. */
export const spanOf = (alongMm: (roundDeg: number) => number): Span => {
  const all = placesRound(LOOKS).map(alongMm);
  return { leastMm: Math.min(...all), mostMm: Math.max(...all) };
};

/** The mean of a curve round a tube. */
export const meanOf = (alongMm: (roundDeg: number) => number): number =>
  placesRound(LOOKS).reduce((total, deg) => total + alongMm(deg), 0) / LOOKS;

/** A place at which a cope is marked by hand. */
export interface CopeDepth {
  readonly roundDeg: number;
  /** From the node, along the tube. */
  readonly alongMm: number;
  /** From a ring round the tube at its longest point, down to the cut. */
  readonly depthMm: number;
}

/** Lines round a tube for whoever marks by hand: every 30 degrees. */
const MARKED = 12;

export const depthsOf = ({ fitMm }: Pick<Cope, 'fitMm'>): CopeDepth[] => {
  const { leastMm } = spanOf(fitMm);
  return placesRound(MARKED).map((roundDeg) => {
    const alongMm = fitMm(roundDeg);
    return { roundDeg, alongMm, depthMm: alongMm - leastMm };
  });
};

/** How far a square cut along the outside curve alone would hold the tube off, mm. */
export const biteOfKnife = ({ fitMm, knifeMm }: Cope): number =>
  spanOf((deg) => fitMm(deg) - knifeMm(deg)).mostMm;
