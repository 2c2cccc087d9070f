import { createInterface } from 'node:readline';

/** One question, and what makes an answer invalid. */
export interface Question {
  readonly ask: string;
  /** How the answer is found, on a line of its own. */
  readonly help?: string | undefined;
  /** Whether an empty answer leaves it out. */
  readonly optional?: boolean;
  /** Why an answer is invalid; `undefined` when it is valid. */
  readonly wrong: (answer: string) => string | undefined;
}

/** The person who is asked: takes questions and gives answers, a line each. */
export interface Dialogue {
  readonly say: (text: string) => void;
  /** The next answer; `undefined` when there are no more. */
  readonly next: () => Promise<string | undefined>;
}

/** Asks on standard error and reads the answers from standard input. */
export const standardDialogue = (): Dialogue & { readonly close: () => void } => {
  const reader = createInterface({ input: process.stdin });
  const lines = reader[Symbol.asyncIterator]();
  return {
    say: (text) => process.stderr.write(text),
    next: async () => {
      const line = await lines.next();
      return line.done === true ? undefined : line.value;
    },
    close: () => reader.close(),
  };
};

/**
 * The answer to one question, asked until it is valid; empty where it was left out. `undefined` when
 * there are no more answers.
 */
export async function askOne(
  { ask, help, optional = false, wrong }: Question,
  { say, next }: Dialogue,
): Promise<string | undefined> {
  if (help !== undefined) say(`  ${help}\n`);
  for (;;) {
    say(`${ask}: `);
    const answer = (await next())?.trim();
    if (answer === undefined || (answer === '' && optional)) return answer;
    const why = answer === '' ? 'this one must be given' : wrong(answer);
    if (why === undefined) return answer;
    say(`${why}\n`);
  }
}
