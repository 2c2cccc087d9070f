import type { Template } from '../../forms/template.ts';
import type { JobPart } from '../../jobfile/job-file.ts';
import type { Shop } from '../../model/shop.ts';
import { redesignWords } from '../../use/make/redesign-words.ts';
import { planParts } from '../../use/plan/plan-parts.ts';
import type { RedesignAnswer } from './questions.ts';

/** The ways in which a part can be made that cannot be folded as it is, tried to their end. */
export const redesignAnswer = (
  template: Template,
  { inputs, way }: Pick<JobPart, 'inputs' | 'way'>,
  shop: Shop,
): RedesignAnswer[] => {
  const byMachineOnly = way.byMachineOnly === true;
  const planned = planParts({ template, inputs, shop, byMachineOnly });
  if (!planned.ok) return [];
  return planned.result.redesigns.map((redesign) => ({
    words: redesignWords(redesign),
    inputs: redesign.inputs,
  }));
};
