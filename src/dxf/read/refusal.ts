/** A file that cannot be looked at: why, and the mend. */
export interface Refusal {
  readonly ok: false;
  readonly reason: string;
  readonly mend: string;
}

/** Carries a refusal up through the reader; whoever reads a file catches it by `unlessRefused`. */
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

/** What comes of reading a file, or why it was refused. */
export const unlessRefused = <T>(read: () => T): T | Refusal => {
  try {
    return read();
  } catch (error) {
    if (error instanceof Refused) return error.refusal;
    throw error;
  }
};
