import type { StockPiece } from './stock.ts';

/** One part as it lies on a piece of stock. */
export interface LaidPart {
  /** Name of the part, by which its drawing is found; that of its copy is `copy`. */
  readonly name: string;
  /** Which of the parts of this name it is, from 1. */
  readonly copy: number;
  /**
   * The part's drawing is turned over first where `turnedOver` says so (x becomes -x), then turned
   * counter-clockwise about its own 0,0, then moved by x, y.
   */
  readonly turnedOver: boolean;
  readonly turnDeg: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** One piece of stock with what is cut from it. */
export interface LaidSheet {
  /** Name of this sheet among all that are laid, such as `s275-3-1`; files are called by it. */
  readonly name: string;
  readonly stock: StockPiece;
  /** Id of the material, and its thickness: those of the parts. */
  readonly material: string;
  readonly thicknessMm: number;
  /** Least distance between parts and from the edge of the stock that was kept. */
  readonly gapMm: number;
  readonly edgeMm: number;
  /**
   * Height of the strip along the lower edge that clamps hold, mm: of each piece, where the stock is
   * sheared first. Nothing is held when left out.
   */
  readonly clampsMm?: number | undefined;
  /** Of a piece of sheared stock: all of the stock, and where the piece has its lower left corner. */
  readonly shearedFrom?: ShearedFrom | undefined;
  readonly parts: readonly LaidPart[];
}

/** What a piece was sheared from, mm. */
export interface ShearedFrom {
  readonly stock: StockPiece;
  readonly xMm: number;
  readonly yMm: number;
}
