import type { Asked, AskedAngle, AskedMeasure } from './asked.ts';

/** A measure as it was asked for and as it was found; `null` when it cannot be found any more. */
export interface FoundMeasure extends AskedMeasure {
  readonly foundMm: number | null;
}

export interface FoundAngle extends AskedAngle {
  readonly foundDeg: number | null;
}

export interface ProofResult {
  /** The worst difference between a length that was asked for and the one found. */
  readonly worstMm: number;
  readonly measures: readonly FoundMeasure[];
  readonly angles: readonly FoundAngle[];
  /** The blank as it was made, by which its file is measured again. */
  readonly made: Pick<Asked, 'measure' | 'kerfMm' | 'panels' | 'cut' | 'file'>;
}
