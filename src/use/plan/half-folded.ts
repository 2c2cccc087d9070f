import type { FoldPlan, Rescue } from '../../contract/fold-plan.ts';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Machine } from '../../model/machine.ts';
import { finishOnShop, rescuesOf } from '../../plan/of-part/half-folded.ts';
import type { PartToFold } from '../../plan/of-part/plan-steps.ts';
import { nearest } from '../../text/nearest.ts';
import type { MadePart } from '../made-part.ts';

/** What the search may spend on the order of what is left, and on each way to rescue a part. */
const FINISH_BUDGET = 5_000_000;
const RESCUE_BUDGET = 300_000;

/** Names by which a fold of a made part may be given: `A`, and of several blanks `end-left A` too. */
const namesOf = ({ result: { piece } }: MadePart, id: string): readonly string[] =>
  piece === null ? [id] : [id, `${piece} ${id}`];

const foldsOf = (made: MadePart): readonly string[] => made.part?.folds.map(({ id }) => id) ?? [];

/** The folds of a part that are among those named. */
export const doneOn = (made: MadePart, done: readonly string[]): readonly string[] =>
  foldsOf(made).filter((id) => namesOf(made, id).some((name) => done.includes(name)));

/** Names that no fold of any part has. */
export const doneProblems = (
  parts: readonly MadePart[],
  done: readonly string[],
): readonly InputProblem[] => {
  const known = [
    ...new Set(parts.flatMap((made) => foldsOf(made).flatMap((id) => namesOf(made, id)))),
  ];
  return done
    .filter((name) => !known.includes(name))
    .map((name): InputProblem => {
      const meant = nearest(name, known);
      return {
        input: 'done',
        given: shown(name),
        allowed:
          known.length === 0
            ? 'nothing: the part has no folds'
            : `folds that are made already: ${known.join(', ')}`,
        ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
      };
    });
};

/** How a half folded part is finished, or what rescues it. */
export function finished(
  fold: PartToFold,
  machines: readonly Machine[],
  done: readonly string[],
): { readonly foldPlan: FoldPlan | null; readonly rescues: readonly Rescue[] } {
  const left = fold.part.folds.filter(({ id }) => !done.includes(id));
  if (left.length === 0) return { foldPlan: null, rescues: [] };
  const foldPlan = finishOnShop(fold, machines, done, FINISH_BUDGET) ?? null;
  return {
    foldPlan,
    rescues: foldPlan?.feasible === false ? rescuesOf(fold, machines, done, RESCUE_BUDGET) : [],
  };
}

/** What rescues a half folded part, as a person reads it. */
export const rescuesText = (rescues: readonly Rescue[] | undefined): string[] => {
  if (rescues === undefined) return [];
  if (rescues.length === 0) return [];
  return [
    '  What would rescue it (tried), smallest first:',
    ...rescues.map(({ open, cut, machines, order }) => {
      const first =
        open.length > 0
          ? `open fold ${open.join(', ')} again`
          : `cut it apart at fold ${cut.join(', ')}`;
      const then =
        order.length === 0 ? '' : `, then fold ${order.join(', ')} on ${machines.join(', ')}`;
      return `    ${first}${then}${cut.length > 0 ? ', and weld it together there' : ''}`;
    }),
    ...(rescues.some(({ open }) => open.length > 0)
      ? [
          '  A bend that is opened and folded again is weaker and may crack: look at both faces of it.',
        ]
      : []),
  ];
};
