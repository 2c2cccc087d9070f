import { WrongInput } from '../failure.ts';
import { COMMON_FLAGS } from '../flags.ts';
import type { RunCommand } from './index.ts';

/** Flags that do not tell what is to be planned. */
const ALONE = { ...COMMON_FLAGS, help: {} };

/** `plan FAMILY`, or `plan --panels CASE.json` for any part at all. */
export const run: RunCommand = async (args, console) => {
  const asked = args.slice(1).filter((arg) => !Object.hasOwn(ALONE, arg.replace(/^--/, '')));
  const isOfPanels = asked.some((arg) => /^--panels(?:=|$)/.test(arg));
  if (asked.length > 0 && !isOfPanels) return (await import('./plan-of.ts')).run(args, console);
  const panels = await import('./plan-panels.ts');
  if (isOfPanels || args.includes('--help')) return panels.run(args, console);
  throw new WrongInput([
    {
      input: '--panels',
      given: 'nothing',
      allowed: `a family, as in blankwright plan bracket-angle, or a file of panels and bends: blankwright ${panels.PLAN_USAGE}`,
    },
  ]);
};
