import type { Blocked, FoldPlan } from '../../contract/fold-plan.ts';
import type { Machine } from '../../model/machine.ts';
import { figure } from '../../text/figures.ts';
import { type Allowance, allowance, canFold, shorterFlangeMm } from '../search/suggest.ts';
import { beyondCapacity } from './capacity.ts';
import { netFor, type PartPlan, setUpFor, setUpsOf } from './part-plan.ts';
import type { PartToFold } from './plan-steps.ts';
import { withoutFolds } from './pieces.ts';

/** A change that was tried, and with which the whole plan was made. */
interface Suggestion {
  /** Completes "to fold it, ...". */
  readonly text: string;
  /** The panel that it changes, where it changes one. */
  readonly panel: string | null;
}

/**
 * The same plan with the changes that would help, each of them tried by all that a plan is made by:
 * strength and length of the machine, and an order of folds on it.
 */
export function withSuggestions(
  fold: PartToFold,
  { plan, machine }: PartPlan,
  machines: readonly Machine[],
): FoldPlan {
  if (plan.feasible !== false) return plan;
  const found = suggestionsFor(fold, machine, machines);
  const forBlocked = ({ touches, bend, suggestion }: Blocked): string | null => {
    const own = found.filter(
      (s) =>
        s.panel === null ||
        s.panel === touches ||
        fold.part.folds.some(
          (f) =>
            bend.split(' + ').includes(f.id) &&
            [f.parent.panel, f.child.panel].includes(s.panel ?? ''),
        ),
    );
    const all = [...own.map((s) => s.text), ...(suggestion === null ? [] : [suggestion])];
    return all.length === 0 ? null : all.join('; or ');
  };
  return { ...plan, blockedBy: plan.blockedBy.map((b) => ({ ...b, suggestion: forBlocked(b) })) };
}

/** Whether a plan can be made on a machine as it is set up. */
const canBeFolded = (fold: PartToFold, machine: Machine, allowed: Allowance): boolean =>
  beyondCapacity(fold, machine).length === 0 &&
  canFold(netFor(fold, machine).net, machine, allowed);

/**
 * The smallest changes that would help: another set-up of the machine, another machine of the shop
 * with any of its tools, one flange shorter, or a weld seam in place of one fold.
 */
const suggestionsFor = (
  fold: PartToFold,
  machine: Machine,
  machines: readonly Machine[],
): Suggestion[] => {
  const { net } = netFor(fold, machine);
  const allowed = allowance();
  const isStrong = beyondCapacity(fold, machine).length === 0;
  const owned = [machine, ...machines.filter((m) => m.id !== machine.id)];
  const seams = fold.part.folds.filter(({ id }) =>
    withoutFolds(fold, [id]).every((piece) =>
      owned.some((m) => canBeFolded(piece, setUpFor(piece, m), allowed)),
    ),
  );
  return [
    ...otherwiseSetUp(fold, machine, allowed),
    ...elsewhere(
      fold,
      machines.filter((m) => m.id !== machine.id),
      allowed,
    ),
    ...(isStrong ? net.panels : []).flatMap(({ id }, panel): Suggestion[] => {
      const mm = shorterFlangeMm(net, machine, panel, allowed);
      return mm === undefined
        ? []
        : [{ text: `make ${id} ${figure(mm, 1)} mm shorter`, panel: id }];
    }),
    ...seams.map(({ id }) => forAll(`make it in two pieces with a weld seam at fold ${id}`)),
  ];
};

const forAll = (text: string): Suggestion => ({ text, panel: null });

const otherwiseSetUp = (fold: PartToFold, machine: Machine, allowed: Allowance): Suggestion[] => {
  if (machine.kind === 'folder')
    return machine.section === undefined &&
      machine.isLeafBarFitted.value &&
      canBeFolded(
        fold,
        { ...machine, isLeafBarFitted: { ...machine.isLeafBarFitted, value: false } },
        allowed,
      )
      ? [forAll('take the bar off the leaf')]
      : [];
  return setUpsOf(machine)
    .filter((m) => canBeFolded(fold, m, allowed))
    .map((m) => forAll(`use the punch ${punchOf(m)}`));
};

const elsewhere = (
  fold: PartToFold,
  machines: readonly Machine[],
  allowed: Allowance,
): Suggestion[] =>
  machines.flatMap((given) => {
    const usual = setUpFor(fold, given);
    const found = [usual, ...setUpsOf(usual)].find((m) => canBeFolded(fold, m, allowed));
    if (found === undefined) return [];
    const punch = found === usual ? '' : `, with the punch ${punchOf(found)}`;
    return [forAll(`fold it on ${given.name}${punch}`)];
  });

const punchOf = (machine: Machine): string => (machine.kind === 'folder' ? '' : machine.punch);
