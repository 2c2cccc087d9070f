import { figure } from '../text/figures.ts';
import { type ParsedNumber, parseAngle, parseLength, parseNumber } from '../text/units.ts';
import type { FieldFacts, FieldKind } from './field.ts';

/**
 * What was given without the `+-` part; and that part, in mm, degrees or as a plain number, where
 * there is one.
 */
export type PlusMinus =
  | { readonly ok: true; readonly value: unknown; readonly plusMinus?: number }
  | { readonly ok: false; readonly allowed: string; readonly mend: string };

const SIGN = /^(.*?)(?:\+-|\+\/-|±)(.*)$/s;

/**
 * For each kind of input: how the text behind the sign is read, the most it may be, and what it may
 * look like.
 */
const READERS: Partial<
  Record<
    FieldKind,
    {
      readonly read: (text: string) => ParsedNumber;
      readonly most: number;
      readonly example: string;
    }
  >
> = {
  length: { read: parseLength, most: 100, example: '240+-1' },
  angle: { read: parseAngle, most: 45, example: '90+-0.5' },
  thickness: { read: parseLength, most: 5, example: '3+-0.1' },
  rule: { read: parseNumber, most: 0.5, example: 'k:0.42+-0.02' },
};

/**
 * Takes `240+-1`, `240 +/- 1` or `12deg±0.5` apart. A number behind the sign has a unit of its own,
 * millimetres or degrees without one. Inputs of other kinds, lists of holes and points among them,
 * have no such sign.
 */
export const takePlusMinus = (facts: FieldFacts, given: unknown): PlusMinus => {
  const reader = READERS[facts.kind];
  const parts = typeof given === 'string' ? SIGN.exec(given) : null;
  if (reader === undefined || parts === null) return { ok: true, value: given };
  const [, before = '', behind = ''] = parts;
  const wrong = (mend: string): PlusMinus => ({
    ok: false,
    allowed: `${facts.allowed}, and behind +- how far it may be off`,
    mend,
  });
  if (behind.trim() === '')
    return wrong(`write how far it may be off behind the sign, such as ${reader.example}`);
  if (/^\s*[-+]/.test(behind))
    return wrong(
      `write how far it may be off without a sign of its own, such as ${reader.example}`,
    );
  const read = reader.read(behind.trim());
  if (!read.ok) return wrong(`behind the +-: ${read.reason}`);
  if (read.value < 0)
    return wrong(
      `write how far it may be off without a sign of its own, such as ${reader.example}`,
    );
  return read.value > reader.most
    ? wrong(`write ${figure(reader.most)} or less behind the +-`)
    : { ok: true, value: before.trim(), plusMinus: read.value };
};
