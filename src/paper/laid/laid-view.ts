import type { Extents } from '../../geometry/extents.ts';
import type { PictureItem } from '../../model/picture.ts';
import { boxRing } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';
import { depthOf, edgeRow, type EdgeTick, edgeTicks, haveRoom } from './edge-sizes.ts';
import type { LaidPicture } from './laid-picture.ts';
import { partLabels } from './part-labels.ts';
import { boxOnPaper, loopBox, type OnPaper, scaleIn } from './scaled.ts';
import { clampItems, cleanItems, grainItems, partItems, stockItems } from './stock-view.ts';

/** The sheet with its parts and sizes in a field of the paper. */
export interface LaidView {
  readonly items: readonly PictureItem[];
  readonly scale: string;
  readonly onPaper: number;
  /** Whether the figures along its edges found room. */
  readonly hasSizes: boolean;
}

/** Room on the right of the sheet for the arrow of its grain, mm. */
const GRAIN_ROOM_MM = 20;
const RIM_MM = 2;

export const laidView = (picture: LaidPicture, field: Extents): LaidView => {
  const { cuts, clean } = picture;
  const { stock } = cuts.sheet;
  const box = loopBox(stock.outline);
  const ticks = ticksOf(picture, box);
  const withSizes = placed(box, field, ticks, stock.grain !== undefined);
  const hasSizes =
    haveRoom(ticks[0], box.maxX * withSizes.scale, withSizes.scale) &&
    haveRoom(ticks[1], box.maxY * withSizes.scale, withSizes.scale);
  const { text, ...on } = hasSizes
    ? withSizes
    : placed(box, field, [[], []], stock.grain !== undefined);
  const edges = boxOnPaper(box, on);
  return {
    scale: text,
    onPaper: on.scale,
    hasSizes,
    items: [
      ...stockItems(stock, on),
      ...clampItems(cuts.sheet, on),
      ...(clean === undefined ? [] : cleanItems(clean, on)),
      ...partItems(cuts.blanks, on),
      ...partLabels(cuts.blanks, on, edges),
      ...(clean === undefined ? [] : cleanLabel(picture, clean, on)),
      ...(hasSizes
        ? [
            ...edgeRow(ticks[0], edges, on.scale, 'bottom'),
            ...edgeRow(ticks[1], edges, on.scale, 'left'),
          ]
        : []),
      ...(stock.grain === undefined
        ? []
        : grainItems(stock.grain, [edges.maxX + GRAIN_ROOM_MM / 2 + 1, edges.maxY - 8])),
    ],
  };
};

/** Where parts begin along the lower edge of the sheet, and along its left one. */
const ticksOf = (
  { cuts, print }: LaidPicture,
  { maxX, maxY }: Extents,
): readonly [readonly EdgeTick[], readonly EdgeTick[]] => {
  const places = cuts.blanks.map(({ number, piece }) => ({
    number,
    box: loopBox(piece.outline.loop),
  }));
  const [xs, ys] = [
    places.map(({ number, box: { minX } }) => ({ mm: minX, number })),
    places.map(({ number, box: { minY } }) => ({ mm: minY, number })),
  ];
  return [edgeTicks(xs, maxX, print), edgeTicks(ys, maxY, print)];
};

/** Where the sheet lies in its field, with room for the figures along two of its edges. */
const placed = (
  { maxX, maxY }: Extents,
  field: Extents,
  [below, left]: readonly [readonly EdgeTick[], readonly EdgeTick[]],
  hasGrain: boolean,
): OnPaper & { readonly text: string } => {
  const [down, aside] = [below, left].map((row) => (row.length === 0 ? RIM_MM : depthOf(row))) as [
    number,
    number,
  ];
  const wide = field.maxX - field.minX - aside - RIM_MM - (hasGrain ? GRAIN_ROOM_MM : 0);
  const high = field.maxY - field.minY - down - RIM_MM;
  const { scale, text } = scaleIn([maxX, maxY], [wide, high]);
  const spare = Math.max(0, high - maxY * scale);
  return { scale, text, origin: [field.minX + aside, field.minY + down + spare / 2] };
};

const LABEL_MM = 3.4;

/** The size of the clean rectangle on a white patch in it, where there is room. */
const cleanLabel = (
  { print: { tape, word } }: LaidPicture,
  clean: Extents,
  on: OnPaper,
): PictureItem[] => {
  const { minX, minY, maxX, maxY } = boxOnPaper(clean, on);
  const text = `left ${tape(clean.maxX - clean.minX, 1)} x ${tape(clean.maxY - clean.minY, 1)} ${word}`;
  const half = textWidthMm(text, LABEL_MM) / 2 + 1;
  const [x, y] = [(minX + maxX) / 2, (minY + maxY) / 2];
  const patch = { minX: x - half, maxX: x + half, minY: y - LABEL_MM, maxY: y + LABEL_MM };
  if (patch.minX < minX || patch.maxX > maxX || patch.minY < minY || patch.maxY > maxY) return [];
  return [
    { kind: 'area', rims: [boxRing(patch)], fill: 1 },
    { kind: 'label', at: [x, y - 0.36 * LABEL_MM], sizeMm: LABEL_MM, text, align: 'middle' },
  ];
};
