import { figure } from '../../text/figures.ts';
import { withChords } from '../../geometry/chords.ts';
import type { Loop } from '../../geometry/loop.ts';
import { piecesOf } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Label, Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { blankLabels } from './blank-labels.ts';
import { blankTicks } from './blank-ticks.ts';
import { type FindingMark, markItems, ringObstacles, ringsOf } from './finding-marks.ts';
import type { KeyedHole } from './hole-keys.ts';
import { LabelRoom, type Obstacle, runsThroughLabel } from './label-room.ts';
import { ARROW_MM, arrow } from './dimension-line.ts';
import { EXTENSION, rowDepthMm, sizeRow, type Side } from './running-sizes.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

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
  const figures = rows.flatMap((r) => r.labels);
  const overall = overallSizes(flat, laid, figures);
  const zero = zeroMark(laid);
  const rings = ringsOf(marks, flat.cutouts, fitting);
  const names = new LabelRoom({ minX: 0, minY: 0, maxX: box.widthMm, maxY: heightMm }, [
    ...obstaclesOf(flat, fitting),
    ...rows.flatMap((r) => r.extensions.map((l): Obstacle => ({ line: l, cost: 20 }))),
    ...ringObstacles(rings),
  ]);
  const isLabel = (item: PictureItem): item is Label => item.kind === 'label';
  for (const label of [zero.label, ...figures, ...overall.filter(isLabel)]) names.take(label);
  const labels = blankLabels(flat, holes, fitting, names);
  const marked = markItems(rings, names);
  return {
    picture: {
      widthMm: box.widthMm,
      heightMm,
      items: [
        ...shapeItems(flat, fitting),
        ...rows.flatMap((r) => [...r.lines, ...r.labels]),
        ...overall,
        ...labels.items,
        ...marked.items,
        zero.ring,
        zero.label,
      ],
    },
    scale: fitting.scale,
    leftOut: labels.leftOut + marked.leftOut + rows.reduce((sum, r) => sum + r.leftOut, 0),
  };
}

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

const overallSizes = (
  flat: FlatPattern,
  { margin, corner: [x0, y0], size: [w, h] }: Laid,
  figures: readonly Label[],
): PictureItem[] => [
  ...overallSize(
    [x0, y0],
    [x0 + w, y0],
    y0 - margin.below + RIM_MM + 1,
    figure(flat.widthMm, 1),
    false,
    figures,
  ),
  ...overallSize(
    [x0, y0],
    [x0, y0 + h],
    x0 - margin.left + RIM_MM + 1 + OVERALL_TEXT_MM,
    figure(flat.heightMm, 1),
    true,
    figures,
  ),
];

/** Where the running sizes count from. */
const zeroMark = ({
  corner: [x0, y0],
}: Laid): { readonly ring: PictureItem; readonly label: Label } => ({
  ring: { kind: 'round', centre: [x0, y0], radiusMm: 1.1, stroke: HOLE },
  label: {
    kind: 'label',
    at: [x0 - 1.4, y0 - 3.9],
    sizeMm: 3.6,
    text: '0',
    isBold: true,
    align: 'right',
  },
});

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

/** Chords of half a millimetre's sag on paper are good enough to keep texts clear of. */
const obstaclesOf = (flat: FlatPattern, { at, scale }: Fitting): Obstacle[] => {
  const rim = (loop: Loop, cost: number): Obstacle[] => {
    const points = withChords(loop, 0.3 / scale).map(({ x, y }) => at([x, y]));
    return points.map((p, i): Obstacle => ({
      line: [p, points[(i + 1) % points.length] as Vec2],
      cost,
    }));
  };
  const holes = flat.cutouts.flatMap((hole) => {
    if (hole.kind === 'loop') return rim(hole.loop, 100);
    const [[x, y], r] = [at(hole.centre), (hole.diameterMm / 2) * scale];
    return (
      [
        [-r, -r, r, r],
        [-r, r, r, -r],
        [-r, 0, r, 0],
        [0, -r, 0, r],
      ] as const
    ).map(([a, b, c, d]): Obstacle => ({
      line: [
        [x + a, y + b],
        [x + c, y + d],
      ],
      cost: 100,
    }));
  });
  return [
    ...rim(flat.outline, 150),
    ...holes,
    ...flat.bends.map(({ centreLine: [p, q] }): Obstacle => ({ line: [at(p), at(q)], cost: 130 })),
  ];
};

/**
 * A size with arrows at both ends, its figure above the line, or left of it and read from the
 * right.
 */
const overallSize = (
  from: Vec2,
  to: Vec2,
  level: number,
  text: string,
  isUpright: boolean,
  figures: readonly Label[],
): PictureItem[] => {
  const put = ([x, y]: Vec2): Vec2 => (isUpright ? [level, y] : [x, level]);
  const [a, b] = [put(from), put(to)];
  const dir: Vec2 = isUpright ? [0, 1] : [1, 0];
  const off = (p: Vec2, gap: number): Vec2 => (isUpright ? [p[0] - gap, p[1]] : [p[0], p[1] - gap]);
  const long = isUpright ? b[1] - a[1] : b[0] - a[0];
  const isTight = long < 2 * ARROW_MM + 1;
  const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const wide = textWidthMm(text, OVERALL_TEXT_MM, true);
  const at: Vec2 = isUpright
    ? [middle[0] - 1, Math.max(middle[1], wide / 2 + 1)]
    : [middle[0], middle[1] + 1];
  // An extension line is broken where a figure stands in its way.
  const extension = (start: Vec2, end: Vec2): PictureItem => {
    const [near, far] = [off(start, 0.7), off(end, 1.2)];
    return line(
      figures.some((f) => runsThroughLabel(f, [near, far])) ? off(end, -2) : near,
      far,
      EXTENSION,
    );
  };
  return [
    extension(from, a),
    extension(to, b),
    line(a, b, EXTENSION),
    ...(isTight ? [] : [arrow(a, dir, 1), arrow(b, dir, -1)]),
    {
      kind: 'label',
      at,
      sizeMm: OVERALL_TEXT_MM,
      text,
      isBold: true,
      align: 'middle',
      ...(isUpright && { angleDeg: 90 }),
    },
  ];
};
