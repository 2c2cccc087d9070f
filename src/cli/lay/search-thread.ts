import { parentPort, workerData } from 'node:worker_threads';
import type { StripResult } from '../../contract/lay.ts';
import { layStrip } from '../../use/lay/lay-strip.ts';

/** What a thread is given to do. */
export interface StripOrder {
  readonly text: string;
  readonly seed: number;
  /** Ends after so many steps; never by itself without. */
  readonly steps?: number | undefined;
  /** Ends after so many seconds. */
  readonly seconds?: number | undefined;
  /** Its only figure is not 0 as soon as the search is to end. */
  readonly stop: SharedArrayBuffer;
}

/** What a thread tells: a better layout, or the best one at its end. */
export type StripNews =
  | { readonly kind: 'better'; readonly usedLength: number; readonly densityPercent: number }
  | { readonly kind: 'end'; readonly result: StripResult };

/** The search of one thread, from its order to its end. */
const runOrder = (order: StripOrder, tell: (news: StripNews) => void): void => {
  const stop = new Int32Array(order.stop);
  const end = order.seconds === undefined ? Infinity : performance.now() + order.seconds * 1000;
  const laid = layStrip({
    text: order.text,
    seed: order.seed,
    mayGoOn: (steps) =>
      steps < (order.steps ?? Infinity) && Atomics.load(stop, 0) === 0 && performance.now() < end,
    onBetter: (usedLength, densityPercent) => tell({ kind: 'better', usedLength, densityPercent }),
  });
  if (!laid.ok) throw new Error(JSON.stringify(laid.problems));
  tell({ kind: 'end', result: laid.result });
};

runOrder(workerData as StripOrder, (news) => parentPort?.postMessage(news));
