import type { Printed } from '../../text/printed.ts';
import type { FoldPlan, PlannedParts, Rescue } from '../../contract/fold-plan.ts';
import type { FindingResult } from '../../contract/part.ts';
import { MACHINES } from '../../data/machines.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Template } from '../../forms/template.ts';
import type { Machine } from '../../model/machine.ts';
import type { MarkedFile } from '../../model/output-file.ts';
import { bendTable, type Shop } from '../../model/shop.ts';
import type { WideBends } from '../../model/wide-bends.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import type { PartToFold } from '../../plan/of-part/plan-steps.ts';
import { rollingOf } from '../../plan/of-part/rolling.ts';
import { planOnShop } from '../../plan/of-part/shop-plan.ts';
import { withSuggestions } from '../../plan/of-part/suggestions.ts';
import { BUDGET } from '../../plan/search/lattice.ts';
import { nearest } from '../../text/nearest.ts';
import type { LaidFlat, MadePart } from '../made-part.ts';
import { choicesByMachine, chosenFinding } from '../make/by-machine.ts';
import { filledOptions } from '../make/make-options.ts';
import { makeParts } from '../make/make-parts.ts';
import { redesignsOf } from '../make/redesigns.ts';
import { foldingFiles } from '../outputs/folding.ts';
import { doneOn, doneProblems, finished } from './half-folded.ts';
import type { Done, Refused } from '../use-case.ts';

export interface PlanRequest {
  readonly template: Template;
  /** Inputs by name, as a file or flags give them. */
  readonly inputs: Readonly<Record<string, unknown>>;
  /**
   * Id of the folding machine, of the shop or built in; when left out, the first of the shop that
   * can fold the part.
   */
  readonly machine?: string | undefined;
  readonly shop?: Shop | undefined;
  /** Whether the steps, or what prevents them, are drawn: a file for each part that has a plan. */
  readonly isDrawn?: boolean | undefined;
  /** How lengths are written in drawings; in mm when left out. */
  readonly print?: Printed | undefined;
  /** Whether the help of hands is left out. */
  readonly byMachineOnly?: boolean | undefined;
  /** How wide bends are formed; as the plan finds best when left out. */
  readonly wideBends?: WideBends | undefined;
  /**
   * Folds that are made already: the plan is of what is left, and where no order finishes the part
   * it is told what rescues it. Nothing is drawn then.
   */
  readonly done?: readonly string[] | undefined;
}

export interface PlannedFamily extends Done<PlannedParts> {
  /** Whether each part got as far as its blank, and can be folded or has nothing to fold. */
  readonly isFoldable: boolean;
  /** What stops parts, by the part's name. */
  readonly stops: readonly { readonly name: string; readonly finding: FindingResult }[];
}

/**
 * The steps in which the parts of a family are folded, or what prevents them and what would help.
 * It searches longer than `makeParts` does. It throws nothing but what the template's own `build`
 * throws.
 */
export function planParts(request: PlanRequest): Refused | PlannedFamily {
  const {
    template,
    inputs,
    machine,
    shop = DEFAULT_SHOP,
    isDrawn = false,
    print,
    byMachineOnly = false,
    wideBends,
    done,
  } = request;
  if (template.stock === 'tube') return { ok: false, problems: [noFolds(template)] };
  const one = machine === undefined ? undefined : machineNamed(machine, shop.machines);
  if (one !== undefined && 'allowed' in one) return { ok: false, problems: [one] };
  // The search below finds out where it is folded.
  const made = makeParts(template, inputs, { foldAt: 'service', shop });
  if (!made.ok) return made;
  const machines = one === undefined ? shop.machines : [one];
  const problems = done === undefined ? [] : doneProblems(made.parts, done);
  if (problems.length > 0) return { ok: false, problems };
  const planned = made.parts.map((part): Planned => {
    if (done !== undefined)
      return { part, files: [], ...finishOf(part, machines, { shop, wideBends }, done) };
    const plan = planOf(part, machines, { shop, byMachineOnly, wideBends });
    const files =
      isDrawn && plan !== undefined && !part.stopped ? foldingFiles(part, plan, print) : [];
    return { part, foldPlan: plan?.plan ?? null, files };
  });
  const isFoldable = planned.every(
    ({ part, foldPlan }) =>
      part.flat !== undefined && (foldPlan === null || foldPlan.feasible === true),
  );
  const isStuck = done === undefined && !isFoldable && !made.parts.some(({ stopped }) => stopped);
  const options = filledOptions({ shop: { ...shop, machines }, byMachineOnly });
  const chosen = isStuck ? choicesByMachine(template, inputs, options) : undefined;
  if (chosen !== undefined) {
    const other = planParts({ ...request, inputs: { ...inputs, ...chosen } });
    return other.ok ? { ...other, findings: [...other.findings, chosenFinding(chosen)] } : other;
  }
  const redesigns = isStuck ? redesignsOf(template, inputs, options) : [];
  return {
    ok: true,
    result: { parts: planned.map(resultOf), redesigns },
    findings: made.parts.flatMap(({ result }) => result.findings),
    files: planned.flatMap(({ files }) => files),
    isFoldable,
    stops: made.parts.flatMap(({ result: { name, findings } }) =>
      findings.filter(({ severity }) => severity === 'stop').map((finding) => ({ name, finding })),
    ),
  };
}

