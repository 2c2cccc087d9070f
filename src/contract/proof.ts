import type { Asked, AskedAngle, AskedMeasure } from './asked.ts';
import type { Finding } from '../model/finding.ts';

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
  /** The blank as it was made, by which its file can be measured again. */
  readonly made: Pick<Asked, 'measure' | 'kerfMm' | 'panels' | 'cut' | 'file'>;
}

export interface Proof {
  /**
   * The worst difference between asked and found; a measure that cannot be found counts as fully
   * missed.
   */
  readonly worstMm: number;
  readonly measures: readonly FoundMeasure[];
  readonly angles: readonly FoundAngle[];
  /** Findings about the file, with a `stop` when it does not fold to what was asked. */
  readonly findings: readonly Finding[];
}
