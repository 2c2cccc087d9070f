import { blockedPictures, stepPictures } from '../../paper/draw/fold-step.ts';
import {
  BLOCKED_KEY,
  blockedSummary,
  blockedWords,
  STEP_KEY,
  stepWords,
} from '../../paper/draw/fold-words.ts';
import { writeFoldSteps } from '../../paper/write/fold-steps-svg.ts';
import type { MarkedFile } from '../../model/output-file.ts';
import type { FindingResult, PartResult } from '../../contract/part.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import type { MadePart } from '../made-part.ts';
import { outputsNamed } from './index.ts';
import type { OutputSource, Written } from './output.ts';

/** The steps in which a part is folded, or what prevents it. */
export const foldingSvg = ({ made }: OutputSource): Written => {
  const contents =
    made.plan === undefined ? undefined : foldingPicture(made.result, made.mark, made.plan);
  return contents === undefined ? {} : { contents };
};

/** The file of such a picture, by another plan than the one the part was made with. */
export const foldingFile = (
  { base, mark, result }: Pick<MadePart, 'base' | 'mark' | 'result'>,
  plan: PartPlan,
): MarkedFile[] => {
  const contents = foldingPicture(result, mark, plan);
  if (contents === undefined) return [];
  return outputsNamed('folding').map(({ extension }) => ({
    name: base + extension,
    contents,
    mark,
  }));
};

/**
 * A plan as a picture; folds made by hand come last and have no picture of their own. Where the
 * part cannot be folded, the picture shows what prevents it; where the search was broken off, there
 * is none.
 */
const foldingPicture = (
  { name, findings }: Pick<PartResult, 'name' | 'findings'>,
  mark: string,
  plan: PartPlan,
): string | undefined => {
  if (plan.plan.feasible === null) return undefined;
  return plan.plan.feasible
    ? stepsOf(name, mark, plan, cautionLines(findings))
    : blockedOf(name, mark, plan, cautionLines(findings));
};

/** What is dangerous at the machine in full, the rest in a few words. */
const cautionLines = (findings: readonly FindingResult[]): string[] => {
  const all = cautionsAmong(findings);
  const others = all.filter(({ at }) => at !== 'folding').map(({ short }) => short);
  return [
    ...all.filter(({ at }) => at === 'folding').map(({ text }) => `CAUTION: ${text}`),
    ...(others.length === 0 ? [] : [`CAUTION, besides: ${others.join('; ')}.`]),
  ];
};

const stepsOf = (
  name: string,
  mark: string,
  plan: PartPlan,
  cautions: readonly string[],
): string => {
  const pictures = stepPictures(plan);
  const captions = [...cautions, `On ${plan.machine.name}`, STEP_KEY];
  return writeFoldSteps(
    { heading: `${name}: how it is folded`, mark, captions },
    plan.plan.steps.map((step, i) => ({
      words: stepWords(step, i + 1),
      ...(pictures[i] !== undefined && { picture: pictures[i] }),
    })),
  );
};

const blockedOf = (
  name: string,
  mark: string,
  plan: PartPlan,
  cautions: readonly string[],
): string => {
  const captions = [
    ...cautions,
    `On ${plan.machine.name}. ${BLOCKED_KEY}`,
    ...blockedSummary(plan.plan),
  ];
  return writeFoldSteps(
    { heading: `${name}: why no order of folds works`, mark, captions },
    blockedPictures(plan).map(({ blocked, ...row }) => ({ words: blockedWords(blocked), ...row })),
  );
};
