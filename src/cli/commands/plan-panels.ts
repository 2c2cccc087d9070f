import { inLines } from '../terminal.ts';
import { MACHINES } from '../../data/machines.ts';
import { panelPlanText } from '../../use/plan/panel-plan-text.ts';
import { PANELS_ALLOWED, planPanels } from '../../use/plan/plan-panels.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { familiesHelp } from '../family.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { readTextFile } from '../read-text-file.ts';
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

/**
 * `plan --panels CASE.json`: the order in which a part is folded, or what prevents it. JSON:
 * `PlanResult`. When a part cannot be folded, or that is not decided, the command ends as for a
 * part that cannot be made.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: PLAN_USAGE,
    about: PLAN_ABOUT,
    flags: PLAN_FLAGS,
    words: 1,
  });
  if (flags === undefined) return EXIT.made;
  const name = textOf(flags, 'panels') ?? '';
  const text = await readTextFile(name, {
    input: 'panels',
    allowed: PANELS_ALLOWED,
    tooLarge: 'give one part only',
  });
  const machine = textOf(flags, 'machine');
  const planned = planPanels({ text, name, machine, count: flags['count'] === true });
  if (!planned.ok) throw new WrongInput(planned.problems);
  const { result } = planned;
  console.out(flags['json'] === true ? JSON.stringify(result) : inLines(panelPlanText(result)));
  return result.feasible === true ? EXIT.made : EXIT.stopped;
};
