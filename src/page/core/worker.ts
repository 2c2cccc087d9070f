import type { Progress, TellProgress } from '../model/progress.ts';
import { coreAnswers } from './answers.ts';
import type { Kind, Questions } from './questions.ts';

/** A question, with the number by which its answer is known. */
export interface Asked<K extends Kind = Kind> {
  readonly id: number;
  readonly kind: K;
  readonly ask: Questions[K]['ask'];
}

/** How far the answer is. */
export interface Going {
  readonly id: number;
  readonly progress: Progress;
}

/** An answer, or what went wrong in the core: a bug of ours, which the page tells. */
export type Told =
  | { readonly id: number; readonly ok: true; readonly answer: unknown }
  | { readonly id: number; readonly ok: false; readonly error: string };

/** Starts to answer what the page asks, one question after the other. */
export const startWorker = (scope: {
  onmessage: ((event: { readonly data: Asked }) => void) | null;
  postMessage: (told: Told | Going) => void;
}): void => {
  const answers = coreAnswers();
  scope.onmessage = ({ data: { id, kind, ask } }) => {
    const tell = (progress: Progress): void => scope.postMessage({ id, progress });
    void (answers[kind] as (ask: unknown, tell: TellProgress) => Promise<unknown>)(ask, tell)
      .then((answer) => scope.postMessage({ id, ok: true, answer }))
      .catch((error: unknown) =>
        scope.postMessage({
          id,
          ok: false,
          error: error instanceof Error ? (error.stack ?? error.message) : String(error),
        }),
      );
  };
};
