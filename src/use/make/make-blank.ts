import type { FindingResult, Hand, PartResult } from '../../contract/part.ts';
import { datumFor } from '../../paper/sizes/datum-asked.ts';
import { flattenSound } from '../../flatten/flatten.ts';
import { foldedSizeMm } from '../../fold/size.ts';
import { askedOf } from '../../measure/asked-part.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { mirrorPart } from '../../model/mirror.ts';
import { mirrorStanding } from '../../model/standing.ts';
import type { Part } from '../../model/part.ts';
import { bendTable } from '../../model/shop.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import { otherHandOf } from '../../plan/of-part/other-plans.ts';
import { planOnShop } from '../../plan/of-part/shop-plan.ts';
import type { LaidFlat, MadePart, StoppedPart } from '../made-part.ts';
import type { BlankStage } from './blank-stage.ts';
import type { Blank, Context, UnplannedBlank } from './context.ts';
import { cutFiles, dxfText } from '../outputs/cut-files.ts';
import { type DrawnPart, drawPart } from './part-drawing.ts';
import { foldFindings, partFindings } from './part-findings.ts';
import { hasOtherHand } from './hands-apart.ts';
import { fitOfBlank } from '../fit/part-fit.ts';
import { headOf, NO_BLANK, type PartHead } from './part-head.ts';
import { partNotes } from './part-notes.ts';
import { type Proved, proofOf, provedDxf } from './part-proof.ts';
import { bendResult, blankResult } from './part-result.ts';

/**
 * Plans a part once for both hands: the other hand is folded in the same order, with its fingers,
 * marks and turns where they lie on its own blank.
 */
export const plannedOnce = (
  blank: UnplannedBlank,
  { values: { material }, options: { foldAt, byMachineOnly, shop, wideBends } }: Context,
): Blank => {
  const known = new WeakMap<FlatPattern, { readonly plan: PartPlan | undefined }>();
  let one: PartPlan | undefined;
  const planOf = (part: Part, flat: FlatPattern): PartPlan | undefined => {
    if (foldAt === 'service') return undefined;
    const fold = {
      part,
      flat,
      material,
      bends: bendTable(shop, material.id),
      tolerance: shop.handover.tolerance,
      rolls: shop.rolls,
      wideBends,
    };
    const found = known.get(flat) ?? {
      plan:
        (one && otherHandOf(fold, one)) ??
        planOnShop(fold, shop.machines, undefined, { byMachineOnly }),
    };
    known.set(flat, found);
    one ??= found.plan;
    return found.plan;
  };
  return { ...blank, planOf };
};

/** One blank in one hand, made as far as its findings allow. */
export const makeBlank = (context: Context, hand: Hand, blank: Blank): MadePart => {
  const stages = blankInStages(context, hand, blank);
  for (;;) {
    const { done, value } = stages.next();
    if (done === true) return value;
  }
};

/**
 * The same in stages, each of which is begun when the next one is asked for: whoever wants no more
 * leaves it. What is told of a stage is worked out where it is looked at.
 */
export function* blankInStages(
  context: Context,
  hand: Hand,
  blank: Blank,
): Generator<BlankStage, MadePart, undefined> {
  const { values, options, tell } = context;
  const head = headOf(context, hand, blank);
  const left = blank.part;
  const before = [...context.findings, ...blank.findings];
  if (left === undefined || hasStop(before)) return unmade(head, tell(before));
  const part = { ...(hand === 'left' ? left : mirrorPart(left)), name: head.top.name };
  const flat = flattenSound(part, values.rule);
  if (flat.outline.length === 0) return unmade(head, tell([...before, ...flat.findings], part));
  const drawn = drawPart(context, head, flat, part);
  const { datum, findings: onDatum } = datumFor(flat, options.datum);
  const laid = laidFlat(context, hand, blank, { part, flat, datum, drawn });
  const stageOf = (stage: BlankStage['stage'], findings: readonly Finding[]): BlankStage => ({
    stage,
    hand,
    piece: blank.id,
    laid,
    blank: blankResult(flat, drawn.cutHoles, datum, values),
    findings: () => tell(findings, part),
  });
  yield stageOf('shape', [...before, ...flat.findings]);
  const serves = hasOtherHand(context, blank);
  const found = partFindings(context, part, flat, 'all', serves);
  const notes = partNotes(context, part.folds.length > 0, serves);
  const after = [...drawn.findings, ...onDatum, ...notes];
  const checked = [...before, ...flat.findings, ...found, ...after];
  yield stageOf('checks', checked);
  const proof = proofOnce(context, laid, drawn);
  yield { ...stageOf('proof', checked), proof: () => (hasStop(checked) ? null : proof().proof) };
  const plan = hasStop(flat.findings) ? undefined : blank.planOf(part, flat);
  const planned = { ...laid, ...(plan !== undefined && { plan }) };
  const all = [
    ...before,
    ...flat.findings,
    ...found,
    ...foldFindings(context, part, flat, plan),
    ...after,
  ];
  yield { ...stageOf('plan', all), laid: planned };
  return proved(context, { head, blank, laid: planned, drawn, findings: all, proof });
}