const noFolds = ({ family }: Template): InputProblem => ({
  input: 'family',
  given: `${family}, a family of tubes`,
  allowed: 'a family of sheet, whose folds are planned',
  mend: `see blankwright make ${family}, which tells the order of its bends`,
});

interface Planned {
  readonly part: MadePart;
  readonly foldPlan: FoldPlan | null;
  readonly files: readonly MarkedFile[];
  readonly rescues?: readonly Rescue[];
}

const resultOf = ({ part, foldPlan, files, rescues }: Planned): PlannedParts['parts'][number] => {
  const rolling = part.part && rollingOf(part.part);
  return {
    name: part.result.name,
    foldPlan,
    files: files.map(({ name }) => name),
    ...(rolling !== undefined && { rolling }),
    ...(rescues !== undefined && { rescues }),
  };
};

/**
 * A machine of the shop, or else a built-in one, for users who ask what another shop could fold.
 */
const machineNamed = (given: string, own: readonly Machine[]): Machine | InputProblem => {
  const named = (machines: readonly Machine[]): Machine | undefined =>
    machines.find((m) => m.id === given.trim().toLowerCase());
  const found = named(own) ?? named(MACHINES);
  if (found !== undefined) return found;
  const others = MACHINES.filter((m) => own.every(({ id }) => id !== m.id)).map((m) => m.id);
  const meant = nearest(given, [...own.map((m) => m.id), ...others]);
  const allowed = [
    `a machine of the shop: ${own.map((m) => m.id).join(', ') || 'it has none'}`,
    ...(others.length === 0 ? [] : [`or a built-in one: ${others.join(', ')}`]),
  ].join('; ');
  return {
    input: 'machine',
    given: `'${given}'`,
    allowed,
    ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
  };
};

/** What planning goes by beside the part and the machines. */
interface ToPlan {
  readonly shop: Shop;
  readonly wideBends: WideBends | undefined;
}

/** A part with everything that its folding depends on. */
const toFold = ({ part, flat, material }: LaidFlat, { shop, wideBends }: ToPlan): PartToFold => ({
  part,
  flat,
  material,
  bends: bendTable(shop, material.id),
  tolerance: shop.handover.tolerance,
  rolls: shop.rolls,
  wideBends,
});

const finishOf = (
  made: MadePart,
  machines: readonly Machine[],
  by: ToPlan,
  done: readonly string[],
): Pick<Planned, 'foldPlan' | 'rescues'> => {
  if (made.flat === undefined) return { foldPlan: null, rescues: [] };
  return finished(toFold(made, by), machines, doneOn(made, done));
};

const planOf = (
  made: MadePart,
  machines: readonly Machine[],
  { byMachineOnly, ...by }: ToPlan & { readonly byMachineOnly: boolean },
): PartPlan | undefined => {
  if (made.flat === undefined) return undefined;
  const fold = toFold(made, by);
  const found = planOnShop(fold, machines, BUDGET, { byMachineOnly });
  return found && { ...found, plan: withSuggestions(fold, found, by.shop.machines) };
};
