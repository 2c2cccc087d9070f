import type { Extents } from '../../geometry/extents.ts';
import { fileNumber } from '../../text/file-number.ts';

/** The part of the drawing that a program shows when it opens the file, mm. */
export interface View {
  readonly centreX: number;
  readonly centreY: number;
  readonly height: number;
  /** Width over height. */
  readonly aspect: number;
}

/** Width over height of the view; windows are seldom narrower than this. */
const ASPECT = 1.5;
/** Factor that leaves room round the drawing. */
const MARGIN = 1.1;

/** The view that shows these extents whole. */
export const viewOf = ({ minX, minY, maxX, maxY }: Extents): View => ({
  centreX: fileNumber((minX + maxX) / 2),
  centreY: fileNumber((minY + maxY) / 2),
  height: fileNumber(Math.max(maxY - minY, (maxX - minX) / ASPECT, 1) * MARGIN),
  aspect: ASPECT,
});
