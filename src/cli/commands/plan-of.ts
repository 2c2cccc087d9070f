import { withRule } from '../../model/finding-line.ts';
import { MACHINES } from '../../data/machines.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { figure } from '../../text/figures.ts';
import type { Template } from '../../forms/template.ts';
import { type MadePart, makeParts } from '../../use/make/make-parts.ts';
import type { Machine } from '../../model/machine.ts';
import { bendTable, type Shop } from '../../model/shop.ts';
import { nearest } from '../../text/nearest.ts';
import { blockedPictures, stepPictures } from '../../paper/draw/fold-step.ts';
import {
  BLOCKED_KEY,
  blockedSummary,
  blockedWords,
  STEP_KEY,
  stepWords,
} from '../../paper/draw/fold-words.ts';
import { BUDGET } from '../../plan/search/lattice.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import { planOnShop, withSuggestions } from '../../plan/of-part/shop-plan.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { writeFoldSteps } from '../../paper/write/fold-steps-svg.ts';
import { type MarkedFile, saveAll } from '../save.ts';
import { FAMILY_FLAGS, familyAsked } from '../family.ts';
import type { RunCommand } from './index.ts';
import type { Blocked, FoldPlan, FoldStep } from '../../contract/fold-plan.ts';

export const PLAN_OF_FLAGS = {
  out: {
    type: 'string',
    describe:
      'Folder to draw the steps into, or what stands in their way, one SVG for each part; nothing is drawn when left out',
  },
  force: { type: 'boolean', describe: 'Replace files that were not made for this part' },
  machine: {
    type: 'string',
    describe:
      'The folding machine, by its id: one of the shop file, or built in; the first of the shop that can fold the part when left out',
  },
} as const satisfies FlagSpecs;

export interface PlanOfRequest {
  readonly template: Template;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly machine: string | undefined;
  /** Where the steps are drawn to, if anywhere. */
  readonly out: string | undefined;
  readonly force: boolean;
  readonly shop?: Shop;
}

/** The JSON document of `plan FAMILY --json`. */
export interface PlannedParts {
  readonly parts: readonly {
    readonly name: string;
    readonly foldPlan: FoldPlan | null;
    readonly files: readonly string[];
  }[];
}

/**
 * `plan FAMILY`: the steps to fold a part in, or what stands in the way and what would help. JSON:
 * `PlannedParts`. A part that cannot be folded, or cannot be made at all, ends as a part that
 * cannot be made does.
 */
export const planOf = (
  { template, inputs, machine, out: folder, force, shop = DEFAULT_SHOP }: PlanOfRequest,
  json: boolean,
  { out, err }: Console,
): number => {
  const machines = machine === undefined ? shop.machines : [machineNamed(machine, shop.machines)];
  const made = makeParts(template, inputs, {
    cutOnly: false,
    dxfVersion: 'r2000',
    foldAt: 'service',
    shop,
  });
  if (!made.ok) throw new WrongInput(made.problems);
  const planned = made.parts.map((part) => ({ part, ...planOne(part, machines, shop) }));
  const drawn = planned.map(({ part, plan }) =>
    folder === undefined || plan === undefined || plan.plan.feasible === null
      ? []
      : [sheetOf(part, plan)],
  );
  const paths = folder === undefined ? [] : saveAll(folder, drawn.flat(), force);
  const result: PlannedParts = {
    parts: planned.map(({ part, foldPlan }, i) => {
      const before = drawn.slice(0, i).flat().length;
      return {
        name: part.result.name,
        foldPlan,
        files: paths.slice(before, before + (drawn[i] ?? []).length),
      };
    }),
  };
  for (const { part } of json ? [] : planned)
    for (const finding of part.result.findings)
      if (finding.severity === 'stop') err(`${part.result.name}: ${withRule(finding)}`);
  out(
    json
      ? JSON.stringify(result)
      : result.parts
          .map(({ name, foldPlan, files }) =>
            [planText(name, foldPlan), ...files.map((f) => `  drawn in ${f}`)].join('\n'),
          )
          .join('\n'),
  );
  return planned.every(
    ({ part, foldPlan }) =>
      part.flat !== undefined && (foldPlan === null || foldPlan.feasible === true),
  )
    ? EXIT.made
    : EXIT.stopped;
};

/**
 * The steps as a picture, folds made by hand last and without one; or else what stands in the way.
 */
