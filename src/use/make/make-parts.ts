import { ruleText } from '../../bending/rule.ts';
import { ruleFindings } from '../../bending/rule-findings.ts';
import { runChecks } from '../../checks/index.ts';
import { type CautionId, materialCautions } from '../../data/cautions.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { TORCH } from '../../data/welding.ts';
import { asCut } from '../../paper/draw/as-cut.ts';
import { drawBlank } from '../../paper/draw/blank.ts';
import { cutLines } from '../../paper/draw/cut-lines.ts';
import { type Nicked, nickFindings, nickFor, withNicks } from '../../paper/draw/nicks.ts';
import { figure } from '../../text/figures.ts';
import { flattenSound } from '../../flatten/flatten.ts';
import { partFlaws } from '../../flatten/part-flaws.ts';
import { contactFindings } from '../../fold/contact-findings.ts';
import { coveredHoles } from '../../fold/covered-holes.ts';
import { seamFindings } from '../../welds/seam-findings.ts';
import { foldedSizeMm } from '../../fold/size.ts';
import { serviceFindings } from '../../plan/of-part/service-limits.ts';
import { offsetLoop } from '../../geometry/offset.ts';
import { selfCrossing } from '../../geometry/self-crossing.ts';
import { readBuilt } from '../../forms/built.ts';
import type { CommonValues } from '../../forms/common.ts';
import { type InputProblem, type ReadInputs, readInputs } from '../../forms/read.ts';
import { type Built, defineTemplate, type Template } from '../../forms/template.ts';
import { templateFlaws } from '../../forms/template-flaws.ts';
import { type MakeOptions, type TakenOptions, takenOptions } from './make-options.ts';
import type { Drawing } from '../../model/drawing.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Material } from '../../model/material.ts';
import { mirrorPart } from '../../model/mirror.ts';
import type { TextFile } from '../../model/output-file.ts';
import type { Part } from '../../model/part.ts';
import type { ReadList } from '../../contract/read-list.ts';
import { rulesUsed } from '../../model/rules-used.ts';
import { bendTable, cutterFor, kerfOf, type Shop } from '../../model/shop.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import { planFindings, planOnShop } from '../../plan/of-part/shop-plan.ts';
import { radiusFindings } from '../../plan/of-part/tool-radius.ts';
import type { Asked } from '../../contract/asked.ts';
import { askedOf } from '../../measure/asked-part.ts';
import type { MadeFile } from '../../contract/made-file.ts';
import { proveDxf } from '../../proof/proof.ts';
import { fitOfBlank, type Inputs } from './part-fit.ts';
import { dxfText, partFiles } from './part-files.ts';
import { partNotes } from './part-notes.ts';
import { bendResult, blankResult } from './part-result.ts';
import { type Teller, tellerOf } from './part-told.ts';
import type { FindingResult, Hand, PartResult, ReportResult } from '../../contract/part.ts';
import { safeName } from '../../text/safe-name.ts';
import { withShop } from '../../shop/values.ts';

export type { MakeOptions } from './make-options.ts';

/**
 * What a part's files are known by: written into each, and looked for before one is replaced.
 * ASCII, no spaces in it.
 */
const markOf = ({ family, name, hand }: Head): string =>
  `blankwright ${safeName(family)} ${encodeURIComponent(name.replace(/\p{Cs}/gu, '?'))} ${hand}`;

/** One part, made as far as its findings allow. */
export interface MadePart {
  readonly result: PartResult;
  /** What its files are called, without what tells one kind from another. */
  readonly base: string;
  /** What its files carry near their start. */
  readonly mark: string;
  /** Whether a `stop` finding forbids writing anything. */
  readonly stopped: boolean;
  /** Absent when the part never came to be. */
  readonly part?: Part;
  readonly flat?: FlatPattern;
  readonly material?: Material;
  readonly drawing?: Drawing;
  /**
   * How it is folded, with what its pictures are drawn from; absent for a part that nothing is
   * planned for.
   */
  readonly plan?: PartPlan;
  /** Its files; none of a stopped part. Written anew at each call. */
  readonly files: () => readonly TextFile[];
}

export type Made =
  | { readonly ok: false; readonly problems: readonly InputProblem[] }
  | {
      readonly ok: true;
      readonly parts: readonly MadePart[];
      readonly reports: readonly ReportResult[];
      readonly lists: readonly ReadList[];
    };

