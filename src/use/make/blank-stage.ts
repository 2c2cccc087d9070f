import type { BlankResult, FindingResult, Hand, PartResult } from '../../contract/part.ts';
import type { LaidFlat } from '../made-part.ts';

/** The stages that a part is made in, in their order; the last, `fit`, is the finished part. */
export type MakeStage = 'shape' | 'checks' | 'proof' | 'plan' | 'fit';

/** A blank as far as a stage brings it. */
export interface BlankStage {
  readonly stage: Exclude<MakeStage, 'fit'>;
  readonly hand: Hand;
  /** Which blank of several; `null` for the only one. */
  readonly piece: string | null;
  /** Its blank; with its plan from that stage on. */
  readonly laid: LaidFlat;
  readonly blank: BlankResult;
  /** What is known to be wrong by then, worked out when it is called. */
  readonly findings: () => readonly FindingResult[];
  /** From the stage `proof` on: what came of the file, worked out when it is called. */
  readonly proof?: () => PartResult['proof'];
}
