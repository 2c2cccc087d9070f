/** A file that cannot be looked at: why, and the mend. */
export interface Refusal {
  readonly ok: false;
  readonly reason: string;
  readonly mend: string;
}

/** Carries a refusal up through the reader; caught by `inspectDxf`, and never seen outside of it. */
export class Refused extends Error {
  readonly refusal: Refusal;

  constructor(reason: string, mend: string) {
    super(reason);
    this.refusal = { ok: false, reason, mend };
  }
}

export const refuse = (reason: string, mend: string): never => {
  throw new Refused(reason, mend);
};
