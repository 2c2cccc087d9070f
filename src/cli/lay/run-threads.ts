import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { StripResult } from '../../contract/lay.ts';
import { isBetter } from '../../lay/sheets/better.ts';
import type { Aim, LaidOnStock, LayRequest } from '../../lay/sheets/request.ts';
import type { Limits, News, Order } from './search-thread.ts';

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

/** How long several threads search. */
export interface Threads {
  readonly seed: number;
  readonly threads: number;
  readonly steps: number | undefined;
  readonly seconds: number | undefined;
}

/** Whether the user has asked for the best so far. */
export interface Stopping {
  readonly stop: SharedArrayBuffer;
  /** Whether it was stopped. */
  readonly isStopped: () => boolean;
  readonly release: () => void;
}

/** What a person is told who stopped a search. */
export const STOPPED = 'Stopped: this is the best layout so far.';

/**
 * Ctrl+C ends a search, and not the command: it answers with the best so far. Pressed once more it
 * ends the command.
 */
export const stopOnInterrupt = (): Stopping => {
  const stop = new SharedArrayBuffer(4);
  const flag = new Int32Array(stop);
  const end = (): void => void Atomics.store(flag, 0, 1);
  process.once('SIGINT', end);
  return {
    stop,
    isStopped: () => Atomics.load(flag, 0) === 1,
    release: () => void process.removeListener('SIGINT', end),
  };
};

/**
 * The shortest layout that several threads find, each with a seed of its own that follows the first
 * one; of equally short ones that of the first.
 */
export const searchStrip = async (
  text: string,
  threads: Threads,
  tellBetter: (usedLength: number, densityPercent: number) => void,
): Promise<{ readonly result: StripResult; readonly isStopped: boolean }> => {
  const { stop, isStopped, release } = stopOnInterrupt();
  let shortest = Infinity;
  try {
    const found = await Promise.all(
      limitsOf(threads, stop).map((limits) =>
        runThread({ kind: 'strip', text, ...limits }, (news): StripResult | undefined => {
          if (news.kind === 'shorter' && news.usedLength < shortest) {
            shortest = news.usedLength;
            tellBetter(news.usedLength, news.densityPercent);
          }
          return news.kind === 'strip laid' ? news.result : undefined;
        }),
      ),
    );
    return {
      result: found.reduce((best, one) => (one.usedLength < best.usedLength ? one : best)),
      isStopped: isStopped(),
    };
  } finally {
    release();
  }
};

/** What is laid on stock, and the seed of the thread that found it. */
export interface StockFound {
  readonly laid: LaidOnStock;
  readonly seed: number;
}

/** The best layout on stock that several threads find; of equally good ones that of the first. */
export const searchStock = async (
  request: LayRequest,
  threads: Threads,
  stop: SharedArrayBuffer,
  tellBetter: (aim: Aim) => void,
): Promise<StockFound> => {
  let best: Aim | undefined;
  const found = await Promise.all(
    limitsOf(threads, stop).map(async (limits) => ({
      seed: limits.seed,
      laid: await runThread({ kind: 'stock', request, ...limits }, (news) => {
        if (news.kind === 'better' && (best === undefined || isBetter(news.aim, best))) {
          best = news.aim;
          tellBetter(news.aim);
        }
        return news.kind === 'stock laid' ? news.result : undefined;
      }),
    })),
  );
  return found.reduce((one, other) => (isBetter(other.laid.aim, one.laid.aim) ? other : one));
};

const limitsOf = (
  { seed, threads, steps, seconds }: Threads,
  stop: SharedArrayBuffer,
): readonly Limits[] =>
  Array.from({ length: threads }, (_, k) => ({ seed: seed + k, steps, seconds, stop }));

const runThread = <Result>(
  order: Order,
  resultOf: (news: News) => Result | undefined,
): Promise<Result> =>
  new Promise((done, fail) => {
    const thread = new Worker(THREAD, { workerData: order });
    thread.on('message', (news: News) => {
      const result = resultOf(news);
      if (result !== undefined) done(result);
    });
    thread.on('error', fail);
  });