/**
 * From inputs as files and flags give them to finished parts: one for each blank and each hand
 * asked for. Pure; the same inputs give the same texts. What is wrong with the template or the
 * inputs are problems, what is wrong with the part are findings; nothing is thrown but what the
 * template's own `build` throws.
 */
export function makeParts(
  given: Template,
  raw: Readonly<Record<string, unknown>>,
  options: MakeOptions = {},
): Made {
  const flaws = templateFlaws(given);
  if (flaws.length > 0) return { ok: false, problems: flaws };
  const template = defineTemplate(given);
  const read = readInputs(template, raw);
  if (!read.ok) return read;
  const begun = begin(template, raw, read, options);
  if (!begun.ok) return begun;
  const { context, built } = begun;
  const { values } = context;
  const hands: readonly Hand[] = values.hand === 'both' ? ['left', 'right'] : [values.hand];
  const blanks = blanksOf(built, context).map((blank): Blank => ({
    ...blank,
    planOf: once(context),
  }));
  const parts = hands.flatMap((hand) => blanks.map((blank) => makeBlank(context, hand, blank)));
  return {
    ok: true,
    parts,
    reports: built.report === undefined ? [] : [{ name: values.name, tables: [], ...built.report }],
    lists: read.lists,
  };
}

type Raw = Readonly<Record<string, unknown>>;
type Begun =
  | { readonly ok: false; readonly problems: readonly InputProblem[] }
  | { readonly ok: true; readonly context: Context; readonly built: Built };

/** What is known before the first blank is flattened. */
function begin(
  template: Template,
  raw: Raw,
  read: ReadInputs & { readonly ok: true },
  options: MakeOptions,
): Begun {
  const values = withShop(read.values, raw, options.shop ?? DEFAULT_SHOP);
  const readBack = readBuilt(template.build(values), values);
  if (!readBack.ok) return readBack;
  const { built } = readBack;
  const context: Context = {
    family: template.family,
    inputs: { template, values, plusMinus: read.plusMinus },
    values,
    cautions: [...template.cautions, ...materialCautions(values.material)],
    findings: built.findings ?? [],
    options: takenOptions(options, values.thicknessMm),
    tell: tellerOf({
      template,
      raw,
      values,
      stopsOf: (other) => stopsOf(template, other, options),
    }),
  };
  return { ok: true, context, built };
}

/**
 * What stops the blanks that inputs make, by the first hand and without planning how they are
 * folded; `undefined` of inputs that cannot be read.
 */
function stopsOf(
  template: Template,
  raw: Raw,
  options: MakeOptions,
): readonly Finding[] | undefined {
  const read = readInputs(template, raw);
  if (!read.ok) return undefined;
  const begun = begin(template, raw, read, { ...options, foldAt: 'service' });
  if (!begun.ok) return undefined;
  const { context, built } = begun;
  const ofBlank = ({ part, findings }: UnplannedBlank): readonly Finding[] => {
    if (part === undefined || hasStop(findings)) return findings;
    const flat = flattenSound(part, context.values.rule);
    return flat.outline.length === 0
      ? flat.findings
      : [...flat.findings, ...partFindings(context, part, flat, undefined)];
  };
  const found = hasStop(context.findings)
    ? context.findings
    : [...context.findings, ...blanksOf(built, context).flatMap(ofBlank)];
  return found.filter(({ severity }) => severity === 'stop');
}

interface Context {
  readonly family: string;
  readonly inputs: Inputs;
  readonly values: CommonValues;
  readonly cautions: readonly CautionId[];
  /** Of the template, about all of its blanks. */
  readonly findings: readonly Finding[];
  readonly options: TakenOptions;
  readonly tell: Teller;
}

/** A blank of the left hand; one without a part could not be built. */
interface UnplannedBlank {
  readonly id: string | null;
  readonly quantity?: number;
  readonly part?: Part;
  /** What is wrong with the part itself, or is to be known of its bends. */
  readonly findings: readonly Finding[];
}

interface Blank extends UnplannedBlank {
  readonly planOf: (part: Part, flat: FlatPattern) => PartPlan | undefined;
}

/** The other hand is folded in the same order, from the same measures: it is planned once. */
const once = ({ values: { material }, options }: Context): Blank['planOf'] => {
  let known: { readonly plan: PartPlan | undefined } | undefined;
  return (part, flat) => {
    if (options.foldAt === 'service') return undefined;
    known ??= {
      plan: planOnShop(
        { part, flat, material, bends: bendTable(options.shop ?? DEFAULT_SHOP, material.id) },
        (options.shop ?? DEFAULT_SHOP).machines,
      ),
    };
    return known.plan;
  };
};

