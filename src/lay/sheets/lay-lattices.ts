import { bySize, layGreedily } from '../greedy.ts';
import { bestLattices } from '../lattice/best-lattices.ts';
import { latticeOn, type LatticePlace } from '../lattice/fill.ts';
import type { Lattice } from '../lattice/lattice.ts';
import { lay, type Layout, shapesOn } from '../layout.ts';
import type { StockTask } from './stock-task.ts';

/** Of fewer equal parts than this a search finds as good an order by itself. */
const MANY_EQUAL = 12;
/** So many of the densest lattices are tried on each kind of sheet. */
const TRIED = 8;

/** Parts that there are many of, the largest first: the numbers of their items. */
export const manyEqual = ({ partOf, request, areas }: StockTask, layout: Layout): number[][] => {
  const all = request.parts.map((): number[] => []);
  partOf.forEach((part, i) => {
    if (layout.task.groups?.[i] === undefined) (all[part] as number[]).push(i);
  });
  return all
    .map((items, part) => ({ items, area: areas[part] as number }))
    .filter(({ items }) => items.length >= MANY_EQUAL)
    .toSorted((a, b) => b.area - a.area)
    .map(({ items }) => items);
};

/** Lattices of shapes by the numbers of these: they are the same whatever they lie on. */
export type KnownLattices = Map<string, readonly Lattice[]>;

/** Whether what there are not many of is laid before the lattices, or after them. */
export type Others = 'before' | 'after';

/**
 * Lays parts that there are many of as lattices, as a shop repeats a pair that fits, sheet by sheet,
 * and greedily what of them is left on each sheet before the next one is begun.
 */
export const layLattices = (
  layout: Layout,
  many: readonly (readonly number[])[],
  sheets: readonly number[],
  { others, known }: { readonly others: Others; readonly known: KnownLattices },
): void => {
  const isMany = new Set(many.flat());
  const rest = bySize(layout).filter((i) => !isMany.has(i));
  if (others === 'before') layGreedily(layout, rest, sheets);
  for (const items of many) {
    let left: readonly number[] = items;
    for (const sheet of sheets) if (left.length > 0) left = layOn(layout, left, sheet, known);
  }
  if (others === 'after') layGreedily(layout, rest, sheets);
};

/** As many as the sheet takes, by the lattice that takes the most; gives the rest. */
const layOn = (
  layout: Layout,
  items: readonly number[],
  sheet: number,
  known: KnownLattices,
): readonly number[] => {
  const choices = shapesOn(layout, items[0] as number, sheet);
  if (choices.length === 0) return items;
  const places = mostPlaces(layout, latticesOf(layout, choices, known), sheet).slice(
    0,
    items.length,
  );
  places.forEach(({ shape, x, y }, k) => {
    lay(layout, items[k] as number, shape, sheet, x, y);
  });
  return layGreedily(layout, items.slice(places.length), [sheet]);
};

const latticesOf = (
  { noFits, task }: Layout,
  choices: readonly number[],
  known: KnownLattices,
): readonly Lattice[] => {
  const key = choices.join();
  const found = known.get(key) ?? bestLattices(noFits, task.shapes, choices, TRIED);
  known.set(key, found);
  return found;
};

/** Of equally many places those of the denser lattice. */
const mostPlaces = (
  layout: Layout,
  lattices: readonly Lattice[],
  sheet: number,
): readonly LatticePlace[] =>
  lattices
    .map((lattice) => latticeOn(layout, lattice, sheet))
    .reduce<readonly LatticePlace[]>((best, one) => (one.length > best.length ? one : best), []);
