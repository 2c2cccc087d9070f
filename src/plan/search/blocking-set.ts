import type { Machine } from '../../model/machine.ts';
import { FEW_FOLDS } from './conflicts.ts';
import type { FoldNet } from '../machines/net.ts';
import { foldBits } from '../machines/pre-fold.ts';
import { BUDGET, type Lattice, latticeOf } from './lattice.ts';
import type { Stroke } from './stroke.ts';

/**
 * A few folds that block each other in every order, whatever is done with all others; there is then
 * no order at all. `undefined` when no such few are found, which proves nothing. No fold is assumed
 * to help or hinder for good: only what the few folds alone decide is looked at, and everything
 * else counts as free.
 */
export function findBlockingSet(lattice: Lattice): readonly number[] | undefined {
  const folds = lattice.net.folds.map((_, i) => i);
  const grow = (
    chosen: readonly number[],
    from: number,
    size: number,
  ): readonly number[] | undefined => {
    if (chosen.length === size) return isBlockingSet(lattice, chosen) ? chosen : undefined;
    for (const fold of folds.slice(from)) {
      const found = grow([...chosen, fold], fold + 1, size);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  for (let size = 1; size <= FEW_FOLDS; size++) {
    const found = grow([], 0, size);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Whether some folds block each other in every order, whatever is done with all others. */
function isBlockingSet({ net, strokes }: Lattice, chosen: readonly number[]): boolean {
  const all = chosen.reduce((bits, f) => bits | foldBits(net, f), 0);
  const own = strokes.filter(({ bits }) => (bits & all) !== 0);
  const seen = new Set<number>();
  const canFinish = (made: number): boolean => {
    if (made === all) return true;
    if (seen.has(made)) return false;
    seen.add(made);
    return own.some(
      (s) =>
        (made & s.bits) === 0 &&
        (made & s.after) === s.after &&
        mayBeOpen(s, made, all) &&
        canFinish(made | (s.bits & all)),
    );
  };
  return !canFinish(0);
}

/**
 * Whether folds block each other in a part, or on a machine, much like one in which they do: that is
 * seen by their own strokes alone, long before all orders are tried.
 */
export function doBlock(
  net: FoldNet,
  machine: Machine,
  chosen: readonly number[],
): { readonly yes: boolean; readonly spent: number } {
  const lattice = latticeOf(
    net,
    machine,
    BUDGET,
    chosen.reduce((bits, f) => bits | (1 << f), 0),
  );
  return { yes: isBlockingSet(lattice, chosen), spent: lattice.spent() };
}

/** Other folds decide where the folds of a stroke lie, so whether they are in line is left open. */
const mayBeOpen = (stroke: Stroke, made: number, within: number): boolean =>
  stroke.folds.length > 1 || stroke.isClear(made, 0, within) || stroke.isClear(made, 1, within);
