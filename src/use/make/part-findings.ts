import { runChecks } from '../../checks/index.ts';
import { TORCH } from '../../data/welding.ts';
import { contactFindings } from '../../fold/contact-findings.ts';
import { coveredHoles } from '../../fold/covered-holes.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Part } from '../../model/part.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import { serviceFindings } from '../../plan/of-part/service-limits.ts';
import { planFindings } from '../../plan/of-part/shop-plan.ts';
import { radiusFindings } from '../../plan/of-part/tool-radius.ts';
import { seamFindings } from '../../welds/seam-findings.ts';
import type { Context } from './context.ts';

/**
 * Findings on a part that was laid flat: whether it runs into itself, and what the checks say. Where
 * stops alone are asked for, what never stops a part is not checked: the reach of a torch to its seams
 * takes longer than all the rest. `isMirrored` tells whether the blank is to serve the other hand too.
 */
export const partFindings = (
  { values, options }: Context,
  part: Part,
  flat: FlatPattern,
  wanted: 'all' | 'stops' = 'all',
  isMirrored = false,
): Finding[] => [
  ...(hasStop(flat.findings)
    ? []
    : [
        ...contactFindings(part, flat),
        ...(wanted === 'all'
          ? [...coveredHoles(part, flat), ...seamFindings(part, flat, TORCH)]
          : []),
      ]),
  ...runChecks(
    {
      flat,
      material: values.material,
      shop: options.shop,
      isMirrored,
    },
    wanted,
  ),
];

/** Findings on how it is folded, by its plan. */
export const foldFindings = (
  { values, options }: Context,
  part: Part,
  flat: FlatPattern,
  plan: PartPlan | undefined,
): readonly Finding[] =>
  options.foldAt === 'service'
    ? serviceFindings(flat)
    : [
        ...planFindings(plan?.plan, options.foldAt, flat.bends),
        ...(plan?.plan.feasible === true
          ? radiusFindings(
              { part, bends: flat.bends, rule: values.rule },
              plan.machine,
              plan.plan.steps,
              { wideBends: options.wideBends, rolls: options.shop.rolls },
            )
          : []),
      ];
