/** Sides of a drawn blank on which running sizes stand. */
export type Side = 'below' | 'left' | 'above' | 'right';

/** A running size: a place that is measured from the datum. */
export interface Tick {
  /** Where it lies along its row, mm of the drawn blank. */
  readonly mm: number;
  /** Where its extension line begins, across the row, mm of the drawn blank. */
  readonly from: number;
  readonly text: string;
  /** Its extension line begins in a hole: it is drawn as the centre line that it is. */
  readonly isCentre?: true;
}
