import type { FoldNet } from '../machines/net.ts';
import { foldBits, preBit } from '../machines/pre-fold.ts';
import type { Effort, Verdict } from './conflicts.ts';

/** A verdict that was found before, and how many bodies were compared for it. */
interface Known {
  readonly verdict: Verdict;
  readonly contacts: number;
}

/** The most verdicts that are kept of one part. */
const MOST_KNOWN = 50_000;

const known = new WeakMap<FoldNet['folds'], WeakMap<FoldNet['panels'], Map<string, Known>>>();

const knownOf = ({ folds, panels }: FoldNet): Map<string, Known> => {
  const ofFolds = known.get(folds) ?? new WeakMap<FoldNet['panels'], Map<string, Known>>();
  known.set(folds, ofFolds);
  const found = ofFolds.get(panels) ?? new Map<string, Known>();
  ofFolds.set(panels, found);
  return found;
};

/**
 * A question about a part that may have been asked before: a part without an order is searched
 * again with folds made in two strokes, and again with the help of hands, and most of its strokes
 * stay as they were. What it cost then is counted again, so that a search within a budget ends where
 * it would have ended by itself.
 *
 * @param name all that the answer depends on but the part and its state
 */
export const askedBefore = (
  net: FoldNet,
  name: string,
  effort: Effort,
  ask: (made: number) => Verdict,
): ((made: number) => Verdict) => {
  const verdicts = knownOf(net);
  return (made) => {
    const key = `${name} ${stateOf(net, made)}`;
    const found = verdicts.get(key);
    if (found !== undefined) {
      effort.contacts += found.contacts;
      return found.verdict;
    }
    const before = effort.contacts;
    const verdict = ask(made);
    if (verdicts.size < MOST_KNOWN)
      verdicts.set(key, { verdict, contacts: effort.contacts - before });
    return verdict;
  };
};

/** The folds made and those made in part, whichever of them may be made in part. */
const stateOf = (net: FoldNet, made: number): string => {
  const { folds, preFolds = [] } = net;
  const inPart = preFolds
    .map((p) => p.fold)
    .filter((f) => (made & foldBits(net, f)) === preBit(net, f));
  return `${made & (2 ** folds.length - 1)} ${inPart.join()}`;
};

const numbers = new WeakMap<object, number>();
let count = 0;

/** A number for something that is told apart by what it is, not by what is in it. */
export const numberOf = (thing: object): number => {
  const found = numbers.get(thing) ?? (count += 1);
  numbers.set(thing, found);
  return found;
};
