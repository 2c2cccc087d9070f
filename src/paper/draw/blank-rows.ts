import type { Printed } from '../../text/printed.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { type BlankSizes, blankSizes, type Room } from '../sizes/blank-sizes.ts';
import type { Datum } from '../sizes/datum.ts';
import { drawnBlank } from '../sizes/drawn-blank.ts';
import type { Side, Tick } from '../sizes/ticks.ts';
import type { Field, Fitting } from './dimensioned-blank.ts';
import { canBeLevel, mostIn, rowDepthMm, sizeRow } from './running-sizes.ts';
import type { DrawnRow, SizeRow } from './size-row.ts';

/** Where the blank lies in its picture, on paper, with room for its sizes round it. */
export interface LaidBlank {
  readonly fitting: Fitting;
  /** Lower left corner of the blank, and its size. */
  readonly corner: Vec2;
  readonly size: Vec2;
  /** Levels of the lines of the overall sizes, beyond the running ones. */
  readonly beyond: { readonly below: number; readonly left: number };
  readonly widthMm: number;
  readonly heightMm: number;
  /** Rows of upright lines whose figures are level. */
  readonly isLevel: Readonly<Record<Side, boolean>>;
  readonly isChain: boolean;
}

interface LaidOptions {
  readonly scales: readonly number[] | undefined;
  readonly isChain: boolean;
}

/** Room for an overall size, mm, and round the picture. */
const OVERALL_MM = 7;
const RIM_MM = 1.5;
const OVERALL_TEXT_MM = 5;
const LEAST_HEIGHT_MM = 25;

/** Lines of running sizes nearer to each other than this, mm, crowd a row. */
const CLOSE_MM = 3.2;
/** Middles of narrow lines nearer to each other than this, mm: the one covers the other. */
const ONE_LINE_MM = 0.12;
/** Figures of upright rows stand no farther than this beyond the blank, mm. */
const BESIDE_MM = 2;
/** What a picture keeps for rows on two sides, mm, before it is known which there are. */
const USUAL_MM = { across: 60, up: 50 };
/** Rounds in which sizes and scale settle: fewer figures leave more room for the blank. */
const MOST_ROUNDS = 4;

/** How the sizes of a blank are written. */
export interface RowOptions {
  /** Scales that it may be drawn to, the largest first; any when left out. */
  readonly scales?: readonly number[];
  /** Each size from the one before it; from the datum when left out. */
  readonly isChain?: boolean;
  /** How lengths are printed; in mm when left out. */
  readonly print?: Printed;
}

/** The sizes of a blank and where it lies in a field, its rows no longer than there is room for. */
export const sizedBlank = (
  flat: FlatPattern,
  datum: Datum,
  field: Field,
  { scales, isChain = false, print }: RowOptions = {},
): { readonly sizes: BlankSizes; readonly laid: LaidBlank } => {
  const { flat: turned } = drawnBlank(flat, datum);
  let scale = Math.min(
    (field.widthMm - USUAL_MM.across) / turned.widthMm,
    (field.heightMm - USUAL_MM.up) / turned.heightMm,
  );
  for (let round = 1; ; round++) {
    const sizes = blankSizes(flat, datum, roomAt(field, turned.heightMm, scale), print);
    const laid = laidOn(sizes, field, { scales, isChain });
    const fits = (['left', 'right'] as const).every(
      (side) => sizes.ticks[side].length <= mostIn(laid.size[1] + 2 * BESIDE_MM),
    );
    if (fits || round === MOST_ROUNDS) return { sizes, laid };
    scale = Math.min(scale, laid.fitting.scale) * SMALLER;
  }
};

const SMALLER = 0.85;

const roomAt = (field: Field, heightMm: number, scale: number): Room => {
  const across = mostIn(field.widthMm - 2 * RIM_MM);
  const up = mostIn(heightMm * scale + 2 * BESIDE_MM);
  return {
    count: { below: across, above: across, left: up, right: up },
    closeMm: CLOSE_MM / scale,
    oneLineMm: ONE_LINE_MM / scale,
  };
};

