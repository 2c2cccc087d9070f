import { figure } from '../../text/figures.ts';
import type { Loop } from '../../geometry/loop.ts';
import { piecesOf } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { blankLabels } from './blank-labels.ts';
import { blankObstacles } from './blank-obstacles.ts';
import { blankTicks } from './blank-ticks.ts';
import { type FindingMark, markItems, ringObstacles, ringsOf } from './finding-marks.ts';
import type { KeyedHole } from './hole-keys.ts';
import { textGround } from './ground.ts';
import { type NamePlace, namePlace, rimObstacles } from './name-places.ts';
import { type OverallSize, overallSize } from './overall-sizes.ts';
import { type LineCosts, Placer } from './placer.ts';
import { rowDepthMm, sizeRow, type Side } from './running-sizes.ts';
import { line } from './strokes.ts';

export interface DimensionedBlank {
  readonly picture: Picture;
  /** Of the blank on paper, to one. */
  readonly scale: number;
  /** How many sizes and names found no room and stand in the tables alone. */
  readonly leftOut: number;
}

/** Takes a point of the blank to the paper. */
export interface Fitting {
  readonly scale: number;
  readonly at: (p: Vec2) => Vec2;
}

/** Outlines heavy, all else thin: two widths of line, 2 to 1, as ISO 128 has them (from memory). */
const EDGE: Stroke = { widthMm: 0.5 };
const HOLE: Stroke = { widthMm: 0.35 };
const CENTRE: Stroke = { widthMm: 0.18, dashMm: [4, 1, 0.6, 1] };
const FOLDS: Readonly<Record<FlatBend['direction'], Stroke>> = {
  up: { widthMm: 0.3, dashMm: [5, 1.8] },
  down: { widthMm: 0.3, dashMm: [6.5, 1.4, 0.7, 1.4] },
};

/** Room for an overall size, mm, and round the picture. */
const OVERALL_MM = 7;
const RIM_MM = 1.5;
const OVERALL_TEXT_MM = 5;

/**
 * The developed blank with its sizes, fitted into a box, not to scale: overall width and height
 * with arrows; fold lines and edges as running sizes from its left and its lower edge, holes above
 * and to the right from the same two edges; names of folds and holes beside them. Habits of ISO 128
 * and ISO 129 (from memory): figures read from below or from the right, extension lines start a
 * little off the outline. Where something was found there is a ring with a number.
 */
export function dimensionedBlank(
  flat: FlatPattern,
  holes: readonly KeyedHole[],
  box: { readonly widthMm: number; readonly heightMm: number },
  marks: readonly FindingMark[] = [],
): DimensionedBlank {
  const ticks = blankTicks(flat, holes);
  const laid = laidOn(flat, ticks, box);
  const { fitting, heightMm } = laid;
  const rows = sizeRows(ticks, laid);
  const rings = ringsOf(marks, flat.cutouts, fitting);
  const placer = new Placer({ minX: 0, minY: 0, maxX: box.widthMm, maxY: heightMm }, LEADER_COSTS);
  placer.avoid(
    ...blankObstacles(flat, fitting),
    ...rows.flatMap((r) => r.extensions.map((l) => ({ line: l, cost: EXTENSION_COST }))),
    ...rimObstacles(laid.corner, ZERO_MM, ZERO_COST),
    ...ringObstacles(rings),
  );
  const figures = rows.flatMap((r) => r.labels.map((label) => textGround(label)));
  placer.take(...figures);
  const overall = overallSizes(flat, laid).flatMap((size) => overallSize(size, placer, figures));
  const zero = zeroMark(laid, placer);
  const names = blankLabels(flat, holes, fitting, placer);
  const marked = markItems(rings, placer);
  return {
    picture: {
      widthMm: box.widthMm,
      heightMm,
      items: [
        ...shapeItems(flat, fitting),
        ...rows.flatMap((r) => [...r.lines, ...r.labels]),
        ...overall,
        ...names.items,
        ...marked.items,
        ...zero,
      ],
    },
    scale: fitting.scale,
    leftOut: names.leftOut + marked.leftOut + rows.reduce((sum, r) => sum + r.leftOut, 0),
  };
}

const LEADER_COSTS: LineCosts = { across: 200, crossing: 60 };
/** What it costs a name to lie across the line of a running size. */
const EXTENSION_COST = 20;

/** Where the blank lies in its picture, on paper, with room for its sizes round it. */
interface Laid {
  readonly fitting: Fitting;
  readonly margin: Readonly<Record<Side, number>>;
  /** Lower left corner of the blank, and its size. */
  readonly corner: Vec2;
  readonly size: Vec2;
  readonly widthMm: number;
  readonly heightMm: number;
}

