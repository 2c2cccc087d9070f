import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { StripResult } from '../../contract/lay.ts';
import type { StripNews, StripOrder } from './search-thread.ts';

/**
 * The program of a thread. It stands beside the built command; the command that is not built, as in
 * its tests, takes the one that was built last.
 */
const THREAD = fileURLToPath(
  new URL(
    import.meta.url.endsWith('.ts') ? '../../../dist/search-thread.cjs' : './search-thread.cjs',
    import.meta.url,
  ),
);

export interface StripSearch {
  readonly text: string;
  readonly seed: number;
  readonly threads: number;
  readonly steps: number | undefined;
  readonly seconds: number | undefined;
  readonly onBetter: (usedLength: number, densityPercent: number) => void;
}

/**
 * The shortest layout that several threads find, each with a seed of its own that follows the first
 * one; of equally short ones that of the first. Ctrl+C ends the search, and not the command: it
 * answers with the best so far.
 */
export const searchStrip = async (search: StripSearch): Promise<StripResult> => {
  const stop = new SharedArrayBuffer(4);
  const end = (): void => void Atomics.store(new Int32Array(stop), 0, 1);
  process.once('SIGINT', end);
  let shortest = Infinity;
  const onBetter = (usedLength: number, densityPercent: number): void => {
    if (usedLength >= shortest) return;
    shortest = usedLength;
    search.onBetter(usedLength, densityPercent);
  };
  try {
    const { text, seed, steps, seconds } = search;
    const orders = Array.from({ length: search.threads }, (_, k): StripOrder => ({
      text,
      seed: seed + k,
      steps,
      seconds,
      stop,
    }));
    const found = await Promise.all(orders.map((order) => runThread(order, onBetter)));
    return found.reduce((best, one) => (one.usedLength < best.usedLength ? one : best));
  } finally {
    process.removeListener('SIGINT', end);
  }
};

const runThread = (
  order: StripOrder,
  onBetter: (usedLength: number, densityPercent: number) => void,
): Promise<StripResult> =>
  new Promise((done, fail) => {
    const thread = new Worker(THREAD, { workerData: order });
    thread.on('message', (news: StripNews) => {
      if (news.kind === 'end') done(news.result);
      else onBetter(news.usedLength, news.densityPercent);
    });
    thread.on('error', fail);
  });
