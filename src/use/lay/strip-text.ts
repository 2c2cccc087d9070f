import type { StripResult } from '../../contract/lay.ts';
import { figure } from '../../text/figures.ts';

/** What came of a strip, and where everything lies, as a person reads it. */
export const stripText = (result: StripResult): string => {
  const { usedLength, densityPercent, placements, seed, steps } = result;
  const rows = placements.map(({ item, x, y, turnDeg }) =>
    [String(item).padStart(6), ...[x, y].map((v) => v.toFixed(3).padStart(12)), turnDeg].join(' '),
  );
  return [
    `${figure(usedLength)} of the strip taken up, ${densityPercent.toFixed(2)} % of it used`,
    `${'item'.padStart(6)} ${'x'.padStart(12)} ${'y'.padStart(12)} turn`,
    ...rows,
    `The same again: --seed ${seed} --steps ${steps} --threads 1`,
  ].join('\n');
};
