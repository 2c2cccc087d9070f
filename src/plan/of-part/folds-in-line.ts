import { cross, dot, middle, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { NEARLY_PARALLEL_SINE, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Fold } from '../../model/part.ts';
import { byKey } from '../../text/grouped.ts';

/** Folds that are made at one stroke as if they were one, with the line from the first to the last. */
export interface FoldLine {
  readonly folds: readonly Fold[];
  readonly centreLine: readonly [Vec2, Vec2];
}

/**
 * Folds of one panel that lie on one line in the blank and are alike in angle, direction and radius,
 * taken together; any other fold stands alone. A leaf bends all that lies in front of it, so that
 * nobody makes a row of tabs one by one; and that is why a row ends where a fold of another kind
 * lies on its line.
 *
 * @param homeOf the panel that a panel stays flat with
 */
export function foldLines(
  folds: readonly Fold[],
  { bends }: FlatPattern,
  homeOf: (panel: string) => string,
): FoldLine[] {
  const lines: Fold[][] = [];
  const bendOf = (fold: Fold): FlatBend => bends.find((b) => b.id === fold.id) as FlatBend;
  for (const fold of folds) {
    const line = lines.find(
      ([first]) =>
        first !== undefined &&
        homeOf(first.parent.panel) === homeOf(fold.parent.panel) &&
        isAlike(first, fold) &&
        isInLine(bendOf(first), bendOf(fold)),
    );
    if (line === undefined) lines.push([fold]);
    else line.push(fold);
  }
  const rows = lines.flatMap((line) =>
    rowsOf(
      line,
      folds.filter((fold) => !line.includes(fold)),
      bendOf,
    ),
  );
  return rows.map((line) => ({ folds: line, centreLine: span(line.map(bendOf)) }));
}

/** The folds of a line, parted where one of some others lies between them. */
function rowsOf(
  line: readonly Fold[],
  others: readonly Fold[],
  bendOf: (fold: Fold) => FlatBend,
): Fold[][] {
  const first = bendOf(line[0] as Fold);
  const [from, to] = first.centreLine;
  const alongMm = (fold: Fold): number =>
    dot(unit(sub(to, from)), sub(middle(...bendOf(fold).centreLine), from));
  const between = others.filter((fold) => isOnLine(first, bendOf(fold))).map(alongMm);
  const rowOf = (mm: number): number => between.filter((other) => other < mm).length;
  return [...byKey(line, (fold) => rowOf(alongMm(fold))).values()];
}

const isAlike = (a: Fold, b: Fold): boolean =>
  a.angleDeg === b.angleDeg &&
  a.direction === b.direction &&
  a.insideRadiusMm === b.insideRadiusMm &&
  a.teardropMm === b.teardropMm;

const isInLine = (a: FlatBend, b: FlatBend): boolean =>
  isOnLine(a, b) &&
  dot(sub(a.centreLine[1], a.centreLine[0]), sub(b.centreLine[1], b.centreLine[0])) > 0;

/** The same, whichever way either runs. */
const isOnLine = ({ centreLine: [p, q] }: FlatBend, { centreLine: [r, s] }: FlatBend): boolean => {
  const dir = unit(sub(q, p));
  const other = unit(sub(s, r));
  return (
    Math.abs(cross(dir, other)) < NEARLY_PARALLEL_SINE &&
    Math.abs(cross(dir, sub(r, p))) < SAME_LENGTH_MM &&
    Math.abs(cross(dir, sub(s, p))) < SAME_LENGTH_MM
  );
};

const span = (bends: readonly FlatBend[]): readonly [Vec2, Vec2] => {
  const [[p, q]] = bends.map((b) => b.centreLine) as [readonly [Vec2, Vec2]];
  const dir = unit(sub(q, p));
  const ends = bends
    .flatMap((b) => b.centreLine)
    .toSorted((a, b) => dot(dir, sub(a, p)) - dot(dir, sub(b, p)));
  return [ends[0] as Vec2, ends.at(-1) as Vec2];
};
