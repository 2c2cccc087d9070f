/**
 * What stands in the way of a part (`stop`), may spoil it (`warn`), or should be known (`note`).
 */
export type Severity = 'stop' | 'warn' | 'note';

/** What is to be known of a rule of findings beside its name. */
export interface Rule {
  /** What it says, in a plain sentence. */
  readonly title: string;
  /** How it may be told: some rules stop a part in one case and warn in another. */
  readonly severities: readonly Severity[];
  /** What happens in the shop when it is left as it is. */
  readonly reason: string;
  /** What is compared with what. */
  readonly measured: string;
  /** What does away with it. */
  readonly mend: string;
  /** Where the limit comes from: published, common practice, from memory, or plain geometry. */
  readonly source: string;
}

/** A rule with its name, which is never reworded: job files silence by it, programs look for it. */
export interface NamedRule extends Rule {
  readonly rule: string;
}

/** A part with this is none that could be cut and folded, which follows from its figures alone. */
export const IMPOSSIBLE = {
  severities: ['stop'],
  source: 'plain geometry',
} as const satisfies Partial<Rule>;

/** An input that was given and does nothing on this part. */
export const UNUSED = {
  severities: ['note'],
  reason: 'What you asked for is not on the part, and you may be counting on it.',
  measured: 'whether the part has anything that the input is for',
  source: 'how the family is built',
} as const satisfies Partial<Rule>;
