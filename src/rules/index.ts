import { BENDING_RULES } from './bending.ts';
import { BLANK_RULES } from './blank.ts';
import { CUT_FILE_RULES } from './cut-file.ts';
import { DRAWING_FILE_RULES } from './drawing-file.ts';
import { DUCT_RULES } from './families-duct.ts';
import { PLATE_RULES } from './families-plate.ts';
import { REST_RULES } from './families-rest.ts';
import { TANK_RULES } from './families-tank.ts';
import { INPUT_RULES } from './inputs.ts';
import type { Rule } from './rule.ts';
import { STRIP_RULES } from './strips.ts';
import { SURVEY_RULES } from './survey.ts';

/** Rules of findings on one subject. Those of checks stand beside each check. */
export interface RuleGroup {
  readonly title: string;
  /** Whether a job tells warnings and notes by them, and so may silence them. */
  readonly inJobs: boolean;
  readonly rules: Readonly<Record<string, Rule>>;
}

export const RULE_GROUPS = [
  { title: 'Inputs', inJobs: true, rules: INPUT_RULES },
  { title: 'Blank, folds and seams', inJobs: true, rules: BLANK_RULES },
  { title: 'Bend rules and radii', inJobs: true, rules: BENDING_RULES },
  { title: 'Cut files read again', inJobs: false, rules: CUT_FILE_RULES },
  { title: 'Points from distances', inJobs: true, rules: SURVEY_RULES },
  { title: 'Tanks and baffles', inJobs: true, rules: TANK_RULES },
  { title: 'Ducts and transitions', inJobs: true, rules: DUCT_RULES },
  { title: 'Heel rests and trays', inJobs: true, rules: REST_RULES },
  {
    title: 'Plates, rings, straps, braces, brackets and test strips',
    inJobs: true,
    rules: PLATE_RULES,
  },
  { title: 'Measured strips', inJobs: false, rules: STRIP_RULES },
  { title: 'Drawings that are to be cut', inJobs: false, rules: DRAWING_FILE_RULES },
] as const satisfies readonly RuleGroup[];

type NamesIn<Rules> = Rules extends unknown ? keyof Rules : never;

/** The names of the rules in this folder, and of the cautions, which stand in `data/`. */
export type RuleName = NamesIn<(typeof RULE_GROUPS)[number]['rules']> | `caution-${string}`;
