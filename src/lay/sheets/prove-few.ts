import { lay, type Sheet } from '../layout.ts';
import { putBack } from '../separate.ts';
import type { Shape } from '../shapes.ts';
import { usedSheets } from './aim.ts';
import { type Corner, type FewRectangle, layFew, type Room } from './few-rectangles.ts';
import { isAnyOut, type Search, setsBelow, took, widen } from './search.ts';
import { remnantSheets } from './sheet-sets.ts';

/** So many rectangles are decided exactly. */
const FEW = 8;
/** Steps for each choice of sheets. */
const MOST_STEPS = 100_000;

/**
 * Where a few rectangles lie on rectangles, decides each cheaper choice of sheets exactly, and lays
 * them on the cheapest that takes them. Whether no cheaper one is left to be tried.
 */
export const proveFew = (search: Search): boolean => {
  const { layout, stock } = search;
  if (isAnyOut(search) || layout.count > FEW || layout.task.groups?.some((g) => g !== undefined))
    return false;
  putBack(layout, search.best);
  const rectangles = Array.from({ length: layout.count }, (_, i) => rectangleOf(search, i));
  const used = [...usedSheets(layout), ...remnantSheets(stock)];
  const arePlain = used.every((k) => (layout.task.sheets[k] as Sheet).fixed.length === 0);
  if (!arePlain || rectangles.some((r) => r === undefined)) return false;
  const { sets, areAll } = setsBelow(search);
  let isProved = areAll;
  // The cheapest first: the first that takes them all is the best there is.
  for (const set of sets.toReversed()) {
    if (!search.mayGoOn()) return false;
    const sheets = [...remnantSheets(stock), ...set.sheets];
    const answer = decide(search, rectangles as readonly FewOn[], sheets);
    if (answer === 'not decided') isProved = false;
    else if (answer !== 'no') {
      layAt(search, rectangles as readonly FewOn[], sheets, answer);
      layout.open.splice(0, Infinity, ...sheets);
      took(search);
      return isProved;
    }
  }
  return isProved;
};

/** A part that is a rectangle, and how it lies upright and after a quarter turn. */
interface FewOn {
  readonly upright: number;
  readonly turned: number | undefined;
  /** How far the shape reaches beyond the part all round: half the gap. */
  readonly size: Omit<FewRectangle, 'rooms'>;
  /** Kinds of sheets that it may lie on in both turns, or in the only one. */
  readonly kinds: ReadonlySet<number>;
}

const rectangleOf = ({ layout: { task } }: Search, i: number): FewOn | undefined => {
  const choices = task.items[i] as readonly (readonly number[])[];
  const all = [...new Set(choices.flat())];
  const upright = all.find((s) => (task.shapes[s] as Shape).turnDeg % 180 === 0) ?? all[0];
  if (upright === undefined || all.length > 2) return undefined;
  if (all.some((s) => !isBox(task.shapes[s] as Shape))) return undefined;
  // Where only one of two turns is allowed on some sheets, it is left to the search.
  const kinds = choices.flatMap((c, k) => (c.length === all.length ? [k] : []));
  if (choices.some((c) => c.length > 0 && c.length < all.length)) return undefined;
  const { minX, maxX, minY, maxY } = task.shapes[upright] as Shape;
  return {
    upright,
    turned: all.find((s) => s !== upright),
    size: { length: maxX - minX, width: maxY - minY, mayTurn: all.length === 2 },
    kinds: new Set(kinds),
  };
};

const isBox = ({ pieces, outline, turnDeg }: Shape): boolean =>
  pieces.length === 1 &&
  pieces[0]?.length === 4 &&
  outline.holes.length === 0 &&
  turnDeg % 90 === 0;

/** Beyond half the gap a rectangle grows by the tolerance of its arcs alone. */
const grownBy = ({ layout: { task } }: Search, { upright }: FewOn): number => {
  const { pieces, maxX } = task.shapes[upright] as Shape;
  return Math.max(...pieces.flat().map(([x]) => x)) - maxX;
};

const decide = (
  search: Search,
  rectangles: readonly FewOn[],
  sheets: readonly number[],
): ReturnType<typeof layFew> => {
  const { task } = search.layout;
  const by = grownBy(search, rectangles[0] as FewOn);
  const rooms = sheets.map((k): Room => {
    const { length, width } = task.sheets[k] as Sheet;
    return { length: length + 2 * by, width: width + 2 * by };
  });
  const few = rectangles.map(({ size, kinds }): FewRectangle => ({
    length: size.length + 2 * by,
    width: size.width + 2 * by,
    mayTurn: size.mayTurn,
    rooms: sheets.flatMap((k, n) => (kinds.has((task.sheets[k] as Sheet).kind) ? [n] : [])),
  }));
  return layFew(few, rooms, MOST_STEPS);
};

const layAt = (
  search: Search,
  rectangles: readonly FewOn[],
  sheets: readonly number[],
  corners: readonly Corner[],
): void => {
  const { layout } = search;
  widen(search);
  corners.forEach(({ room, x, y, isTurned }, i) => {
    const { upright, turned } = rectangles[i] as FewOn;
    const shape = isTurned ? (turned as number) : upright;
    const { minX, minY } = layout.task.shapes[shape] as Shape;
    lay(layout, i, shape, sheets[room] as number, x - minX, y - minY);
  });
};
