import { figure } from '../../text/figures.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { KeyedHole } from './hole-keys.ts';
import type { Side, Tick } from './running-sizes.ts';

/** Nearer to each other than this, mm, two sizes are one. */
const SAME_TICK_MM = 0.05;
const PARALLEL_MM = 0.05;
/** More holes than these are found by their names in the table. */
export const MOST_HOLES = 6;
/** Corners so near to a fold line belong to its relief: they are cut, not marked. */
const BESIDE_FOLD_MM = 5;
/** More corners than these say little. */
const MOST_EDGES = 10;

/**
 * What is measured from the left and from the lower edge of a blank: folds and corners below and to
 * the left, holes above and to the right. Extension lines begin on the blank, mm.
 */
export const blankTicks = (
  flat: FlatPattern,
  holes: readonly KeyedHole[],
): Readonly<Record<Side, readonly Tick[]>> => {
  const few = holes.length <= MOST_HOLES ? holes : [];
  return {
    below: along(flat, 0),
    left: along(flat, 1),
    above: merged(few.map(({ key, centre: [x, y] }) => ({ mm: x, from: y, text: key, rank: 1 }))),
    right: merged(few.map(({ key, centre: [x, y] }) => ({ mm: y, from: x, text: key, rank: 1 }))),
  };
};

/** Folds that run square to an axis, and corners of the outline between them. */
const along = (flat: FlatPattern, axis: 0 | 1): readonly Tick[] => {
  const other = axis === 0 ? 1 : 0;
  const [size, acrossMm] =
    axis === 0 ? [flat.widthMm, flat.heightMm] : [flat.heightMm, flat.widthMm];
  const folds = merged(
    flat.bends.flatMap(({ id, centreLine: [p, q] }): Tick[] =>
      Math.abs(p[axis] - q[axis]) < PARALLEL_MM
        ? [{ mm: (p[axis] + q[axis]) / 2, from: Math.min(p[other], q[other]), text: id, rank: 1 }]
        : [],
    ),
  );
  const corners = sharpCorners(flat.outline)
    .map(([x, y]) => ({ mm: axis === 0 ? x : y, from: axis === 0 ? y : x }))
    // Lines from the far half would run through all that is drawn.
    .filter(
      ({ mm, from }) => mm > SAME_TICK_MM && mm < size - SAME_TICK_MM && from <= acrossMm / 2,
    );
  const edges = merged(
    corners
      .filter(({ mm }) => folds.every((f) => Math.abs(f.mm - mm) > BESIDE_FOLD_MM))
      .map((c) => ({ ...c, text: '', rank: 2 })),
  );
  return [...folds, ...(edges.length > MOST_EDGES ? [] : edges)];
};

/** Where two straight edges meet that are no relief: what can be measured with a rule. */
const sharpCorners = (outline: FlatPattern['outline']): Vec2[] =>
  outline
    .filter((vertex, i) =>
      [vertex, outline.at(i - 1)].every(
        (v) => v !== undefined && v.bulge === 0 && v.origin.kind !== 'relief',
      ),
    )
    .map(({ x, y }): Vec2 => [x, y]);

/** Sizes that are the same are written once, with all names. */
const merged = (ticks: readonly Tick[]): Tick[] => {
  const found: { mm: number; from: number; names: string[]; rank: number }[] = [];
  for (const { mm, from, text, rank } of ticks.toSorted((a, b) => a.mm - b.mm)) {
    const last = found.at(-1);
    if (last !== undefined && mm - last.mm < SAME_TICK_MM) {
      last.from = Math.min(last.from, from);
      if (text !== '') last.names.push(text);
    } else found.push({ mm, from, names: text === '' ? [] : [text], rank });
  }
  return found.map(({ mm, from, names, rank }) => ({
    mm,
    from,
    rank,
    text: [namesText(names), figure(mm, 1)].filter((t) => t !== '').join('  '),
  }));
};

const namesText = (names: readonly string[]): string =>
  names.length > 3 ? `${names.slice(0, 2).join(' ')} ... ${names.at(-1)}` : names.join(' ');
