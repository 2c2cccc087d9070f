import { movePoint } from '../../geometry/motion2.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import { SAME_TICK_MM } from '../sizes/told-corners.ts';
import type { Side } from '../sizes/ticks.ts';
import type { BlankSizes } from '../sizes/blank-sizes.ts';
import type { Datum } from '../sizes/datum.ts';
import { blankLabels } from './blank-labels.ts';
import { blankObstacles } from './blank-obstacles.ts';
import { pitchCircleItems, shapeItems } from './blank-shape.ts';
import { blankRows, type LaidBlank, ROW_SIDES, type RowOptions, sizedBlank } from './blank-rows.ts';
import { datumMarks } from './datum-marks.ts';
import { type FindingMark, markItems, ringObstacles, ringsOf } from './finding-marks.ts';
import { textGround } from './ground.ts';
import { type OverallSize, overallSize } from './overall-sizes.ts';
import { type LineCosts, Placer } from './placer.ts';

export interface DimensionedBlank {
  readonly picture: Picture;
  /** Of the blank on paper, to one. */
  readonly scale: number;
  /** What is told, and which of it in tables: the picture is not enough without them. */
  readonly sizes: BlankSizes;
  /** How many names found no room and stand in the tables alone. */
  readonly leftOut: number;
  /** Where each size is written. */
  readonly spots: readonly SizeSpot[];
  /** Takes a point of the cut file to the picture. */
  readonly at: (p: Vec2) => Vec2;
}

/** A size of a drawn blank: `below 0` for the first of a row, `across` and `up` for the overall ones. */
export interface SizeSpot {
  readonly of: string;
  /** What is measured, mm along its row on the drawn blank. */
  readonly mm: number;
  /** The figure on the paper, y up. */
  readonly box: Extents;
  /** The hole that it places, by the name of what it came from: `holesA 2`. */
  readonly hole?: string;
}

/** Takes a point of the drawn blank to the paper. */
export interface Fitting {
  readonly scale: number;
  readonly at: (p: Vec2) => Vec2;
}

/** The field that a picture fills, mm. */
export interface Field {
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * The developed blank with its sizes, fitted into a field: overall width and height with arrows; fold
 * lines, corners and few holes as running sizes from the datum, each on the side that its line reaches
 * over the least metal; names of folds, holes and of the corners that a table tells beside them.
 * Habits of ISO 128 and ISO 129 (from memory): figures read from below or from the right, extension
 * lines start a little off the outline. Where something was found there is a ring with a number.
 */
export function dimensionedBlank(
  flat: FlatPattern,
  datum: Datum,
  field: Field,
  marks: readonly FindingMark[] = [],
  options: RowOptions = {},
): DimensionedBlank {
  const { sizes, laid } = sizedBlank(flat, datum, field, options);
  const { drawn } = sizes;
  const { fitting, heightMm } = laid;
  const rows = blankRows(sizes, laid);
  const rings = ringsOf(
    marks.map((mark) => ({ ...mark, at: movePoint(drawn.move, mark.at) })),
    drawn.flat.cutouts,
    fitting,
  );
  const placer = new Placer(
    { minX: 0, minY: 0, maxX: field.widthMm, maxY: heightMm },
    LEADER_COSTS,
  );
  placer.avoid(
    ...blankObstacles(drawn.flat, fitting),
    ...rows.flatMap((r) => r.extensions.map((l) => ({ line: l, cost: EXTENSION_COST }))),
    ...ringObstacles(rings),
  );
  const figures = rows.flatMap((r) => r.labels.map((label) => textGround(label)));
  placer.take(...figures);
  const overall = overallSizes(sizes, laid).map((size) => overallSize(size, placer, figures));
  const datums = datumMarks(drawn.datum, drawn.flat.outline, fitting, placer);
  const names = blankLabels(sizes, fitting, placer);
  const marked = markItems(rings, placer);
  return {
    picture: {
      widthMm: field.widthMm,
      heightMm,
      items: [
        ...shapeItems(drawn.flat, fitting),
        ...pitchCircleItems(sizes.groups, fitting),
        ...rows.flatMap((r) => [...r.lines, ...r.labels]),
        ...overall.flat(),
        ...datums,
        ...names.items,
        ...marked.items,
      ],
    },
    scale: fitting.scale,
    sizes: names.sizes,
    leftOut: names.leftOut + marked.leftOut,
    spots: [
      ...rows.flatMap(({ labels }, row) =>
        labels.map((label, i): SizeSpot => {
          const side = ROW_SIDES[row] as Side;
          const { mm = 0, isCentre } = sizes.ticks[side][i] ?? {};
          const axis = side === 'below' || side === 'above' ? 0 : 1;
          const hole = sizes.groups.find(({ at }) => Math.abs(at[axis] - mm) < SAME_TICK_MM);
          const from = isCentre === true ? hole?.holes[0]?.hole.from : undefined;
          return {
            of: `${side} ${i}`,
            mm,
            box: textGround(label).box,
            ...(from !== undefined && { hole: from }),
          };
        }),
      ),
      ...overall.flatMap((items, i) => overallSpot(items, i, sizes)),
    ],
    at: (p) => fitting.at(movePoint(drawn.move, p)),
  };
}

const overallSpot = (items: readonly PictureItem[], i: number, sizes: BlankSizes): SizeSpot[] =>
  items.flatMap((item) =>
    item.kind === 'label'
      ? [
          {
            of: i === 0 ? 'across' : 'up',
            mm: sizes.overall[i]?.mm ?? 0,
            box: textGround(item).box,
          },
        ]
      : [],
  );

const LEADER_COSTS: LineCosts = { across: 900, crossing: 60 };
/** What it costs a name to lie across the line of a running size. */
const EXTENSION_COST = 700;

/** Width and height, on lines beyond the running sizes; in brackets where those tell them too. */
const overallSizes = (
  { overall: [across, up], print: { tape } }: BlankSizes,
  { beyond, corner: [x0, y0], size: [w, h] }: LaidBlank,
): OverallSize[] => {
  const [x1, y1] = [x0 + w, y0 + h];
  const text = ({ mm, isTwice }: BlankSizes['overall'][0]): string =>
    isTwice ? `(${tape(mm, 1)})` : tape(mm, 1);
  return [
    {
      feet: [
        [x0, y0],
        [x1, y0],
      ],
      ends: [
        [x0, beyond.below],
        [x1, beyond.below],
      ],
      text: text(across),
    },
    {
      feet: [
        [x0, y0],
        [x0, y1],
      ],
      ends: [
        [beyond.left, y0],
        [beyond.left, y1],
      ],
      text: text(up),
    },
  ];
};
