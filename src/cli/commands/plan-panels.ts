import { MACHINES } from '../../data/machines.ts';
import { parseYaml } from '../../forms/yaml.ts';
import { readCase } from '../../plan/of-case/panels.ts';
import { planFolds } from '../../plan/search/plan.ts';
import { RESCUE_BUDGET, rescueByPreFolds } from '../../plan/search/rescue.ts';
import {
  type FoldPlanResult,
  type PlanResult,
  planResult,
  type StepResult,
  type StrokeNames,
} from '../../plan/search/plan-result.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { readTextFile } from '../read-text-file.ts';
import { familiesHelp } from '../family.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

export const PLAN_USAGE = 'plan --panels CASE.json';

const PLAN_ABOUT = `The order in which a part is folded on a machine, or what stands in the way: of a family with blankwright plan FAMILY, or of any part, given as panels and bends. ${familiesHelp('plan')}`;

export const PLAN_FLAGS = {
  panels: {
    type: 'string',
    describe: 'JSON or YAML file of a part as panels and bends on its middle plane',
  },
  machine: {
    type: 'string',
    describe: `The folding machine: ${MACHINES.map((m) => m.id).join(', ')}; that of the file when left out`,
  },
  count: { type: 'boolean', describe: 'Count the orders that work' },
} as const satisfies FlagSpecs;

export interface PanelsRequest {
  readonly panels: string;
  readonly machine: string | undefined;
  readonly count: boolean;
}

const ALLOWED = 'a JSON or YAML file with part.panels, part.bends and machine';

/**
 * `plan --panels CASE.json`: the order to fold a part in, or what stands in the way. JSON:
 * `PlanResult`. A part that cannot be folded, or of which that is not decided, ends as a part that
 * cannot be made does.
 */
export const planPanels = async (
  { panels, machine, count }: PanelsRequest,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  const text = await readTextFile(panels, {
    input: 'panels',
    allowed: ALLOWED,
    tooLarge: 'give one part only',
  });
  const parsed = parseYaml(text);
  if (!parsed.ok)
    throw new WrongInput([
      {
        input: 'panels',
        given: `${panels}, ${parsed.given}`,
        allowed: ALLOWED,
        ...(parsed.mend !== undefined && { mend: parsed.mend }),
      },
    ]);
  const read = readCase(parsed.value, machine);
  if (!read.ok) throw new WrongInput(read.problems);
  const answer = planFolds(read.net, read.machine, { count });
  const rescued =
    answer.verdict === 'impossible'
      ? rescueByPreFolds(read.net, read.machine, {
          blockingSet: answer.blockingSet,
          budget: RESCUE_BUDGET,
        })
      : undefined;
  const result = planResult(answer, read.machine.id, rescued);
  out(json ? JSON.stringify(result) : planText(result));
  return result.feasible === true ? EXIT.made : EXIT.stopped;
};

const planText = ({
  machine,
  verdict,
  foldPlan,
  preFoldPlan,
  feasibleOrders,
  totalOrders,
  blocked,
}: PlanResult): string => {
  const counted =
    feasibleOrders === null ? [] : [`${feasibleOrders} of ${totalOrders ?? 'many'} orders work.`];
  if (foldPlan !== null) {
    const claim = foldPlan.cheapest
      ? ''
      : ' (a cheaper order may exist: the search was broken off)';
    return [`Fold on ${machine}${claim}:`, ...foldPlan.steps.map(stepText), ...counted].join('\n');
  }
  const head =
    verdict === 'impossible'
      ? `No order of folds works on ${machine}.`
      : `Not decided whether the part can be folded on ${machine}: the search was broken off.`;
  return [
    head,
    ...blocked
      .slice(0, MOST_TOLD)
      .map(
        (b) =>
          `  ${b.already_folded.length === 0 ? 'flat' : `after ${b.already_folded.join(', ')}`}: ${named(b.bend)} cannot be made. ${told(b.parent_side_clamped, 'parent')}; ${told(b.child_side_clamped, 'child')}`,
      ),
    ...(blocked.length > MOST_TOLD
      ? [`  and ${blocked.length - MOST_TOLD} more, with --json`]
      : []),
    ...(preFoldPlan === null ? [] : rescueText(preFoldPlan)),
  ].join('\n');
};

/** Only a suggestion: the verdict is on folds made at one stroke each. */
const rescueText = ({ steps }: FoldPlanResult): string[] => [
  'What would help (tried): to make some folds in two strokes, in part first and finished later:',
  ...steps.map(stepText),
];

const MOST_TOLD = 10;

const told = (reason: string, side: string): string => `${side} side clamped: ${reason}`;

const named = (bend: StrokeNames): string => (typeof bend === 'string' ? bend : bend.join(' + '));

const stepText = (s: StepResult, i: number): string => {
  const moves = [
    ...(s.flip ? ['turn over'] : []),
    ...(s.turnDeg > 0 ? [`turn by ${s.turnDeg} deg`] : []),
  ];
  const fingers = s.fingersMm.map((room) => room.join(' + ')).join(' and ');
  return `  ${i + 1}. ${named(s.bend)}: ${[...moves, `clamp ${s.clampedPanel}`, `stop at ${s.stopAtDeg} deg`, `stops at ${s.stopMm} mm`, `tools ${fingers} mm`, ...inTwoText(s)].join(', ')}`;
};

const inTwoText = ({ bend, inTwo }: StepResult): string[] =>
  inTwo === undefined
    ? []
    : [
        inTwo.stroke === 1
          ? `folded in part now, to ${inTwo.keepsDeg} deg, and finished in step ${inTwo.otherStep}`
          : `finishes ${named(bend)}, begun in step ${inTwo.otherStep}`,
      ];

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: PLAN_USAGE,
    about: PLAN_ABOUT,
    flags: PLAN_FLAGS,
    words: 1,
  });
  if (flags === undefined) return EXIT.made;
  return planPanels(
    {
      panels: textOf(flags, 'panels') ?? '',
      machine: textOf(flags, 'machine'),
      count: flags['count'] === true,
    },
    flags['json'] === true,
    console,
  );
};
