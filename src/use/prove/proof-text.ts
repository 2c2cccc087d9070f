import { findingLine } from '../../model/finding-line.ts';
import { calledOf } from '../../model/hole-names.ts';
import type { Proof } from '../../contract/proof.ts';
import { isAngleOff, isOff } from '../../proof/proof.ts';
import { figure } from '../../text/figures.ts';

/** A proof as a person reads it: each measure as it was asked for and found, and what is wrong. */
export const proofText = (name: string, { worstMm, measures, angles, findings }: Proof): string => {
  const rows = [
    ...measures.map((m) => [
      calledOf(m),
      fixed(m.askedMm),
      fixed(m.foundMm),
      fixed(m.foundMm === null ? null : m.foundMm - m.askedMm),
      isOff(m) ? '<--' : '',
    ]),
    ...angles.map((a) => [
      `${a.name}, degrees`,
      fixed(a.askedDeg),
      fixed(a.foundDeg),
      fixed(a.foundDeg === null ? null : a.foundDeg - a.askedDeg),
      isAngleOff(a) ? '<--' : '',
    ]),
  ] as const;
  const widest = Math.max(...rows.map(([what]) => (what as string).length));
  const line = ([what, asked, found, off, flag]: readonly string[]): string =>
    `  ${(what as string).padEnd(widest)} ${asked} ${found} ${off} ${flag}`.trimEnd();
  return [
    `${name}, folded up from its file`,
    line(['mm', 'asked'.padStart(WIDTH), 'found'.padStart(WIDTH), 'off by'.padStart(WIDTH), '']),
    ...rows.map(line),
    `Worst difference: ${figure(worstMm, 4)} mm`,
    ...findings.map((f) => `  ${findingLine(f)}`),
  ].join('\n');
};

const WIDTH = 11;

const fixed = (value: number | null): string => {
  const text = value === null ? 'none' : value.toFixed(3);
  return (text === '-0.000' ? '0.000' : text).padStart(WIDTH);
};