/** As large as the field and the scales allow, with level figures where these find room. */
const laidOn = (sizes: BlankSizes, field: Field, options: LaidOptions): LaidBlank => {
  let isLevel: LaidBlank['isLevel'] = { below: true, above: true, left: false, right: false };
  let laid = laidWith(sizes, field, isLevel, options);
  for (const side of ['below', 'above'] as const) {
    if (canBeLevel(rowOn(sizes, laid, side))) continue;
    isLevel = { ...isLevel, [side]: false };
    laid = laidWith(sizes, field, isLevel, options);
  }
  // Less room across may have moved the figures of the other row together.
  return isLevel.below && !canBeLevel(rowOn(sizes, laid, 'below'))
    ? laidWith(sizes, field, { ...isLevel, below: false }, options)
    : laid;
};

const laidWith = (
  { ticks, drawn: { flat } }: BlankSizes,
  field: Field,
  isLevel: LaidBlank['isLevel'],
  { scales, isChain }: LaidOptions,
): LaidBlank => {
  const [across, up] = [field.widthMm - 2 * RIM_MM, field.heightMm - 2 * RIM_MM];
  const depth = (side: Side): number =>
    rowDepthMm(
      { ticks: ticks[side], isChain, isLevel: isLevel[side] },
      side === 'below' || side === 'above' ? across : up,
    );
  const margin: Record<Side, number> = {
    below: depth('below') + OVERALL_MM + RIM_MM,
    left: depth('left') + OVERALL_MM + RIM_MM,
    above: depth('above') + RIM_MM,
    right: depth('right') + RIM_MM,
  };
  const room = {
    widthMm: field.widthMm - margin.left - margin.right,
    heightMm: field.heightMm - margin.below - margin.above,
  };
  const largest = Math.min(room.widthMm / flat.widthMm, room.heightMm / flat.heightMm);
  const scale = scales?.find((s) => s <= largest) ?? largest;
  const [w, h] = [flat.widthMm * scale, flat.heightMm * scale];
  // A low blank needs no high picture.
  const heightMm = Math.min(
    field.heightMm,
    Math.max(h, LEAST_HEIGHT_MM) + margin.below + margin.above,
  );
  const [x0, y0] = [
    margin.left + (room.widthMm - w) / 2,
    margin.below + (heightMm - margin.below - margin.above - h) / 2,
  ];
  return {
    fitting: { scale, at: ([x, y]) => [x0 + x * scale, y0 + y * scale] },
    corner: [x0, y0],
    size: [w, h],
    beyond: {
      below: y0 - margin.below + RIM_MM + 1,
      left: x0 - margin.left + RIM_MM + 1 + OVERALL_TEXT_MM,
    },
    widthMm: field.widthMm,
    heightMm,
    isLevel,
    isChain,
  };
};

/** Running sizes on all four sides. */
export const blankRows = (sizes: BlankSizes, laid: LaidBlank): DrawnRow[] =>
  ROW_SIDES.map((side) => sizeRow(rowOn(sizes, laid, side)));

/** The sides in the order of their rows. */
export const ROW_SIDES: readonly Side[] = ['below', 'above', 'left', 'right'];

const rowOn = (
  { ticks }: BlankSizes,
  { fitting: { scale }, corner: [x0, y0], size: [w, h], widthMm, isLevel, isChain }: LaidBlank,
  side: Side,
): SizeRow => {
  const onX = (mm: number): number => x0 + mm * scale;
  const onY = (mm: number): number => y0 + mm * scale;
  const isUpright = side === 'below' || side === 'above';
  const placed = ticks[side].map((t): Tick => ({
    ...t,
    from: isUpright ? onY(t.from) : onX(t.from),
  }));
  return {
    side,
    ticks: placed,
    onPaper: isUpright ? onX : onY,
    span: isUpright ? [RIM_MM, widthMm - RIM_MM] : [y0 - BESIDE_MM, y0 + h + BESIDE_MM],
    edge: { below: y0, above: y0 + h, left: x0, right: x0 + w }[side],
    isLevel: isLevel[side],
    isChain,
  };
};
