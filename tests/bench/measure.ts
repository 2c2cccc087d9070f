/**
 * One question and its answer. Times hold for this machine and this hour; only the ratios mean
 * something elsewhere.
 */
export interface Answer {
  readonly question: string;
  readonly medianMs: number;
  /** What 95 of 100 do not exceed, where that was asked for. */
  readonly p95Ms?: number;
  /** How often that fits into a second. */
  readonly perSecond: number;
  /** The median of the ratios taken pair by pair within this run. */
  readonly ratio: number;
  /** What the ratio is to. */
  readonly against: string;
  /** The ratio or the rate aimed at, in words. */
  readonly aim?: string;
}

/** Runs once, and gives its time in milliseconds. */
export type Timed = () => number;

/** A timer around work that is over in no time: as many rounds as take about 20 ms, per round. */
export const timed = (work: () => void): Timed => {
  const rounds = roundsFor(work);
  return () => {
    const start = performance.now();
    for (let i = 0; i < rounds; i += 1) work();
    return (performance.now() - start) / rounds;
  };
};

const ROUND_MS = 20;
const WARM_MS = 1000;

const roundsFor = (work: () => void): number => {
  // Warmed up until the compiler has had its say.
  const end = performance.now() + WARM_MS;
  let rounds = 0;
  while (performance.now() < end) {
    work();
    rounds += 1;
  }
  return Math.max(1, Math.round((rounds * ROUND_MS) / WARM_MS));
};

/**
 * Times `work` and `bare` by turns, so that whatever else the machine does meets both, and swaps
 * which of them goes first.
 */
export const compare = (
  work: Timed,
  bare: Timed,
  pairs: number,
): Pick<Answer, 'medianMs' | 'perSecond' | 'ratio'> => {
  const times: number[] = [];
  const ratios: number[] = [];
  for (let i = 0; i < pairs; i += 1) {
    const swapped = i % 2 === 1;
    const first = swapped ? bare() : work();
    const second = swapped ? work() : bare();
    const [time, base] = swapped ? [second, first] : [first, second];
    times.push(time);
    ratios.push(time / base);
  }
  const medianMs = median(times);
  return { medianMs, perSecond: 1000 / medianMs, ratio: median(ratios) };
};

const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
};
