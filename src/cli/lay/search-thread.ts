import { parentPort, workerData } from 'node:worker_threads';
import type { StripResult } from '../../contract/lay.ts';
import { layOnStock } from '../../lay/sheets/lay-on-stock.ts';
import type { Aim, LaidOnStock, LayRequest } from '../../lay/sheets/request.ts';
import { layStrip } from '../../use/lay/lay-strip.ts';

/** How far the search of a thread goes. */
export interface Limits {
  readonly seed: number;
  /** Ends after so many steps; never by itself without. */
  readonly steps?: number | undefined;
  /** Ends after so many seconds. */
  readonly seconds?: number | undefined;
  /** Its only figure is not 0 as soon as the search is to end. */
  readonly stop: SharedArrayBuffer;
}

/** What a thread is given to do: the text of a strip, or parts and stock. */
export type Order = Limits &
  (
    | { readonly kind: 'strip'; readonly text: string }
    | { readonly kind: 'stock'; readonly request: LayRequest }
  );

/** What a thread tells: a better layout, or the best one at its end. */
export type News =
  | { readonly kind: 'shorter'; readonly usedLength: number; readonly densityPercent: number }
  | { readonly kind: 'better'; readonly aim: Aim }
  | { readonly kind: 'strip laid'; readonly result: StripResult }
  | { readonly kind: 'stock laid'; readonly result: LaidOnStock };

/** The search of one thread, from its order to its end. */
const runOrder = (order: Order, tell: (news: News) => void): void => {
  const { seed } = order;
  const stop = new Int32Array(order.stop);
  const end = order.seconds === undefined ? Infinity : performance.now() + order.seconds * 1000;
  const mayGoOn = (steps: number): boolean =>
    steps < (order.steps ?? Infinity) && Atomics.load(stop, 0) === 0 && performance.now() < end;
  if (order.kind === 'stock') {
    const onBetter = (aim: Aim): void => tell({ kind: 'better', aim });
    const result = layOnStock(order.request, { seed, mayGoOn, onBetter });
    tell({ kind: 'stock laid', result });
    return;
  }
  const laid = layStrip({
    text: order.text,
    seed,
    mayGoOn,
    onBetter: (usedLength, densityPercent) => tell({ kind: 'shorter', usedLength, densityPercent }),
  });
  if (!laid.ok) throw new Error(JSON.stringify(laid.problems));
  tell({ kind: 'strip laid', result: laid.result });
};

runOrder(workerData as Order, (news) => parentPort?.postMessage(news));