const blanksOf = ({ part, pieces }: Built, context: Context): readonly UnplannedBlank[] =>
  (pieces ?? [part === undefined ? { id: null } : { id: null, part }]).map((blank) => ({
    ...blank,
    findings: 'part' in blank ? findingsOn(blank.part, context) : [],
  }));

/** Of a part that its template stops itself, nobody needs to know what is wrong with it besides. */
const findingsOn = (part: Part, { values, findings }: Context): readonly Finding[] => {
  const flaws = partFlaws(part);
  if (flaws.length === 0) return ruleFindings(values.rule, part);
  return hasStop(findings) ? [] : flaws;
};

function makeBlank(context: Context, hand: Hand, blank: Blank): MadePart {
  const { values } = context;
  const suffix = suffixOf(values, hand, blank);
  const top = head(context, hand, blank, values.name + suffix);
  const left = blank.part;
  const before = [...context.findings, ...blank.findings];
  const files = filesOf(top, values, suffix);
  if (left === undefined || hasStop(before)) return unmade(top, files, context.tell(before));
  const part = { ...(hand === 'left' ? left : mirrorPart(left)), name: top.name };
  const flat = flattenSound(part, values.rule);
  if (flat.outline.length === 0)
    return unmade(top, files, context.tell([...before, ...flat.findings], part));
  const plan = hasStop(flat.findings) ? undefined : blank.planOf(part, flat);
  const marks = context.options.marks ?? (context.options.shop ?? DEFAULT_SHOP).marking.folds;
  const metal = metalEdge(flat, context, marks);
  const whole = asCut(flat, metal.outline, drilledAs(context), kerfMm(context));
  const cutHoles = whole.holes.filter((hole) => hole !== undefined);
  const cut = cutLines({ outline: whole.outline, cutouts: cutHoles }, kerfMm(context));
  const findings = [
    ...before,
    ...flat.findings,
    ...partFindings(context, part, flat, plan),
    ...nickFindings(metal),
    ...('outline' in cut ? [] : cut),
    ...partNotes(context),
  ];
  const { base, mark } = files;
  const bendsBy = `bends by ${rulesUsed(top.rule, flat.bends)}`;
  const drawing = drawBlank(
    flat,
    {
      mark,
      remarks: [bendsBy],
      foldLines: marks !== 'none',
      title: `${top.name}, ${hand} hand`,
      lines: [
        `${values.material.name} ${figure(values.thicknessMm, 3)} mm, ${top.quantity} off`,
        bendsBy,
      ],
    },
    'outline' in cut ? cut : flat,
    whole.marks,
  );
  let written: string | undefined;
  const dxf = (): string => (written ??= dxfText(drawing, context.options));
  const result: PartResult = {
    ...top,
    blank: blankResult(flat, cutHoles, values),
    bends: flat.bends.map((bend) => bendResult(bend, part.measure)),
    folded: { sizeMm: foldedSizeMm(part, flat) },
    foldPlan: plan?.plan ?? null,
    ...proofOf(findings, dxf, context, part, () => askedOf(part, flat, kerfMm(context), whole)),
    fit: null,
  };
  const stopped = hasStop(result.findings);
  const { shop = DEFAULT_SHOP, fit: how } = context.options;
  const fit =
    how === undefined || stopped
      ? null
      : fitOfBlank(
          context.inputs,
          {
            piece: blank.id,
            hand,
            part,
            flat,
            kerfMm: kerfMm(context),
            shop,
            marks,
            machine: plan?.plan.machine,
          },
          how,
        );
  return {
    result: { ...result, fit },
    base,
    mark,
    stopped,
    part,
    flat,
    material: values.material,
    drawing,
    ...(plan !== undefined && { plan }),
    files: () => (stopped ? [] : partFiles(base, dxf, drawing, context.options)),
  };
}

/**
 * The proof of the DXF as it would be written, and the findings with what the proof says stops it.
 */
function proofOf(
  findings: readonly Finding[],
  dxf: () => string,
  { options, tell }: Context,
  part: Part,
  ask: () => Asked,
): Pick<PartResult, 'proof' | 'findings'> {
  if (hasStop(findings)) return { proof: null, findings: tell(findings, part) };
  const file = madeFile(options);
  const asked = { ...ask(), file };
  const proved = proveDxf(dxf(), asked);
  if (!proved.ok) throw new Error(`the DXF cannot be read back: ${proved.reason}`);
  const { worstMm, measures, angles, findings: found } = proved.proof;
  const { measure, kerfMm: kerf, panels, cut } = asked;
  return {
    proof: { worstMm, measures, angles, made: { measure, kerfMm: kerf, panels, cut, file } },
    findings: tell([...findings, ...found.filter((f) => f.severity === 'stop')], part),
  };
}

