import { askOne, type Dialogue } from './dialogue.ts';
import type { Asked } from '../use/shop/shop-questions.ts';

/** The questions are over: broken off by the word for it, or because there are no more answers. */
export class Over extends Error {
  readonly isKept: boolean;

  constructor(isKept: boolean) {
    super(isKept ? 'no more questions are wanted' : 'the answers ended');
    this.isKept = isKept;
  }
}

/** The word that breaks the questions off and keeps what was answered. */
export const DONE = 'done';

export interface Session {
  readonly say: Dialogue['say'];
  /**
   * The answer to a question, asked again until it is valid; `undefined` where it was left empty.
   * Throws `Over` when the questions are broken off.
   */
  readonly ask: <T>(question: Asked<T>) => Promise<T | undefined>;
}

/** Asks in a dialogue, with the way out at every question. */
export const sessionOf = (dialogue: Dialogue): Session => ({
  say: dialogue.say,
  ask: async <T>({ ask, help, read, isNeeded = false }: Asked<T>) => {
    const isDone = (text: string): boolean => text.toLowerCase() === DONE;
    const text = await askOne(
      {
        ask,
        help,
        optional: !isNeeded,
        wrong: (given) => {
          const answer = read(given);
          return isDone(given) || answer.ok ? undefined : answer.why;
        },
      },
      dialogue,
    );
    if (text === undefined) throw new Over(false);
    if (isDone(text)) throw new Over(true);
    const answer = text === '' ? undefined : read(text);
    return answer?.ok === true ? answer.value : undefined;
  },
});
