import type { Going, Told } from '../core/worker.ts';
import type { TellProgress } from '../model/progress.ts';
import type { Kind, Questions } from '../core/questions.ts';

interface Waiting {
  readonly kind: Kind;
  readonly ask: unknown;
  /** Questions of one key: only the newest that waits is asked. */
  readonly key: string;
  readonly tell: (told: Told) => void;
  readonly onProgress: TellProgress | undefined;
}

interface Asking {
  readonly key?: string;
  readonly stops?: boolean;
  /** Is told how far the answer is, where that is counted. */
  readonly onProgress?: TellProgress;
}

/**
 * One core at work beside the page. It answers one question after the other; of those that wait
 * under the same key only the newest is asked, so that a fast typist is never behind.
 */
export class Core {
  readonly #source: string;
  #worker: Worker | undefined;
  #asked: { readonly id: number; readonly waiting: Waiting; readonly since: number } | undefined;
  #waiting: Waiting[] = [];
  #count = 0;

  /** `source` is the code of the worker. */
  constructor(source: string) {
    this.#source = source;
  }

  /**
   * The answer, or `undefined` where a newer question of the same key took this one's place. With
   * `stops`, what the core is doing under the same key is stopped, however far it is.
   */
  ask<K extends Kind>(
    kind: K,
    ask: Questions[K]['ask'],
    { key = kind, stops = false, onProgress }: Asking = {},
  ): Promise<Questions[K]['answer'] | undefined> {
    return new Promise((resolve, reject) => {
      this.#drop(key);
      if (
        stops &&
        this.#asked?.waiting.key === key &&
        performance.now() - this.#asked.since > STOP_MS
      )
        this.#stop();
      this.#waiting.push({
        kind,
        ask,
        key,
        onProgress,
        tell: (told) => {
          if (told.ok) resolve(told.answer as Questions[K]['answer'] | undefined);
          else reject(new Error(told.error));
        },
      });
      this.#next();
    });
  }

  /** Stops what is asked under a key, whether it waits or is being worked at: it is not answered. */
  stop(key: string): void {
    this.#drop(key);
    if (this.#asked?.waiting.key === key) this.#stop();
    this.#next();
  }

  #drop(key: string): void {
    const dropped = this.#waiting.filter((w) => w.key === key);
    this.#waiting = this.#waiting.filter((w) => w.key !== key);
    for (const { tell } of dropped) tell({ id: 0, ok: true, answer: undefined });
  }

  #next(): void {
    const waiting = this.#asked === undefined ? this.#waiting.shift() : undefined;
    if (waiting === undefined) return;
    const id = ++this.#count;
    this.#asked = { id, waiting, since: performance.now() };
    this.#started().postMessage({ id, kind: waiting.kind, ask: waiting.ask });
  }

  #started(): Worker {
    if (this.#worker !== undefined) return this.#worker;
    const url = URL.createObjectURL(new Blob([this.#source], { type: 'text/javascript' }));
    const worker = new Worker(url);
    worker.onmessage = ({ data }: MessageEvent<Told | Going>) => this.#told(data);
    worker.onerror = (event) =>
      this.#told({ id: this.#asked?.id ?? 0, ok: false, error: event.message });
    URL.revokeObjectURL(url);
    this.#worker = worker;
    return worker;
  }

  #told(told: Told | Going): void {
    const asked = this.#asked;
    if (asked === undefined || asked.id !== told.id) return;
    if ('progress' in told) {
      asked.waiting.onProgress?.(told.progress);
      return;
    }
    this.#asked = undefined;
    asked.waiting.tell(told);
    this.#next();
  }

  #stop(): void {
    const asked = this.#asked;
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#asked = undefined;
    asked?.waiting.tell({ id: asked.id, ok: true, answer: undefined });
  }
}

/** Work that has been going on for less is let finish: to start a core takes about as long. */
const STOP_MS = 400;
