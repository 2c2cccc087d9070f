import type { Finding } from './finding.ts';

/**
 * A finding in a line of plain text, its rule behind it, by which more of it can be looked up. A
 * caution says all that there is to it.
 */
export const findingLine = ({
  severity,
  message,
  rule,
}: Pick<Finding, 'severity' | 'message' | 'rule'>): string =>
  `${severity.padEnd(6)} ${withRule({ message, rule })}`;

/** A message with its rule behind it. */
export const withRule = ({ message, rule }: Pick<Finding, 'message' | 'rule'>): string =>
  rule.startsWith('caution-') ? message : `${message} [${rule}]`;
