/** What stands in the way of a part (`stop`), may spoil it (`warn`), or should be known (`note`). */
export type Severity = 'stop' | 'warn' | 'note';

/**
 * A fact about a part that its maker should read. A user's mistake is a finding, never an exception.
 */
export interface Finding {
  /** Stable name of the rule, in lower case with hyphens. Never reworded: job files silence warnings by it. */
  readonly rule: string;
  readonly severity: Severity;
  /** One plain sentence or two: what was given, what is allowed, and the mend with the figure that would pass. */
  readonly message: string;
  /** Where on the blank, mm, in the drawing's coordinates, when there is one place. */
  readonly at?: readonly [x: number, y: number];
}

export const stop = (rule: string, message: string): Finding => ({ rule, severity: 'stop', message });
export const warn = (rule: string, message: string): Finding => ({ rule, severity: 'warn', message });
export const note = (rule: string, message: string): Finding => ({ rule, severity: 'note', message });

export const hasStop = (findings: readonly Finding[]): boolean => findings.some((f) => f.severity === 'stop');
