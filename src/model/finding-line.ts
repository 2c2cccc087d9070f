import type { Finding } from './finding.ts';

/** Whether a finding is a caution, which is told apart from notes and before all else. */
export const isCaution = ({ rule }: Pick<Finding, 'rule'>): boolean => rule.startsWith('caution-');

/**
 * A finding as a line of plain text. Its rule stands behind it, so that more can be looked up; a
 * caution is complete in itself and has none.
 */
export const findingLine = ({
  severity,
  message,
  rule,
}: Pick<Finding, 'severity' | 'message' | 'rule'>): string =>
  `${isCaution({ rule }) ? 'CAUTION' : severity.padEnd(6)} ${withRule({ message, rule })}`;

/** A message with its rule behind it. */
export const withRule = ({ message, rule }: Pick<Finding, 'message' | 'rule'>): string =>
  isCaution({ rule }) ? message : `${message} [${rule}]`;
