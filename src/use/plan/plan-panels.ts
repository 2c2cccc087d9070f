import type { PlanResult } from '../../contract/panel-plan.ts';
import { parseYaml } from '../../forms/yaml.ts';
import { readCase } from '../../plan/of-panels/panels.ts';
import { planFolds } from '../../plan/search/plan.ts';
import { planResult } from '../../plan/search/plan-result.ts';
import { RESCUE_BUDGET, rescueByPreFolds } from '../../plan/search/rescue.ts';
import type { UseCase } from '../use-case.ts';

export interface PanelsRequest {
  /** JSON or YAML with `part.panels`, `part.bends` and `machine`. */
  readonly text: string;
  /** Name of the text in messages. */
  readonly name: string;
  /** Id of the folding machine; when left out, the text names it. */
  readonly machine?: string | undefined;
  /** Whether the orders that work are counted. */
  readonly count?: boolean | undefined;
}

export const PANELS_ALLOWED = 'a JSON or YAML file with part.panels, part.bends and machine';

/**
 * The order in which a part given as panels and bends is folded, or what prevents it. It never
 * throws.
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
