import { WrongInput } from '../failure.ts';
import { valueOf, wordOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

/** `plan FAMILY`, or `plan --panels CASE.json` for any part at all. */
export const run: RunCommand = async (args, console) => {
  const isOfFamily = (wordOf(args) !== undefined || valueOf(args, 'template') !== undefined) && valueOf(args, 'panels') === undefined;
  if (isOfFamily) return (await import('./plan-of.ts')).run(args, console);
  const panels = await import('./plan-panels.ts');
  if (valueOf(args, 'panels') === undefined && !args.includes('--help')) {
    throw new WrongInput([{ input: '--panels', given: 'nothing', allowed: `a family, as in blankwright plan bracket-angle, or a file of panels and bends: blankwright ${panels.PLAN_USAGE}` }]);
  }
  return panels.run(args, console);
};
