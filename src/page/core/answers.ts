import { FAMILIES } from '../../../templates/index.ts';
import { MATERIALS } from '../../data/materials.ts';
import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { describeInputs, readInput } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import { isMet } from '../../forms/when.ts';
import { type JobSoFar, type PartSoFar, readJobSoFar } from '../../jobfile/read.ts';
import type { Shop } from '../../model/shop.ts';
import { foldCells } from '../../paper/draw/fold-cells.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { readShop } from '../../shop/read.ts';
import { figure } from '../../text/figures.ts';
import { cutListOfJob } from '../../use/cutlist/cut-list-of-job.ts';
import { inspectFile } from '../../use/inspect/inspect-file.ts';
import { inspectOptions } from '../../use/inspect/inspect-options.ts';
import { makeFiles } from '../../use/make/make-files.ts';
import { type Made, makeParts } from '../../use/make/make-parts.ts';
import { redesignWords } from '../../use/make/redesign-words.ts';
import type { MadePart } from '../../use/made-part.ts';
import { foldCards } from '../../use/outputs/folding.ts';
import { planParts } from '../../use/plan/plan-parts.ts';
import { flatPicture, foldedPicture } from '../../use/show/part-pictures.ts';
import { wordOf } from '../model/word-of.ts';
import type {
  BlankAnswer,
  FamilyAnswer,
  FieldAnswer,
  FilesAnswer,
  InspectAnswer,
  JobAnswer,
  Kind,
  PartAnswer,
  PartAsk,
  Questions,
  RedesignAnswer,
  StepAnswer,
  Texts,
} from './questions.ts';

/** What the core answers: every question of the page, by its name. */
export type Answers = {
  readonly [K in Kind]: (ask: Questions[K]['ask']) => Promise<Questions[K]['answer']>;
};

/** A core with nothing in it yet. What it has read and made last is kept for the next question. */
export const coreAnswers = (): Answers => {
  const core = new Core();
  return {
    families: () => core.families(),
    job: (texts) => core.job(texts),
    part: (ask) => core.part(ask, false),
    whole: (ask) => core.part(ask, true),
    folded: (ask) => core.folded(ask),
    redesigns: (ask) => core.redesigns(ask),
    files: (ask) => core.files(ask),
    cutlist: (texts) => core.cutlist(texts),
    inspect: async ({ name, bytes, thickness }) => inspected(name, bytes, thickness),
  };
};

/** Sizes of pictures on the screen, in the millimetres of their texts. */
const FLAT = { widthMm: 210, heightMm: 140 };
const NARROW_FLAT = { widthMm: 100, heightMm: 84 };
const FOLDED = { widthMm: 150, heightMm: 100 };
const NARROW_FOLDED = { widthMm: 90, heightMm: 80 };
const THUMB = { widthMm: 60, heightMm: 44 };
const STEP = { widthMm: 92, heightMm: 72 };

class Core {
  #families: Promise<ReadonlyMap<string, Template>> | undefined;
  #shop: { readonly text: string | null; readonly read: ReturnType<typeof shopOf> } | undefined;
  #job: { readonly text: string; readonly read: JobSoFar } | undefined;
  readonly #made = new Map<string, Made>();

