import type { FindingResult } from '../../contract/part.ts';
import { loopExtents } from '../../geometry/extents.ts';
import type { Cutter } from '../../model/shop.ts';
import type { StockPiece } from '../../model/stock.ts';
import type { RuleName } from '../../rules/index.ts';
import { shearsFor } from '../../stock/sheared.ts';
import { figure } from '../../text/figures.ts';

/** Stock as it comes onto the bed of a cutter, and what was found of it. */
export interface OnBed {
  readonly pieces: readonly StockPiece[];
  readonly findings: readonly FindingResult[];
}

/**
 * Stock that is larger than the bed of its cutter: a whole sheet is sheared first, with lines that no
 * part lies over. A remnant is left where it is: how an odd piece is best cut down is for the shop to
 * say.
 */
export const ontoBed = (stock: readonly StockPiece[], cutter: Cutter | undefined): OnBed => {
  if (cutter === undefined) return { pieces: stock, findings: [] };
  const findings: FindingResult[] = [];
  const pieces = stock.flatMap((piece): StockPiece[] => {
    const shears = shearsFor(piece.outline, cutter.bed);
    if (shears === undefined) return [piece];
    if (!piece.isRemnant) return [{ ...piece, shears }];
    findings.push(remnantOver(piece, cutter));
    return [];
  });
  return { pieces, findings };
};

const remnantOver = (
  { name, outline }: StockPiece,
  { name: called, bed }: Cutter,
): FindingResult => {
  const { maxX = 0, maxY = 0 } = loopExtents(outline) ?? {};
  const size = [bed.length, bed.width].map((mm) => figure(mm)).join(' x ');
  return {
    rule: 'stock-over-bed' satisfies RuleName,
    severity: 'warn',
    message: `Remnant ${name}, ${figure(maxX, 1)} x ${figure(maxY, 1)} mm, is larger than the bed of ${called}, ${size} mm, and nothing is laid on it. Cut it down to pieces of at most ${size} mm, and put them into the shop file in its place.`,
  };
};
