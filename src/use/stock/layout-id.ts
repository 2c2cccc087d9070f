import type { Loop } from '../../geometry/loop.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { PartOutlines } from '../../stock/left.ts';
import { digestOf } from './record.ts';

/** Letters of the identity; two layouts of one shop share one by chance in 10^14. */
const LETTERS = 12;

/**
 * The identity of what is cut: names, copies and outlines of all parts with their sheets'
 * material and thickness, whatever they lie on. Laid out once more on the stock that is left, the
 * same parts are the same layout, and so they are not booked twice.
 */
export const layoutId = async (
  sheets: readonly LaidSheet[],
  outlines: PartOutlines,
): Promise<string> => {
  const cut = sheets.flatMap(({ material, thicknessMm, parts }) =>
    parts.map(({ name, copy }) => {
      const shape = outlines.get(name);
      const loops = shape === undefined ? [] : [shape.outline, ...shape.holes];
      return JSON.stringify([material, thicknessMm, name, copy, loops.map(figuresOf)]);
    }),
  );
  return (await digestOf(cut.toSorted().join('\n'))).slice(0, LETTERS);
};

/** Figures of a loop, rounded to what does not hang on the engine. */
const figuresOf = (loop: Loop): readonly string[] =>
  loop.map(({ x, y, bulge }) =>
    [x, y, bulge].map((n) => n.toFixed(3).replace(/^-0\.000$/, '0.000')).join(' '),
  );