  #loaded(): Promise<ReadonlyMap<string, Template>> {
    return (this.#families ??= Promise.all(
      [...FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
    ).then((all) => new Map(all)));
  }

  #shopFrom(text: string | null): ReturnType<typeof shopOf> {
    if (this.#shop?.text !== text) this.#shop = { text, read: shopOf(text) };
    return this.#shop.read;
  }

  async #read(text: string): Promise<JobSoFar> {
    if (this.#job?.text !== text)
      this.#job = { text, read: readJobSoFar(text, await this.#loaded()) };
    return this.#job.read;
  }

  async families(): Promise<FamilyAnswer[]> {
    return [...(await this.#loaded()).values()].map((template) => familyAnswer(template));
  }

  async job({ job, shop }: Texts): Promise<JobAnswer> {
    const { title, problems, measurements, parts } = await this.#read(job);
    const { shop: read, problems: shopProblems } = this.#shopFrom(shop);
    return {
      title,
      problems,
      shopProblems,
      shopName: read.name,
      measurements,
      parts: parts.map(({ family, name, problems }) => ({ family, name, problems })),
    };
  }

  async part({ job, shop, index, isNarrow }: PartAsk, isWhole: boolean): Promise<PartAnswer> {
    const families = await this.#loaded();
    const so = (await this.#read(job)).parts[index];
    const template = families.get(so?.family ?? '');
    if (so === undefined || template === undefined) return noPart(so);
    const made = this.#make(so, template, this.#shopFrom(shop).shop, isWhole);
    return {
      family: so.family,
      name: so.name,
      fields: fieldsOf(template, so),
      problems: so.problems,
      blanks:
        made?.ok === true
          ? made.parts.map((one) => blankAnswer(one, isNarrow, so.part?.silence))
          : [],
      reports: made?.ok === true ? made.reports : [],
    };
  }

  #make({ part }: PartSoFar, template: Template, shop: Shop, isWhole: boolean): Made | undefined {
    if (part === undefined) return undefined;
    const { inputs, way, family } = part;
    const options = isWhole
      ? { ...way, shop, fit: {} }
      : { ...way, shop, foldAt: 'service' as const };
    const key = JSON.stringify([family, inputs, way, isWhole, this.#shop?.text ?? null]);
    const known = this.#made.get(key);
    if (known !== undefined) return known;
    const made = makeParts(template, inputs, options);
    if (this.#made.size >= MOST_KEPT) this.#made.clear();
    this.#made.set(key, made);
    return made;
  }

  async folded({
    job,
    shop,
    index,
    blank,
    from,
    isNarrow,
  }: Questions['folded']['ask']): Promise<string | null> {
    const so = (await this.#read(job)).parts[index];
    const template = (await this.#loaded()).get(so?.family ?? '');
    if (so === undefined || template === undefined) return null;
    const made = this.#make(so, template, this.#shopFrom(shop).shop, false);
    const one = made?.ok === true ? made.parts[blank] : undefined;
    const picture =
      one === undefined
        ? undefined
        : foldedPicture(one, isNarrow ? NARROW_FOLDED : FOLDED, from === null ? {} : { from });
    return picture === undefined ? null : pictureSvg(picture, `folded-${blank}`);
  }

  async redesigns({ job, shop, index }: PartAsk): Promise<RedesignAnswer[]> {
    const so = (await this.#read(job)).parts[index];
    const template = (await this.#loaded()).get(so?.family ?? '');
    if (so?.part === undefined || template === undefined) return [];
    const planned = planParts({
      template,
      inputs: so.part.inputs,
      shop: this.#shopFrom(shop).shop,
      byMachineOnly: so.part.way.byMachineOnly === true,
    });
    if (!planned.ok) return [];
    return planned.result.redesigns.map((redesign) => ({
      words: redesignWords(redesign),
      inputs: redesign.inputs,
    }));
  }

  async files({ job, shop, index, outputs }: Questions['files']['ask']): Promise<FilesAnswer> {
    const so = (await this.#read(job)).parts[index];
    const template = (await this.#loaded()).get(so?.family ?? '');
    if (so?.part === undefined || template === undefined)
      return { problems: so?.problems ?? [], files: [] };
    const { inputs, way, note, revision, silence } = so.part;
    const made = await makeFiles({
      template,
      inputs,
      options: { ...way, shop: this.#shopFrom(shop).shop },
      outputs,
      note,
      revision,
      silence,
    });
    return made.ok
      ? { problems: [], files: made.files.map(({ name, contents }) => ({ name, contents })) }
      : { problems: made.problems, files: [] };
  }

  async cutlist({ job, shop }: Texts): Promise<Questions['cutlist']['answer']> {
    const read = await this.#read(job);
    const parts = read.parts.flatMap(({ part }) => part ?? []);
    if (parts.length === 0) return null;
    const families = await this.#loaded();
    const { title } = read;
    return cutListOfJob({
      job: {
        title,
        shop: undefined,
        out: undefined,
        papers: [],
        paper: 'a4',
        printUnits: 'mm',
        parts,
      },
      families,
      shop: this.#shopFrom(shop).shop,
    }).result;
  }
}

/** Parts that are kept in memory: those of a page and of the way back by undo. */
const MOST_KEPT = 60;

const shopOf = (text: string | null) => {
  if (text === null) return { shop: DEFAULT_SHOP, problems: [] };
  const read = readShop(text);
  return read.ok
    ? { shop: read.shop, problems: [] }
    : { shop: DEFAULT_SHOP, problems: read.problems };
};

const noPart = (so: PartSoFar | undefined): PartAnswer => ({
  family: so?.family ?? '',
  name: so?.name ?? '',
  fields: [],
  problems: so?.problems ?? [],
  blanks: [],
  reports: [],
});

const familyAnswer = (template: Template): FamilyAnswer => {
  const example = template.examples[0]?.inputs ?? {};
  const made = makeParts(template, example, { foldAt: 'service' });
  const picture = made.ok
    ? made.parts
        .map((one) => foldedPicture(one, THUMB, { isBare: true }))
        .find((p) => p !== undefined)
    : undefined;
  return {
    family: template.family,
    summary: template.summary,
    picture: picture === undefined ? '' : pictureSvg(picture, `family-${template.family}`),
    example,
    required: describeInputs(template).flatMap(({ name, required }) => (required ? [name] : [])),
  };
};

/** Inputs that a job file has beside a part's others. */
const BESIDE = new Set(['name', 'hand', 'quantity']);

const fieldsOf = (template: Template, so: PartSoFar): FieldAnswer[] => {
  const described = describeInputs(template);
  const written = new Map(
    Object.entries(so.given).map(([key, value]) => [camel(key), value] as const),
  );
  const read = new Map(
    described.map(({ name }) => {
      const one = readInput(template, name, so.inputs[name]);
      return [name, one?.ok === true ? one.value : undefined] as const;
    }),
  );
  const values = Object.fromEntries(read);
  // What reads a field stays here: only what is told of it goes to the page.
  return described.map((field) => ({
    ...field,
    withMeasurements: undefined,
    ...(field.kind === 'material' && { choices: MATERIALS.map(({ id }) => id) }),
    given: typed(BESIDE.has(field.name) ? so.inputs[field.name] : written.get(field.name)),
    means: meaning(field, so.inputs[field.name], read.get(field.name)),
    applies: field.when === undefined || isMet(field.when, values),
  }));
};

const camel = (key: string): string =>
  key.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());

const typed = (given: unknown): string | boolean | undefined =>
  given === undefined || typeof given === 'boolean'
    ? given
    : typeof given === 'string' || typeof given === 'number'
      ? String(given)
      : JSON.stringify(given);

const UNITS = { length: ' mm', thickness: ' mm', angle: '°' } as const;

const meaning = (
  { kind }: { readonly kind: string },
  given: unknown,
  value: unknown,
): string | undefined => {
  if (typeof value !== 'number' || given === undefined) return undefined;
  const unit = kind in UNITS ? UNITS[kind as keyof typeof UNITS] : undefined;
  if (unit === undefined || wordOf(given).trim() === String(value)) return undefined;
  return `${figure(value, 3)}${unit}`;
};

const blankAnswer = (
  one: MadePart,
  isNarrow: boolean,
  silence: readonly string[] = [],
): BlankAnswer => {
  const { result, plan } = one;
  const { name, piece, hand, quantity, blank, folded, foldPlan, bends, fit, proof } = result;
  const flat = flatPicture(one, isNarrow ? NARROW_FLAT : FLAT);
  const thumb = foldedPicture(one, THUMB, { isBare: true });
  return {
    name,
    piece,
    hand,
    quantity,
    blank,
    folded,
    foldPlan,
    bends,
    fit,
    sheet: `${one.material?.name ?? result.material.id}, ${figure(result.material.thicknessMm, 3)} mm`,
    stopped: one.stopped,
    findings: result.findings.filter(
      ({ rule, severity }) => severity === 'stop' || !silence.includes(rule),
    ),
    proofMm: proof?.worstMm ?? null,
    flat: flat === undefined ? '' : pictureSvg(flat, `flat-${hand}-${piece ?? ''}`),
    thumb: thumb === undefined ? '' : pictureSvg(thumb, `thumb-${hand}-${piece ?? ''}`),
    steps: stepsOf(one),
    machine: plan?.machine.name ?? null,
  };
};

/** The step cards of a part that can be folded, or what prevents it. */
const stepsOf = (one: MadePart): StepAnswer[] => {
  if (one.stopped || one.plan === undefined) return [];
  const cards = foldCards(one.result, one.plan, one);
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

const inspected = (name: string, bytes: Uint8Array, thickness: string): InspectAnswer => {
  const options = inspectOptions(thickness === '' ? {} : { thickness });
  if (!options.ok) return { problems: options.problems, findings: [], picture: '', files: [] };
  const title = name.replace(/\.[^.]*$/, '');
  const done = inspectFile({
    name,
    title,
    bytes,
    options: options.options,
    mend: true,
    draw: true,
  });
  if (!done.ok) return { problems: done.problems, findings: [], picture: '', files: [] };
  const picture = done.files.find((file) => file.name.endsWith('.svg'));
  return {
    problems: [],
    findings: done.findings,
    picture: typeof picture?.contents === 'string' ? picture.contents : '',
    files: done.files
      .filter((file) => file.name.endsWith('.dxf'))
      .map((file) => ({ name: file.name, contents: file.contents })),
  };
};
