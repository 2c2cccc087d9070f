import type { LayResult } from '../../contract/lay.ts';
import type { Region } from '../../geometry/region.ts';
import { layOnStock } from '../../lay/sheets/lay-on-stock.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { StockPiece } from '../../model/stock.ts';
import type { ReadyJob } from '../job/ready-job.ts';
import type { Done } from '../use-case.ts';
import { type FoundLayout, laidSheets, layResult, usedBy } from './laid-result.ts';
import { type LayAsked, layGroupsOfJob, onWhatIsLeft } from './lay-groups.ts';

export interface LayJobRequest {
  readonly ready: ReadyJob;
  /** What there is to cut from, as `stockOf` tells it of a shop. */
  readonly stock: readonly StockPiece[];
  readonly asked: LayAsked;
  readonly seed: number;
  /** Asked before each step with the number of steps made so far on this material. */
  readonly mayGoOn: (steps: number) => boolean;
}

/** The layout of a job, and what its files are made from. */
export interface LaidJob extends Done<LayResult> {
  readonly sheets: readonly LaidSheet[];
  readonly drawings: ReadonlyMap<string, Drawing>;
  readonly outlines: ReadonlyMap<string, Region>;
}

/**
 * Lays the blanks of a job on the stock of the shop, material by material and thickness by
 * thickness. The same seed and the same number of steps give the same layout.
 */
export const layJob = ({ ready, stock, asked, seed, mayGoOn }: LayJobRequest): LaidJob => {
  const toLay = layGroupsOfJob(ready, stock, asked);
  const found: FoundLayout[] = [];
  for (const group of toLay.groups) {
    const request = onWhatIsLeft(group, usedBy(found));
    const laid = layOnStock(request, { seed, mayGoOn });
    found.push({ group: { ...group, request }, seed, laid });
  }
  return {
    ok: true,
    result: layResult(toLay, found, new Map()),
    sheets: laidSheets(found),
    drawings: toLay.drawings,
    outlines: toLay.outlines,
    findings: toLay.findings,
    files: [],
  };
};