const laidFlat = (
  { values, options: { cutOnly, dxfVersion, form } }: Context,
  hand: Hand,
  { standing }: Blank,
  laid: Pick<LaidFlat, 'part' | 'flat' | 'datum'> & { readonly drawn: DrawnPart },
): LaidFlat => ({
  part: laid.part,
  flat: laid.flat,
  material: values.material,
  get drawing() {
    return laid.drawn.drawing;
  },
  datum: laid.datum,
  writing: { cutOnly, dxfVersion, form },
  ...(standing !== undefined && {
    standing: hand === 'left' ? standing : mirrorStanding(standing),
  }),
});

/** The proof of the drawing, made once, when it is first asked for. */
const proofOnce = (
  { options }: Context,
  { part, flat }: LaidFlat,
  drawn: DrawnPart,
): (() => Proved) => {
  let written: string | undefined;
  let proved: Proved | undefined;
  const dxf = (): string => (written ??= dxfText(drawn.drawing, options));
  return () => (proved ??= provedDxf(dxf, options, askedOf(part, flat, options.kerfMm, drawn.cut)));
};

interface Drawn {
  readonly head: PartHead;
  readonly blank: Blank;
  readonly laid: LaidFlat;
  readonly drawn: DrawnPart;
  readonly findings: readonly Finding[];
  readonly proof: () => Proved;
}

/** The last stages of a blank that was drawn: its proof, its figures, and how well it fits. */
function proved(
  context: Context,
  { head, blank, laid, drawn, findings, proof: prove }: Drawn,
): MadePart {
  const { options } = context;
  const { top, ...named } = head;
  const { base } = named;
  const { part, flat, datum, plan } = laid;
  const { proof, findings: told } = proofOf(findings, context, part, prove);
  const figures = {
    ...top,
    blank: blankResult(flat, drawn.cutHoles, datum, context.values),
    bends: flat.bends.map((bend) => bendResult(bend, part.measure)),
    folded: { sizeMm: foldedSizeMm(part, flat) },
    foldPlan: plan?.plan ?? null,
  };
  if (proof === null || hasStop(told)) {
    const result = { ...figures, proof, findings: told, fit: null };
    return { result, ...named, stopped: true, ...laid, files: none };
  }
  const fit = fitOf(context, { ...blank, hand: top.hand }, laid);
  return {
    result: { ...figures, proof, findings: told, fit },
    ...named,
    stopped: false,
    ...laid,
    files: () => cutFiles(base, () => prove().dxf, drawn.drawing, options),
  };
}

const fitOf = (
  { inputs, options: { fit, kerfMm, shop, marks } }: Context,
  { id, hand }: { readonly id: string | null; readonly hand: Hand },
  { part, flat, plan }: LaidFlat,
): PartResult['fit'] =>
  fit === undefined
    ? null
    : fitOfBlank(
        inputs,
        { piece: id, hand, part, flat, kerfMm, shop, marks, machine: plan?.plan.machine },
        fit,
      );

const none = (): readonly [] => [];

/** A part that did not get as far as its blank. */
export const unmade = (
  { top, ...named }: PartHead,
  findings: readonly FindingResult[],
): StoppedPart => ({
  result: {
    ...top,
    ...NO_BLANK,
    findings,
  },
  ...named,
  stopped: true,
  files: none,
});
