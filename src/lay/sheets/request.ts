import type { Loop } from '../../geometry/loop.ts';
import type { LaidPart } from '../../model/laid.ts';
import type { StockPiece } from '../../model/stock.ts';

/** How the rolling direction is wished to run in a part, seen along its own x axis. */
export type GrainWish = 'along' | 'across' | 'free';

/** A part that is to be cut, any number of times. */
export interface PartToLay {
  readonly name: string;
  /** Its true outline, counter-clockwise, lines and arcs, in its own coordinates, mm. */
  readonly outline: Loop;
  readonly holes: readonly Loop[];
  readonly quantity: number;
  /** Turns that it may be laid in, degrees; `any` stands for all there are. */
  readonly turnsDeg: readonly number[] | 'any';
  /** Whether its other face may lie up. */
  readonly mayTurnOver: boolean;
  readonly grain: GrainWish;
  /** Parts of the same word here come onto one sheet. */
  readonly together?: string | undefined;
  /** It is laid before others; where stock does not do for all, others are left. */
  readonly isFirst?: boolean | undefined;
}

export interface LayRequest {
  readonly parts: readonly PartToLay[];
  readonly pieces: readonly StockPiece[];
  /** Least distance between the outlines of parts, mm. */
  readonly gapMm: number;
  /** Least distance from the edge of stock and from holes in it, mm. */
  readonly edgeMm: number;
  /**
   * Height of the strip along the lower edge of each piece that clamps hold, mm; of each part of it,
   * where it is sheared. It counts where it is more than the edge.
   */
  readonly clampsMm?: number | undefined;
}

/** A piece of stock that is cut from, the number of it in the request, and what lies on it. */
export interface Filled {
  readonly piece: number;
  readonly parts: readonly LaidPart[];
}

export interface LeftOut {
  readonly name: string;
  readonly count: number;
  readonly reason: string;
}

/** What a layout is judged by, in this order: of two the one with the first lower figure. */
export interface Aim {
  /** How many parts are left that should be first, and how many in all. */
  readonly firstLeft: number;
  readonly left: number;
  /** Price of the whole sheets, where every one has a price; else their number. */
  readonly cost: number;
  /** Whole sheets that are not in stock. */
  readonly bought: number;
  /** Metal of parts that lie on whole sheets and not on remnants, mm2. */
  readonly onWholeMm2: number;
  /** The largest clean rectangle that is left on one piece, mm2: the more the better. */
  readonly cleanMm2: number;
  /** Way of the torch between parts, mm. */
  readonly travelMm: number;
}

export interface LaidOnStock {
  readonly filled: readonly Filled[];
  readonly left: readonly LeftOut[];
  readonly aim: Aim;
  /** No cheaper choice of sheets holds all parts: every one was gone through. */
  readonly isProved: boolean;
  readonly steps: number;
}
