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
  const fits = (edge: number, on = roomsOf): boolean =>
    pieces.some((piece) =>
      on(piece).some((room) => looks.some((look) => goesOn(look, room, edge))),
    );
  const [length, width] = sizeOf(looks);
  const size = `${length} x ${width} mm`;
  if (!fits(0, asItIs)) return `${size} is larger than every sheet that there is`;
  if (!fits(edgeMm))
    return fits(edgeMm, asItIs)
      ? `${size} lies on no piece of the sheets, which are sheared to lie on the bed of the cutter`
      : `${size} leaves no edge of ${rounded(edgeMm)} mm, or no room for the clamps, on any sheet`;
  return part.grain === 'free'
    ? `${size} leaves no room for the clamps on any sheet`
    : `with the grain as its bend wants it, ${size} lies on no sheet in the turns that are allowed: let it be turned by quarters, or tell the grain of the remnants in the shop file`;
};

type Size = readonly [length: number, width: number];

const asItIs = ({ outline }: StockPiece): readonly Size[] => {
  const box = loopExtents(outline);
  return box === undefined ? [] : [[box.maxX - box.minX, box.maxY - box.minY]];
};

/** The pieces that it is sheared to, or all of it. */
const roomsOf = (piece: StockPiece): readonly Size[] => {
  const { x = [], y = [] } = piece.shears ?? {};
  const steps = (levels: readonly number[], to: number): number[] =>
    [...levels, to].map((level, k) => level - (levels[k - 1] ?? 0));
  return asItIs(piece).flatMap(([length, width]) =>
    steps(x, length).flatMap((long) => steps(y, width).map((wide): Size => [long, wide])),
  );
};

const goesOn = ({ shape }: Look, [length, width]: Size, edge: number): boolean =>
  shape.maxX - shape.minX + 2 * edge <= length + NOISE_MM &&
  shape.maxY - shape.minY + 2 * edge <= width + NOISE_MM;

const sizeOf = (looks: readonly Look[]): readonly [number, number] => {
  const { minX, minY, maxX, maxY } = (looks[0] as Look).shape;
  return [rounded(maxX - minX), rounded(maxY - minY)];
};

const rounded = (mm: number): number => Math.round(mm * 10) / 10;

/** Why a part is left that would go on an empty sheet. */
export const NO_ROOM = 'there is no room left on the sheets and remnants in stock';
