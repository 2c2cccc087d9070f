import { loopExtents } from '../../geometry/extents.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import type { StockPiece } from '../../model/stock.ts';
import type { Look } from './part-shapes.ts';
import type { LayRequest, PartToLay } from './request.ts';

/** Why a part lies on no piece of stock, though that were empty. */
export const whyNowhere = (
  part: PartToLay,
  { pieces, edgeMm }: LayRequest,
  looks: readonly Look[],
): string => {
  if (pieces.length === 0) return 'there is no sheet of this material and thickness in stock';
  const fits = (edge: number): boolean =>
    pieces.some((piece) => looks.some((look) => goesOn(look, piece, edge)));
  const [length, width] = sizeOf(looks);
  if (!fits(0)) return `${length} x ${width} mm is larger than every sheet that there is`;
  if (!fits(edgeMm))
    return `${length} x ${width} mm leaves no edge of ${rounded(edgeMm)} mm, or no room for the clamps, on any sheet`;
  return part.grain === 'free'
    ? `${length} x ${width} mm leaves no room for the clamps on any sheet`
    : `with the grain as its bend wants it, ${length} x ${width} mm lies on no sheet in the turns that are allowed: let it be turned by quarters, or tell the grain of the remnants in the shop file`;
};

const goesOn = ({ shape }: Look, { outline }: StockPiece, edge: number): boolean => {
  const box = loopExtents(outline);
  return (
    box !== undefined &&
    shape.maxX - shape.minX + 2 * edge <= box.maxX - box.minX + NOISE_MM &&
    shape.maxY - shape.minY + 2 * edge <= box.maxY - box.minY + NOISE_MM
  );
};

const sizeOf = (looks: readonly Look[]): readonly [number, number] => {
  const { minX, minY, maxX, maxY } = (looks[0] as Look).shape;
  return [rounded(maxX - minX), rounded(maxY - minY)];
};

const rounded = (mm: number): number => Math.round(mm * 10) / 10;

/** Why a part is left that would go on an empty sheet. */
export const NO_ROOM = 'there is no room left on the sheets and remnants in stock';
