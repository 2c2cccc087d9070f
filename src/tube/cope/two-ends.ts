import { type Cope, type CopeMade, copeOn, spanOf, type Span } from './cope.ts';
import type { Tube } from './cut-back.ts';
import type { CopeFlaw } from './flaw.ts';
import type { Seat } from './seat.ts';

/** A tube between two nodes. */
export interface Strut {
  readonly tube: Tube;
  /** From node to node, along the axis, mm. */
  readonly nodesMm: number;
  readonly seats: readonly [Seat, Seat];
  /**
   * Where the second end has its acute side: degrees round the tube from that of the first end,
   * right-handed about the direction from the first node to the second.
   */
  readonly clockDeg: number;
}

/** A tube cut at both ends. Degrees are those of the first end, mm run from the first node. */
export interface CutStrut {
  readonly copes: readonly [Cope, Cope];
  readonly startMm: (roundDeg: number) => number;
  readonly endMm: (roundDeg: number) => number;
  /** What is left of the tube, along its generators: the shortest and the longest. */
  readonly left: Span;
  /** Length of tube to begin with: from its foremost to its hindmost point, mm. */
  readonly stockMm: number;
}

/** Somewhere round the tube nothing is left between its two ends: `given` mm of it. */
export interface EndsMeet {
  readonly kind: 'ends-meet';
  readonly given: number;
  readonly limit: number;
}

export type StrutMade =
  | { readonly ok: true; readonly strut: CutStrut }
  | {
      readonly ok: false;
      readonly end: 0 | 1;
      readonly flaw: CopeFlaw | EndsMeet;
    };

/** Seen from the second node, degrees run the other way round the same tube. */
export function cutStrut({ tube, nodesMm, seats, clockDeg }: Strut): StrutMade {
  const [first, second] = seats.map((seat) => copeOn(tube, seat)) as [CopeMade, CopeMade];
  if (!first.ok) return { ok: false, end: 0, flaw: first.flaw };
  if (!second.ok) return { ok: false, end: 1, flaw: second.flaw };
  const startMm = first.cope.fitMm;
  const endMm = (deg: number): number => nodesMm - second.cope.fitMm(clockDeg - deg);
  const left = spanOf((deg) => endMm(deg) - startMm(deg));
  if (!(left.leastMm > 0))
    return { ok: false, end: 1, flaw: { kind: 'ends-meet', given: left.leastMm, limit: 0 } };
  return {
    ok: true,
    strut: {
      copes: [first.cope, second.cope],
      startMm,
      endMm,
      left,
      stockMm: spanOf(endMm).mostMm - spanOf(startMm).leastMm,
    },
  };
}
