import type { SheetCuts } from '../../cutting/sheet-cuts.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { Printed } from '../../text/printed.ts';

/** What the picture of a laid sheet shows and says. */
export interface LaidPicture {
  readonly cuts: SheetCuts;
  /** Title of the job that it is cut for. */
  readonly job: string;
  /** As on an order, and its thickness: `S235JR, 2 mm`. */
  readonly material: string;
  readonly usedPercent: number;
  readonly cutLengthMm: number;
  /** The largest clean rectangle that is left, where that is known. */
  readonly clean?: Extents | undefined;
  /** Name of the cutter that takes the sheet, where there is one. */
  readonly cutter?: string | undefined;
  /** Whether the sheet is likely to warp on it. */
  readonly mayWarp: boolean;
  /** What to beware of, in a few words each. */
  readonly cautions: readonly string[];
  readonly paperMark: PaperMark;
  /** In the user's words; empty where it is to be filled in by hand. */
  readonly date: string;
  readonly print: Printed;
}
