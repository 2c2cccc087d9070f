import { signal } from '@preact/signals';
import type { Kind, Questions } from '../core/questions.ts';
import type { Progress, TellProgress } from '../model/progress.ts';
import { slow } from './cores.ts';

/** Long work that is going on, or was stopped. */
export interface Work {
  /** What it is to a person: `Order of folds of bracket`. */
  readonly what: string;
  readonly progress: Progress | undefined;
  readonly stop: () => void;
}

/** What is going on, once it has taken so long that a person asks; what came last is shown. */
export const working = signal<readonly Work[]>([]);

/** What was stopped, what became of it, and how it is begun again. */
export const stopped = signal<
  { readonly what: string; readonly left: string; readonly again: () => void } | undefined
>(undefined);

/** Work that is done sooner needs no line. */
const SHOWN_AFTER_MS = 300;

interface Told {
  readonly what: string;
  /** What a stop leaves behind, as a sentence. */
  readonly left: string;
  /** Begins it again after a stop. */
  readonly again: () => void;
}

/**
 * Does long work under a line that says how far it is and stops it. `run` gets what tells the progress;
 * `halt` stops it, after which it has to come to its end. The answer says whether it was stopped.
 */
export const underWay = async <T>(
  { what, left, again }: Told,
  run: (tell: TellProgress) => Promise<T>,
  halt: () => void,
): Promise<{ readonly isStopped: boolean; readonly answer: T }> => {
  let isStopped = false;
  let isShown = false;
  const stop = (): void => {
    isStopped = true;
    halt();
  };
  let work: Work = { what, progress: undefined, stop };
  const show = (): void => {
    working.value = [...working.value.filter((one) => one.stop !== stop), work];
  };
  const timer = setTimeout(() => {
    isShown = true;
    // What is begun anew is no longer what was stopped.
    if (stopped.value?.what === what) stopped.value = undefined;
    show();
  }, SHOWN_AFTER_MS);
  try {
    const answer = await run((progress) => {
      work = { ...work, progress };
      if (isShown) show();
    });
    if (isStopped) stopped.value = { what, left, again };
    return { isStopped, answer };
  } finally {
    clearTimeout(timer);
    working.value = working.value.filter((one) => one.stop !== stop);
  }
};

/** Asks the slow core under such a line; `undefined` where it was stopped or asked anew meanwhile. */
export const askLong = async <K extends Kind>(
  kind: K,
  ask: Questions[K]['ask'],
  {
    key = kind,
    stops = false,
    ...told
  }: Told & { readonly key?: string; readonly stops?: boolean },
): Promise<Questions[K]['answer'] | undefined> => {
  const { answer } = await underWay(
    told,
    (onProgress) => slow.ask(kind, ask, { key, stops, onProgress }),
    () => slow.stop(key),
  );
  return answer;
};
