import type { PartResult } from '../../contract/part.ts';
import { STEP, THUMB } from './screen-sizes.ts';
import { foldCells } from '../../paper/draw/fold-cells.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { printedFinding } from '../../model/printed-finding.ts';
import { type Printed, printedIn } from '../../text/printed.ts';
import type { MadePart } from '../../use/made-part.ts';
import type { BlankStage } from '../../use/make/blank-stage.ts';
import { foldCards } from '../../use/outputs/folding.ts';
import type { FlatPictures } from './flat-answer.ts';
import { foldedPicture } from '../../use/show/part-pictures.ts';
import type { BlankAnswer, StepAnswer } from './questions.ts';

/** The flat picture of a blank that was made as far as its shape. */
export const shapeAnswer = (
  { laid, hand, piece }: BlankStage,
  flatOf: FlatPictures,
): BlankAnswer['flat'] =>
  flatOf({ flat: laid.flat, datum: laid.datum, result: { findings: [], hand, piece } });

interface ToldOfBlank {
  readonly flatOf: FlatPictures;
  readonly print: Printed;
  /** Names of rules that the job keeps silent. */
  readonly silence?: readonly string[] | undefined;
  /** Whether it is drawn as it is folded, small, for the cards of a job. */
  readonly hasThumb: boolean;
}

/** What is told of a part and of a tube alike. */
export const toldOfResult = (
  { name, piece, hand, quantity, blank, folded, foldPlan, bends, fit, findings }: PartResult,
  silence: readonly string[],
  print: Printed,
) => ({
  name,
  piece,
  hand,
  quantity,
  blank,
  folded,
  foldPlan,
  bends,
  fit,
  findings: findings
    .filter(({ rule, severity }) => severity === 'stop' || !silence.includes(rule))
    .map((finding) => printedFinding(finding, print)),
});

/** The id of a small picture, for what in it refers to itself. */
export const thumbName = ({ hand, piece }: Pick<PartResult, 'hand' | 'piece'>): string =>
  `thumb-${hand}-${piece ?? ''}`;

/** All that is told of a made part. */
export const blankAnswer = (
  one: MadePart,
  { flatOf, print, silence = [], hasThumb }: ToldOfBlank,
): BlankAnswer => {
  const { result, plan } = one;
  const thumb = hasThumb ? foldedPicture(one, THUMB, { isBare: true }) : undefined;
  return {
    ...toldOfResult(result, silence, print),
    sheet: `${one.material?.name ?? result.material.id}, ${print.tape(result.material.thicknessMm, 3)} ${print.word}`,
    stopped: one.stopped,
    proofMm: result.proof?.worstMm ?? null,
    flat: flatOf(one),
    thumb: thumb === undefined ? '' : pictureSvg(thumb, thumbName(result)),
    steps: stepsOf(one, print),
    machine: plan?.machine.name ?? null,
    isOfSet: one.set !== undefined,
    tube: null,
  };
};

/** The step cards of a part that can be folded, or what prevents it. */
export const stepsOf = (one: MadePart, print = printedIn()): StepAnswer[] => {
  if (one.stopped || one.plan === undefined) return [];
  const cards = foldCards(one.result, one.plan, { ...one, print });
  return (cards?.strokes ?? []).map(({ title, lines, scene }, i) => ({
    title,
    lines,
    pictures:
      scene === undefined
        ? []
        : foldCells(scene, STEP).map((cell, k) => ({
            title: cell.title,
            picture: pictureSvg(cell.picture, `step-${i}-${k}`),
          })),
  }));
};
