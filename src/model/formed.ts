import type { Vec2 } from '../geometry/vec2.ts';
import type { Direction } from './part.ts';

/** A line that is marked on the blank, and is neither cut nor folded at. */
export interface MarkLine {
  readonly from: Vec2;
  readonly to: Vec2;
  /** What is written beside it. */
  readonly called?: string;
  /** The same where the blank lies turned over; the same words when left out. */
  readonly turnedOver?: string;
}

/**
 * What is pressed, lanced or rolled out of a panel that stays flat otherwise: a louvre, a bead. The
 * model of the part shows the panel flat there. Points are in the panel's own coordinates.
 */
export interface Formed {
  /** `louvre 2`. */
  readonly called: string;
  /** The inputs by which it is moved. */
  readonly inputs: readonly string[];
  /** The metal that no longer lies in the plane of the panel, as the corners of a convex shape. */
  readonly zone: readonly Vec2[];
  /** How far it stands proud of the sheet's face, and on which. */
  readonly proudMm: number;
  readonly direction: Direction;
  /** Formed when the folds are made, so that nothing stands proud while they are. */
  readonly isAfterFolding?: true;
  readonly marks: readonly MarkLine[];
}

/** What is formed out of the blank, in the drawing's coordinates. */
export interface FlatFormed extends Formed {
  readonly panel: string;
}

/** The same with each of its points moved. */
export const movedFormed = <F extends Formed>(formed: F, move: (p: Vec2) => Vec2): F => ({
  ...formed,
  zone: formed.zone.map(move),
  marks: formed.marks.map((mark) => ({ ...mark, from: move(mark.from), to: move(mark.to) })),
});

/** All lines that are marked for what is rolled and formed. */
export const formMarks = ({
  rollMarks = [],
  formed = [],
}: {
  readonly rollMarks?: readonly MarkLine[];
  readonly formed?: readonly Formed[];
}): readonly MarkLine[] => [...rollMarks, ...formed.flatMap(({ marks }) => marks)];
