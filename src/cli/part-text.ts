import { figure } from '../figures.ts';
import type { BendResult, PartResult } from '../result.ts';

/** One part as a person reads it: what was made, how it is folded, what to look out for. Plain text. */
export const partText = (part: PartResult, files: readonly string[]): string =>
  [heading(part), ...blankLines(part), ...part.bends.map(bendLine), ...findingLines(part), ...files.map((f) => `  wrote  ${f}`)].join('\n');

const heading = ({ name, family, hand, material, rule }: PartResult): string =>
  `${name} (${family}, ${hand} hand): ${material.id}, ${figure(material.thicknessMm, 3)} mm, bends by ${rule}`;

const blankLines = ({ blank, folded }: PartResult): string[] => {
  if (blank === null || folded === null) return [];
  const size = folded.sizeMm.map((v) => figure(v)).join(' x ');
  return [
    `  blank  ${figure(blank.widthMm)} x ${figure(blank.heightMm)} mm, ${figure(blank.massKg, 3)} kg, cut length ${figure(blank.cutLengthMm, 0)} mm, ${blank.pierces} ${blank.pierces === 1 ? 'pierce' : 'pierces'}`,
    `  folded ${size} mm outside`,
  ];
};

const bendLine = (b: BendResult): string =>
  `  fold   ${b.id}: ${figure(b.angleDeg)} deg ${b.direction}, inside radius ${figure(b.insideRadiusMm)}, allowance ${figure(b.allowanceMm, 3)}, setback ${figure(b.setbackMm, 3)}, deduction ${figure(b.deductionMm, 3)}, K ${figure(b.kFactor, 3)}`;

const findingLines = ({ findings }: PartResult): string[] => findings.map((f) => `  ${f.severity.padEnd(6)} ${f.message}`);
