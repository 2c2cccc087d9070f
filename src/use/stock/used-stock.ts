import type { UsedStock } from '../../contract/stock.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Loop } from '../../geometry/loop.ts';
import { SAME_IN_FILE_MM } from '../../geometry/tolerance.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { StockPiece } from '../../model/stock.ts';
import { grouped } from '../../text/grouped.ts';
import type { Refused } from '../use-case.ts';

/** What a layout uses of a stock, or why it is not the stock that it was made on. */
export const usedOf = (
  sheets: readonly LaidSheet[],
  stock: readonly StockPiece[],
  shopFile: string,
): Refused | { readonly ok: true; readonly used: readonly UsedStock[] } => {
  const all = grouped(sheets, ({ stock: { name } }) => name).map((same) =>
    useOf(same, stock, shopFile),
  );
  const problems = all.flatMap((one) => ('input' in one ? [one] : []));
  return problems.length > 0
    ? { ok: false, problems }
    : { ok: true, used: all.flatMap((one) => ('input' in one ? [] : [one])) };
};

/** What is used of one name. */
const useOf = (
  same: readonly LaidSheet[],
  stock: readonly StockPiece[],
  shopFile: string,
): UsedStock | InputProblem => {
  const [{ stock: laid }] = same as readonly [LaidSheet];
  const problem = (given: string): InputProblem => ({
    input: 'take',
    given,
    allowed: `stock as it is in ${shopFile}`,
    mend: 'lay the parts out again',
  });
  const there = stock.find(({ name }) => name === laid.name);
  if (there === undefined) return problem(`a layout on ${laid.name}, which is not there any more`);
  if (same.some((sheet) => !isSamePiece(sheet.stock, there)))
    return problem(`a layout on ${laid.name} as it was before it was changed`);
  if (there.isRemnant && same.length > 1)
    return problem(`a layout on ${laid.name} ${same.length} times, of which there is one`);
  const { name, isRemnant, count } = there;
  return {
    stock: name,
    isRemnant,
    count: same.length,
    left: count === undefined ? null : Math.max(0, count - same.length),
    bought: count === undefined ? 0 : Math.max(0, same.length - count),
  };
};

/** Whether two are the same piece; how many there are may differ. */
const isSamePiece = (a: StockPiece, b: StockPiece): boolean =>
  a.isRemnant === b.isRemnant &&
  a.material === b.material &&
  a.thicknessMm === b.thicknessMm &&
  a.grain === b.grain &&
  a.holes.length === b.holes.length &&
  areSame(a.outline, b.outline) &&
  a.holes.every((hole, i) => areSame(hole, b.holes[i] ?? []));

const areSame = (a: Loop, b: Loop): boolean =>
  a.length === b.length &&
  a.every((v, i) => {
    const w = b[i];
    return (
      w !== undefined &&
      Math.hypot(v.x - w.x, v.y - w.y) <= SAME_IN_FILE_MM &&
      Math.abs(v.bulge - w.bulge) <= SAME_IN_FILE_MM
    );
  });
