import { BENDING_RULES } from './bending.ts';
import { BLANK_RULES } from './blank.ts';
import { CUT_FILE_RULES } from './cut-file.ts';
import { DRAWING_FILE_RULES } from './drawing-file.ts';
import { BAFFLE_RULES } from './families/baffle.ts';
import { BRACKET_RULES } from './families/brackets.ts';
import { CRADLE_RULES } from './families/cradle.ts';
import { DUCT_BETWEEN_RULES } from './families/duct-between.ts';
import { DUCT_BOX_RULES } from './families/duct-box.ts';
import { DUCT_TRANSITION_RULES } from './families/duct-transition.ts';
import { HEEL_REST_RULES } from './families/heel-rest.ts';
import { DUCT_KIT_RULES, HEM_KIT_RULES, PLATE_KIT_RULES, TANK_KIT_RULES } from './families/kit.ts';
import { NECK_PLATE_RULES } from './families/neck-plate.ts';
import { PANEL_RULES } from './families/panels.ts';
import { RING_RULES } from './families/ring.ts';
import { ROLLED_RULES } from './families/rolled.ts';
import { SADDLE_RULES } from './families/saddle.ts';
import { STRAP_RULES } from './families/strap.ts';
import { STRUT_BRACE_RULES } from './families/strut-brace.ts';
import { TANK_RULES } from './families/tank.ts';
import { TANK_PLAN_RULES } from './families/tank-plan.ts';
import { TANK_SECTIONS_RULES } from './families/tank-sections.ts';
import { TEST_STRIP_RULES } from './families/test-strip.ts';
import { TRAY_RULES } from './families/tray.ts';
import { TUBE_BENT_RULES } from './families/tube-bent.ts';
import { TUBE_COPE_RULES } from './families/tube-cope.ts';
import { TUBE_HOLE_RULES } from './families/tube-hole.ts';
import { TUBE_MITRE_RULES } from './families/tube-mitre.ts';
import { VENT_PANEL_RULES } from './families/vent-panel.ts';
import { FOLD_PLAN_RULES } from './fold-plan.ts';
import { INPUT_RULES } from './inputs.ts';
import { LAID_RULES } from './laid.ts';
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
  {
    title: 'Blank, folds and seams',
    inJobs: true,
    rules: { ...BLANK_RULES, ...FOLD_PLAN_RULES },
  },
  { title: 'Bend rules and radii', inJobs: true, rules: BENDING_RULES },
  { title: 'Cut files read again', inJobs: false, rules: CUT_FILE_RULES },
  { title: 'Points from distances', inJobs: true, rules: SURVEY_RULES },
  {
    title: 'Tanks, baffles and cradles',
    inJobs: true,
    rules: {
      ...TANK_RULES,
      ...TANK_PLAN_RULES,
      ...TANK_SECTIONS_RULES,
      ...BAFFLE_RULES,
      ...CRADLE_RULES,
      ...TANK_KIT_RULES,
    },
  },
  {
    title: 'Ducts and transitions',
    inJobs: true,
    rules: {
      ...DUCT_BETWEEN_RULES,
      ...DUCT_BOX_RULES,
      ...DUCT_TRANSITION_RULES,
      ...DUCT_KIT_RULES,
    },
  },
  { title: 'Rolled walls', inJobs: true, rules: ROLLED_RULES },
  {
    title: 'Heel rests and trays',
    inJobs: true,
    rules: { ...HEEL_REST_RULES, ...TRAY_RULES, ...HEM_KIT_RULES },
  },
  {
    title:
      'Plates, panels with louvres, rings, straps, clips, braces, brackets, patches and strips',
    inJobs: true,
    rules: {
      ...RING_RULES,
      ...STRAP_RULES,
      ...SADDLE_RULES,
      ...STRUT_BRACE_RULES,
      ...BRACKET_RULES,
      ...TEST_STRIP_RULES,
      ...TUBE_HOLE_RULES,
      ...NECK_PLATE_RULES,
      ...VENT_PANEL_RULES,
      ...PLATE_KIT_RULES,
    },
  },
  {
    title: 'Tubes',
    inJobs: true,
    rules: { ...TUBE_BENT_RULES, ...TUBE_COPE_RULES, ...TUBE_MITRE_RULES },
  },
  { title: 'Parts out of panels', inJobs: true, rules: PANEL_RULES },
  { title: 'Measured strips', inJobs: false, rules: STRIP_RULES },
  { title: 'Parts laid on sheets', inJobs: false, rules: LAID_RULES },
  { title: 'Drawings that are to be cut', inJobs: false, rules: DRAWING_FILE_RULES },
] as const satisfies readonly RuleGroup[];

type NamesIn<Rules> = Rules extends unknown ? keyof Rules : never;

/** The names of the rules in this folder, and of the cautions, which stand in `data/`. */
export type RuleName = NamesIn<(typeof RULE_GROUPS)[number]['rules']> | `caution-${string}`;
