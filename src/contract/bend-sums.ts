import type { BendFigures } from '../bending/bend.ts';
import type { Measure } from '../model/part.ts';

/** The JSON document of `bend --json`. */
export interface BendSums extends BendFigures {
  readonly measure: Measure;
  readonly remarks: readonly string[];
}