const laidOn = (
  flat: FlatPattern,
  ticks: ReturnType<typeof blankTicks>,
  box: { readonly widthMm: number; readonly heightMm: number },
): Laid => {
  const margin: Record<Side, number> = {
    below: rowDepthMm(ticks.below) + OVERALL_MM + RIM_MM,
    left: rowDepthMm(ticks.left) + OVERALL_MM + RIM_MM,
    above: rowDepthMm(ticks.above) + RIM_MM,
    right: rowDepthMm(ticks.right) + RIM_MM,
  };
  const room = {
    widthMm: box.widthMm - margin.left - margin.right,
    heightMm: box.heightMm - margin.below - margin.above,
  };
  const scale = Math.min(room.widthMm / flat.widthMm, room.heightMm / flat.heightMm);
  const [w, h] = [flat.widthMm * scale, flat.heightMm * scale];
  // A low blank needs no high picture.
  const heightMm = Math.min(
    box.heightMm,
    Math.max(h, LEAST_HEIGHT_MM) + margin.below + margin.above,
  );
  const [x0, y0] = [
    margin.left + (room.widthMm - w) / 2,
    margin.below + (heightMm - margin.below - margin.above - h) / 2,
  ];
  const fitting: Fitting = { scale, at: ([x, y]) => [x0 + x * scale, y0 + y * scale] };
  return { fitting, margin, corner: [x0, y0], size: [w, h], widthMm: box.widthMm, heightMm };
};

/** Running sizes on all four sides. */
const sizeRows = (
  ticks: ReturnType<typeof blankTicks>,
  { fitting: { scale }, corner: [x0, y0], size: [w, h], widthMm, heightMm }: Laid,
) => {
  const across: readonly [number, number] = [RIM_MM, widthMm - RIM_MM];
  const up: readonly [number, number] = [RIM_MM, heightMm - RIM_MM];
  const onX = (mm: number): number => x0 + mm * scale;
  const onY = (mm: number): number => y0 + mm * scale;
  const placed = (side: Side) =>
    ticks[side].map((t) => ({
      ...t,
      from: side === 'below' || side === 'above' ? onY(t.from) : onX(t.from),
    }));
  return [
    sizeRow({ side: 'below', ticks: placed('below'), onPaper: onX, span: across, edge: y0 }),
    sizeRow({ side: 'above', ticks: placed('above'), onPaper: onX, span: across, edge: y0 + h }),
    sizeRow({ side: 'left', ticks: placed('left'), onPaper: onY, span: up, edge: x0 }),
    sizeRow({ side: 'right', ticks: placed('right'), onPaper: onY, span: up, edge: x0 + w }),
  ];
};

/** Width and height, on lines beyond the running sizes. */
const overallSizes = (
  flat: FlatPattern,
  { margin, corner: [x0, y0], size: [w, h] }: Laid,
): OverallSize[] => {
  const [x1, y1] = [x0 + w, y0 + h];
  const below = y0 - margin.below + RIM_MM + 1;
  const left = x0 - margin.left + RIM_MM + 1 + OVERALL_TEXT_MM;
  return [
    {
      feet: [
        [x0, y0],
        [x1, y0],
      ],
      ends: [
        [x0, below],
        [x1, below],
      ],
      text: figure(flat.widthMm, 1),
    },
    {
      feet: [
        [x0, y0],
        [x0, y1],
      ],
      ends: [
        [left, y0],
        [left, y1],
      ],
      text: figure(flat.heightMm, 1),
    },
  ];
};

const ZERO_MM = 1.1;
const ZERO_COST = 300;
/** How far its figure may be moved from the ring, to the left and down, mm. */
const ZERO_STEPS_MM = [0, 1.5, 3, 4.5];

/** Where the running sizes count from: a ring, and a figure below it on the left. */
const zeroMark = ({ corner: [x, y] }: Laid, placer: Placer): PictureItem[] => {
  const places = ZERO_STEPS_MM.flatMap((left) =>
    ZERO_STEPS_MM.map((down) =>
      namePlace(
        {
          kind: 'label',
          at: [x - 1.4 - left, y - 3.9 - down],
          sizeMm: 3.6,
          text: '0',
          isBold: true,
          align: 'right',
        },
        left + down,
      ),
    ),
  );
  const { label } = placer.place(places) ?? (places[0] as NamePlace);
  return [{ kind: 'round', centre: [x, y], radiusMm: ZERO_MM, stroke: HOLE }, label];
};

const LEAST_HEIGHT_MM = 25;

const fittedPieces = (loop: Loop, { at }: Fitting) =>
  piecesOf(loop).map(({ from, to, bulge }) => ({ from: at(from), to: at(to), bulge }));

const shapeItems = (flat: FlatPattern, fitting: Fitting): PictureItem[] => [
  { kind: 'area', rims: [fittedPieces(flat.outline, fitting)], stroke: EDGE },
  ...flat.cutouts.flatMap((hole): PictureItem[] => {
    if (hole.kind === 'loop')
      return [{ kind: 'area', rims: [fittedPieces(hole.loop, fitting)], stroke: HOLE }];
    const [[x, y], radiusMm] = [fitting.at(hole.centre), (hole.diameterMm / 2) * fitting.scale];
    const reach = radiusMm + 1.2;
    return [
      { kind: 'round', centre: [x, y], radiusMm, stroke: HOLE },
      line([x - reach, y], [x + reach, y], CENTRE),
      line([x, y - reach], [x, y + reach], CENTRE),
    ];
  }),
  ...flat.bends.map(({ centreLine: [from, to], direction }) =>
    line(fitting.at(from), fitting.at(to), FOLDS[direction]),
  ),
];
