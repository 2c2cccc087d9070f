/**
 * Severity of a finding: `stop` prevents making the part, `warn` may spoil it, and `note` should be
 * known.
 */
export type Severity = 'stop' | 'warn' | 'note';

/** What should be known of a rule of findings besides its name. */
export interface Rule {
  /** What it says, in a plain sentence. */
  readonly title: string;
  /** The severities that it may have: some rules stop a part in one case and warn in another. */
  readonly severities: readonly Severity[];
  /** What happens in the shop if nothing is changed. */
  readonly reason: string;
  /** What is compared with what. */
  readonly measured: string;
  /** What removes it. */
  readonly mend: string;
  /** Source of the limit: published, common practice, from memory, or plain geometry. */
  readonly source: string;
}

/**
 * A rule with its name, which is never reworded, since job files silence rules by it and programs
 * look for it.
 */
export interface NamedRule extends Rule {
  readonly rule: string;
}

/**
 * Parts of a rule for a part that cannot be cut and folded, which follows from its figures alone.
 */
export const IMPOSSIBLE = {
  severities: ['stop'],
  source: 'plain geometry',
} as const satisfies Partial<Rule>;

/** Parts of a rule for an input that was given and has no effect on this part. */
export const UNUSED = {
  severities: ['note'],
  reason: 'What you asked for is not on the part, and you may be counting on it.',
  measured: 'whether the part has anything that the input is for',
  source: 'how the family is built',
} as const satisfies Partial<Rule>;
