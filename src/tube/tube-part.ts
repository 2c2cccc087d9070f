import { M3_PER_MM3 } from '../text/units.ts';
import type { TubeGrade } from '../model/tube-grade.ts';
import type { BentTube } from './bent-tube.ts';
import type { CopedTube } from './cope/coped-part.ts';

/** What is known of every tube, whatever is done to it. */
export interface TubeBase {
  readonly grade: TubeGrade;
  readonly diameterMm: number;
  readonly wallMm: number;
  /** Length that is cut off the bar, mm. */
  readonly cutLengthMm: number;
  /** Mass of the finished tube. */
  readonly massKg: number;
}

/** A tube with all that is done to it; a family gives these in place of parts of sheet. */
export type TubePart = BentTube | CopedTube;

/** One of the tubes of a family. */
export interface TubePiece {
  /** Its name where there are several, as of `Piece`. */
  readonly id?: string;
  /** How many of it one set takes; 1 when left out. */
  readonly quantity?: number;
  readonly tube: TubePart;
}

/** Mass of a length of tube. */
export const tubeMassKg = (
  { grade, diameterMm, wallMm }: Pick<TubeBase, 'grade' | 'diameterMm' | 'wallMm'>,
  lengthMm: number,
): number =>
  Math.PI * (diameterMm - wallMm) * wallMm * lengthMm * grade.densityKgM3.value * M3_PER_MM3;