const sheetOf = ({ result: { name }, base, mark }: MadePart, plan: PartPlan): MarkedFile => {
  const file = { name: `${base}-folding.svg`, mark };
  if (plan.plan.feasible !== true) {
    const captions = [`On ${plan.machine.name}. ${BLOCKED_KEY}`, ...blockedSummary(plan.plan)];
    const rows = blockedPictures(plan).map(({ blocked, ...row }) => ({
      words: blockedWords(blocked),
      ...row,
    }));
    return {
      ...file,
      contents: writeFoldSteps(
        { heading: `${name}: why no order of folds works`, mark, captions },
        rows,
      ),
    };
  }
  const pictures = stepPictures(plan);
  const steps = plan.plan.steps.map((step, i) => ({
    words: stepWords(step, i + 1),
    ...(pictures[i] !== undefined && { picture: pictures[i] }),
  }));
  return {
    ...file,
    contents: writeFoldSteps(
      {
        heading: `${name}: how it is folded`,
        mark,
        captions: [`On ${plan.machine.name}`, STEP_KEY],
      },
      steps,
    ),
  };
};

/** A machine of the shop, or else a built-in one: for whoever asks what another shop could fold. */
const machineNamed = (given: string, own: readonly Machine[]): Machine => {
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
  throw new WrongInput([
    {
      input: 'machine',
      given: `'${given}'`,
      allowed,
      ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
    },
  ]);
};

const planOne = (
  { part, flat, material }: MadePart,
  machines: readonly Machine[],
  shop: Shop,
): { readonly foldPlan: FoldPlan | null; readonly plan?: PartPlan } => {
  if (
    part === undefined ||
    flat === undefined ||
    material === undefined ||
    flat.outline.length === 0
  )
    return { foldPlan: null };
  const fold = { part, flat, material, bends: bendTable(shop, material.id) };
  const found = planOnShop(fold, machines, BUDGET);
  if (found === undefined) return { foldPlan: null };
  const foldPlan = withSuggestions(fold, found, shop.machines);
  return { foldPlan, plan: { ...found, plan: foldPlan } };
};

const planText = (name: string, plan: FoldPlan | null): string => {
  if (plan === null) return `${name}: no folds to plan`;
  if (plan.feasible === null)
    return `${name}: not decided whether ${plan.machine} can fold it; the search was broken off`;
  if (plan.feasible)
    return [`${name}, folded on ${plan.machine}`, ...plan.steps.map(stepText)].join('\n');
  const summary = blockedSummary(plan).map((line) => `  ${line}`);
  return [
    `${name}: no order of folds works on ${plan.machine}`,
    ...summary.slice(0, -1),
    ...plan.blockedBy.map(blockedText),
    ...summary.slice(-1),
  ].join('\n');
};

const stepText = (s: FoldStep, i: number): string => {
  const moves = [
    ...(s.flip ? ['turn it over'] : []),
    ...(s.turnDeg > 0 ? [`turn it by ${figure(s.turnDeg, 1)} deg`] : []),
  ];
  const mark =
    s.sightLineMm === null
      ? `mark by ${s.from}`
      : `mark ${figure(s.sightLineMm, 1)} mm from ${s.from}`;
  const tools =
    s.fingersMm.length === 0
      ? []
      : [`tools ${s.fingersMm.map((w) => figure(w, 0)).join(' + ')} mm`];
  return `  ${i + 1}. fold ${s.bend}: ${[...moves, mark, `clamp ${s.clampedSide}`, `stop at ${figure(s.stopAtDeg, 1)} deg`, ...tools, ...(s.note === null ? [] : [s.note])].join(', ')}`;
};

const blockedText = ({ bend, after, reason }: Blocked): string =>
  `  ${after.length === 0 ? 'flat' : `after ${after.join(', ')}`}: fold ${bend} cannot be made, ${reason}`;

export const run: RunCommand = async (args, console) => {
  const asked = await familyAsked(args, console, { ...FAMILY_FLAGS, ...PLAN_OF_FLAGS });
  if (asked === undefined) return EXIT.made;
  const { template, inputs, flags, shop } = asked;
  return planOf(
    {
      template,
      inputs,
      machine: textOf(flags, 'machine'),
      out: textOf(flags, 'out'),
      force: flags['force'] === true,
      ...shop,
    },
    flags['json'] === true,
    console,
  );
};