/** What the files of a part have in them, as its options have it. */
const madeFile = ({
  form,
  dxfVersion,
  cutOnly,
  marks,
  shop = DEFAULT_SHOP,
}: TakenOptions): MadeFile => ({
  unit: form.units,
  statesUnit: dxfVersion !== 'r12',
  foldLines: !cutOnly && (marks ?? shop.marking.folds) !== 'none',
});

/**
 * The edge of the metal, with nicks where those are to mark the folds, of a size that the cutter
 * cuts.
 */
const metalEdge = (
  flat: FlatPattern,
  context: Context,
  marks: Shop['marking']['folds'],
): Nicked => {
  if (marks !== 'nicks') return { outline: flat.outline, without: [] };
  const cutterKerfMm = kerfMm({ ...context, options: { ...context.options, kerf: 'shop' } });
  const kerf = kerfMm(context);
  return withNicks(
    flat.outline,
    flat.bends,
    nickFor(Math.max(cutterKerfMm, kerf)),
    (loop) => selfCrossing(loop) === undefined && offsetLoop(loop, kerf / 2) !== undefined,
  );
};

/** Where marks are left out of the file, the middles of holes are pierced. */
const drilledAs = ({
  options: { cutOnly, drilled, shop = DEFAULT_SHOP },
}: Context): Shop['marking']['drilled'] =>
  cutOnly ? 'pierces' : (drilled ?? shop.marking.drilled);

const kerfMm = ({
  values: { material, thicknessMm },
  options: { kerf = 0, shop = DEFAULT_SHOP },
}: Context): number => {
  if (kerf !== 'shop') return kerf;
  const cutter = cutterFor(shop, thicknessMm);
  return cutter === undefined ? 0 : kerfOf(cutter, material.family, thicknessMm);
};

/**
 * What is found out about the part itself: what the checks say, whether it runs into itself,
 * whether it can be folded.
 */
const partFindings = (
  { values, options }: Context,
  part: Part,
  flat: FlatPattern,
  plan: PartPlan | undefined,
): Finding[] => [
  ...(hasStop(flat.findings)
    ? []
    : [
        ...contactFindings(part, flat),
        ...coveredHoles(part, flat),
        ...seamFindings(part, flat, TORCH),
      ]),
  ...runChecks({
    flat,
    material: values.material,
    shop: options.shop ?? DEFAULT_SHOP,
    isMirrored: values.hand !== 'left',
  }),
  ...(options.foldAt === 'service'
    ? serviceFindings(flat)
    : [
        ...planFindings(plan?.plan, options.foldAt ?? 'auto', flat.bends),
        ...(plan?.plan.feasible === true
          ? radiusFindings({ part, bends: flat.bends, rule: values.rule }, plan.machine)
          : []),
      ]),
];

/** What tells one blank from another of the same set of inputs, after its name: `-wrap-L`. */
const suffixOf = ({ hand: asked }: CommonValues, hand: Hand, { id }: Blank): string => {
  const piece = id === null ? '' : `-${id}`;
  return asked === 'both' ? `${piece}-${hand === 'left' ? 'L' : 'R'}` : piece;
};

/** The name is made safe before what follows it, so that both hands of one are called alike. */
const filesOf = (
  top: Head,
  { name }: CommonValues,
  suffix: string,
): Pick<MadePart, 'base' | 'mark'> => ({ base: safeName(name) + suffix, mark: markOf(top) });

const unmade = (
  top: Head,
  files: Pick<MadePart, 'base' | 'mark'>,
  findings: readonly FindingResult[],
): MadePart => ({
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
  ...files,
  stopped: true,
  files: () => [],
});

type Head = Omit<
  PartResult,
  'blank' | 'bends' | 'folded' | 'foldPlan' | 'proof' | 'fit' | 'findings'
>;

const head = (
  { family, values }: Context,
  hand: Hand,
  { id, quantity = 1 }: Blank,
  name: string,
): Head => ({
  name,
  family,
  piece: id,
  hand,
  quantity: quantity * values.quantity,
  material: {
    id: values.material.id,
    thicknessMm: values.thicknessMm,
    densityKgM3: values.material.densityKgM3.value,
  },
  rule: ruleText(values.rule),
});
