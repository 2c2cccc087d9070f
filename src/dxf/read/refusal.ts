/** A file that cannot be read: the reason and the mend. */
export interface Refusal {
  readonly ok: false;
  readonly reason: string;
  readonly mend: string;
}

/** Carries a refusal up through the reader; `unlessRefused` catches it. */
class Refused extends Error {
  readonly refusal: Refusal;

  constructor(reason: string, mend: string) {
    super(reason);
    this.refusal = { ok: false, reason, mend };
  }
}

export const refuse = (reason: string, mend: string): never => {
  throw new Refused(reason, mend);
};

/** The result of reading a file, or why the file was refused. */
export const unlessRefused = <T>(read: () => T): T | Refusal => {
  try {
    return read();
  } catch (error) {
    if (error instanceof Refused) return error.refusal;
    throw error;
  }
};
