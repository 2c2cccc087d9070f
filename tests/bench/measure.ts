import { type Compared, comparedOf, hasSettled, type Took } from './report.ts';

export type { Answer, Took } from './report.ts';

/** Runs once, and gives what it took. */
export type Timed = () => Took;

/** Starts both clocks; the function that is given reads them, in milliseconds. */
export const started = (): (() => Took) => {
  const used = process.cpuUsage();
  const start = performance.now();
  return () => {
    const wallMs = performance.now() - start;
    const { user, system } = process.cpuUsage(used);
    return { wallMs, cpuMs: (user + system) / 1000 };
  };
};

/** What each of several took on average. */
export const eachOf = ({ wallMs, cpuMs }: Took, count: number): Took => ({
  wallMs: wallMs / count,
  cpuMs: cpuMs / count,
});

/** A timer around work that is over in no time: as many rounds as take about 40 ms, per round. */
export const timed = (work: () => void): Timed => {
  const rounds = roundsFor(work);
  return () => {
    const stop = started();
    for (let i = 0; i < rounds; i += 1) work();
    return eachOf(stop(), rounds);
  };
};

/** A timer around work that takes long enough for one round. */
export const once =
  (work: () => void): Timed =>
  () => {
    const stop = started();
    work();
    return stop();
  };

const ROUND_MS = 40;
const BLOCK_MS = 500;
const MOST_WARM_MS = 10_000;

/** Work that is warmed up: called for as long as `goesOn` says so. */
export interface Warming {
  readonly goesOn: () => boolean;
  /** How many calls take so long by then. */
  readonly callsIn: (ms: number) => number;
}

/**
 * Until the compiler has had its say: calls are counted in blocks by the time that the processor
 * gives them, until they grow no quicker, but for a few seconds at most.
 */
export const warming = (): Warming => {
  const eachMs: number[] = [];
  let [calls, usedMs, stop] = [0, 0, started()];
  const endBlock = (cpuMs: number): void => {
    eachMs.push(cpuMs / calls);
    [calls, usedMs, stop] = [0, usedMs + cpuMs, started()];
  };
  return {
    goesOn: () => {
      const { cpuMs } = stop();
      if (calls > 0 && cpuMs >= BLOCK_MS) endBlock(cpuMs);
      calls += 1;
      return !hasSettled(eachMs) && usedMs < MOST_WARM_MS;
    },
    callsIn: (ms) => Math.max(1, Math.round(ms / (eachMs.at(-1) ?? ms))),
  };
};

const roundsFor = (work: () => void): number => {
  const { goesOn, callsIn } = warming();
  while (goesOn()) work();
  return callsIn(ROUND_MS);
};

/**
 * Times `work` and `bare` by turns, so that whatever else the machine does meets both, and swaps
 * which of them goes first.
 */
export const compare = (work: Timed, bare: Timed, pairs: number): Compared =>
  comparedOf(
    Array.from({ length: pairs }, (_, i) => {
      if (i % 2 === 0) return { work: work(), bare: bare() };
      const before = bare();
      return { work: work(), bare: before };
    }),
  );
