/** Sides of a drawn blank on which running sizes stand. */
export type Side = 'below' | 'left' | 'above' | 'right';

/** A running size: a place that is measured from the datum. */
export interface Tick {
  /** Where it lies along its row, mm of the drawn blank. */
  readonly mm: number;
  /** Where its extension line begins, across the row, mm of the drawn blank. */
  readonly from: number;
  /** Its size from the datum, to 0.1 mm, with names where it has any. */
  readonly text: string;
  /** Those names, and the size: as a figure, and as far as that tells it, mm. */
  readonly names: string;
  readonly figure: string;
  readonly value: number;
  /** From the place before it in its row, as a figure; its own size at the first. */
  readonly fromBefore: string;
  /** Its extension line begins in a hole: it is drawn as the centre line that it is. */
  readonly isCentre?: true;
}
