import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import type { Side, Tick } from '../sizes/ticks.ts';
import type { Line2 } from './ground.ts';

/**
 * A row of running sizes beside the blank: all from one datum, each with an extension line to its
 * figure.
 */
export interface SizeRow {
  /** One from the datum, and from there on each from the one before it. */
  readonly isChain: boolean;
  readonly side: Side;
  /** `from`, where their lines begin, on the paper. */
  readonly ticks: readonly Tick[];
  /** Takes a measure on the blank to the paper, along the row. */
  readonly onPaper: (mm: number) => number;
  /** How far along the row figures may stand. */
  readonly span: readonly [low: number, high: number];
  /** The level of the edge of the blank beside which the row lies. */
  readonly edge: number;
  /** Figures of the row are written level, although its lines are upright. */
  readonly isLevel: boolean;
}

export interface DrawnRow {
  readonly lines: readonly PictureItem[];
  readonly extensions: readonly (readonly [Vec2, Vec2])[];
  readonly labels: readonly Label[];
}

/**
 * From the blank to the knee of an extension line, from there to the figure, and to its letters,
 * mm.
 */
export const KNEE_MM = 2.5;
export const JOG_MM = 5;
export const GAP_MM = 1;
/** An extension line begins so far off what it belongs to (ISO 129-1, from memory), mm. */
const FOOT_MM = 0.8;
/** A figure of a row: what it is, and where along the row it belongs, mm of the drawn blank. */
export interface RowFigure {
  readonly text: string;
  readonly mm: number;
  /** The line at whose end it stands; none of one between two lines. */
  readonly tick?: Tick;
}

/** A figure with the place along its row where it would stand, and where there is room for it. */
export interface Written extends RowFigure {
  readonly wanted: number;
  readonly place: number;
  readonly sizeMm: number;
}

/** Where a row lies: which way is out, its levels, and a point of it. */
export interface RowFrame {
  readonly out: 1 | -1;
  readonly knee: number;
  readonly end: number;
  readonly at: (alongRow: number, across: number) => Vec2;
}

export const frameOf = ({ side, edge }: SizeRow, kneeMm = KNEE_MM): RowFrame => {
  const out = side === 'below' || side === 'left' ? -1 : 1;
  return {
    out,
    knee: edge + out * kneeMm,
    end: edge + out * (KNEE_MM + JOG_MM),
    at: (alongRow, across) =>
      side === 'below' || side === 'above' ? [alongRow, across] : [across, alongRow],
  };
};

/** From the blank to the knee, and from there to the figure. */
export const tickLines = (
  tick: Tick,
  { wanted, place }: Pick<Written, 'wanted' | 'place'>,
  { out, knee, end, at }: RowFrame,
): readonly [stem: Line2, jog: Line2] => {
  const start = tick.isCentre === true ? tick.from : tick.from + out * FOOT_MM;
  return [
    [at(wanted, start), at(wanted, knee)],
    [at(wanted, knee), at(place, end)],
  ];
};

/** A figure beyond a level of its row. */
export const labelAt = (
  { side, isLevel }: SizeRow,
  { text, place, sizeMm }: Pick<Written, 'text' | 'place' | 'sizeMm'>,
  { out, at }: RowFrame,
  level: number,
): Label => {
  const isUpright = side === 'below' || side === 'above';
  const reach = level + out * GAP_MM;
  const label = { kind: 'label', sizeMm, text, isBold: true } as const;
  if (isUpright && isLevel)
    return { ...label, at: at(place, reach - (out < 0 ? 0.74 * sizeMm : 0)), align: 'middle' };
  // On the base line; the middle of the letters stands on the extension line.
  return {
    ...label,
    at: at(place + (isUpright ? 0.36 : -0.36) * sizeMm, reach),
    align: out < 0 ? 'right' : 'left',
    ...(isUpright && { angleDeg: 90 }),
  };
};
