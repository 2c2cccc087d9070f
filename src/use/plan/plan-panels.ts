import type { PlanResult } from '../../contract/panel-plan.ts';
import { parseYaml } from '../../forms/yaml.ts';
import { readCase } from '../../plan/of-case/panels.ts';
import { planFolds } from '../../plan/search/plan.ts';
import { planResult } from '../../plan/search/plan-result.ts';
import { RESCUE_BUDGET, rescueByPreFolds } from '../../plan/search/rescue.ts';
import type { UseCase } from '../use-case.ts';

export interface PanelsRequest {
  /** JSON or YAML with `part.panels`, `part.bends` and `machine`. */
  readonly text: string;
  /** What the text is called where something is wrong with it. */
  readonly name: string;
  /** The folding machine by its id; that of the text when left out. */
  readonly machine?: string | undefined;
  /** Counts the orders that work. */
  readonly count?: boolean | undefined;
}

export const PANELS_ALLOWED = 'a JSON or YAML file with part.panels, part.bends and machine';

/**
 * The order in which a part that is given as panels and bends is folded, or what stands in the way.
 * Never throws.
 */
export function planPanels({
  text,
  name,
  machine,
  count = false,
}: PanelsRequest): UseCase<PlanResult> {
  const parsed = parseYaml(text);
  if (!parsed.ok) {
    const { given, mend } = parsed;
    const problem = { input: 'panels', given: `${name}, ${given}`, allowed: PANELS_ALLOWED };
    return { ok: false, problems: [{ ...problem, ...(mend !== undefined && { mend }) }] };
  }
  const read = readCase(parsed.value, machine);
  if (!read.ok) return read;
  const answer = planFolds(read.net, read.machine, { count });
  const rescued =
    answer.verdict === 'impossible'
      ? rescueByPreFolds(read.net, read.machine, {
          blockingSet: answer.blockingSet,
          budget: RESCUE_BUDGET,
        })
      : undefined;
  const result = planResult(answer, read.machine.id, rescued);
  return { ok: true, result, findings: [], files: [] };
}
