import { NO_SIZE_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';

/** A scale of a drawing, and how its title block writes it. */
export interface DrawingScale {
  readonly scale: number;
  readonly text: string;
  /** For blanks alone: views at such a scale leave too little room for their sizes. */
  readonly isOfBlanks?: true;
}

/** After ISO 5455, with others between, so that a blank fills its page; the larger first. */
export const SCALES: readonly DrawingScale[] = [
  { scale: 5, text: '5:1' },
  { scale: 2, text: '2:1' },
  { scale: 1, text: '1:1' },
  { scale: 1 / 1.5, text: '1:1.5', isOfBlanks: true },
  { scale: 0.5, text: '1:2' },
  { scale: 0.4, text: '1:2.5' },
  { scale: 1 / 3, text: '1:3', isOfBlanks: true },
  { scale: 0.25, text: '1:4' },
  { scale: 0.2, text: '1:5' },
  { scale: 0.1, text: '1:10' },
  { scale: 0.05, text: '1:20' },
  { scale: 0.02, text: '1:50' },
];

/** The largest scale up to `most` in which a drawing fits; the smallest of all where none does. */
export const drawingScale = (fits: (scale: number) => boolean, most = Infinity): DrawingScale =>
  SCALES.find((s) => s.isOfBlanks !== true && s.scale <= most && fits(s.scale)) ??
  (SCALES.at(-1) as DrawingScale);

/** The scale in which a picture of this size just fills a field; none of both has no size, mm. */
export const scaleToFill = (size: Vec2, field: Vec2): number =>
  Math.min(field[0] / Math.max(size[0], NO_SIZE_MM), field[1] / Math.max(size[1], NO_SIZE_MM));
