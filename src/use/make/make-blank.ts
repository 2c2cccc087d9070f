import type { FindingResult, Hand, PartResult } from '../../contract/part.ts';
import { datumFor } from '../../paper/sizes/datum-asked.ts';
import { flattenSound } from '../../flatten/flatten.ts';
import { foldedSizeMm } from '../../fold/size.ts';
import { askedOf } from '../../measure/asked-part.ts';
import { hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { mirrorPart } from '../../model/mirror.ts';
import { mirrorStanding } from '../../model/standing.ts';
import type { Part } from '../../model/part.ts';
import { bendTable } from '../../model/shop.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import { otherHandOf } from '../../plan/of-part/other-plans.ts';
import { planOnShop } from '../../plan/of-part/shop-plan.ts';
import type { LaidFlat, MadePart, StoppedPart } from '../made-part.ts';
import type { Blank, Context, UnplannedBlank } from './context.ts';
import { cutFiles, dxfText } from '../outputs/cut-files.ts';
import { type DrawnPart, drawPart } from './part-drawing.ts';
import { partFindings } from './part-findings.ts';
import { fitOfBlank } from '../fit/part-fit.ts';
import { headOf, type PartHead } from './part-head.ts';
import { partNotes } from './part-notes.ts';
import { proofOf } from './part-proof.ts';
import { bendResult, blankResult } from './part-result.ts';

/**
 * Plans a part once for both hands: the other hand is folded in the same order, with its fingers,
 * marks and turns where they lie on its own blank.
 */
export const plannedOnce = (
  blank: UnplannedBlank,
  { values: { material }, options: { foldAt, byMachineOnly, shop } }: Context,
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
export function makeBlank(context: Context, hand: Hand, blank: Blank): MadePart {
  const { values, options, tell } = context;
  const head = headOf(context, hand, blank);
  const left = blank.part;
  const before = [...context.findings, ...blank.findings];
  if (left === undefined || hasStop(before)) return unmade(head, tell(before));
  const part = { ...(hand === 'left' ? left : mirrorPart(left)), name: head.top.name };
  const flat = flattenSound(part, values.rule);
  if (flat.outline.length === 0) return unmade(head, tell([...before, ...flat.findings], part));
  const plan = hasStop(flat.findings) ? undefined : blank.planOf(part, flat);
  const drawn = drawPart(context, head, flat);
  const { datum, findings: onDatum } = datumFor(flat, options.datum);
  const findings = [
    ...before,
    ...flat.findings,
    ...partFindings(context, part, flat, plan),
    ...drawn.findings,
    ...onDatum,
    ...partNotes(context, part.folds.length > 0),
  ];
  const { cutOnly, dxfVersion, form } = options;
  const laid: LaidFlat = {
    part,
    flat,
    material: values.material,
    drawing: drawn.drawing,
    datum,
    writing: { cutOnly, dxfVersion, form },
    ...(plan !== undefined && { plan }),
    ...(blank.standing !== undefined && {
      standing: hand === 'left' ? blank.standing : mirrorStanding(blank.standing),
    }),
  };
  return proved(context, { head, blank, laid, drawn, findings });
}

interface Drawn {
  readonly head: PartHead;
  readonly blank: Blank;
  readonly laid: LaidFlat;
  readonly drawn: DrawnPart;
  readonly findings: Parameters<typeof proofOf>[0];
}

/** The last stages of a blank that was drawn: its proof, its figures, and how well it fits. */
function proved(context: Context, { head, blank, laid, drawn, findings }: Drawn): MadePart {
  const { options } = context;
  const { top, ...named } = head;
  const { base } = named;
  const { part, flat, datum, plan } = laid;
  let written: string | undefined;
  const dxf = (): string => (written ??= dxfText(drawn.drawing, options));
  const { proof, findings: told } = proofOf(findings, dxf, context, part, () =>
    askedOf(part, flat, options.kerfMm, drawn.cut),
  );
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
    files: () => cutFiles(base, dxf, drawn.drawing, options),
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
const unmade = ({ top, ...named }: PartHead, findings: readonly FindingResult[]): StoppedPart => ({
  result: {
    ...top,
    blank: null,
    bends: [],
    folded: null,
    foldPlan: null,
    proof: null,
    fit: null,
    findings,
  },
  ...named,
  stopped: true,
  files: none,
});
