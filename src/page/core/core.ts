import { ALL_FAMILIES } from '../../../templates/index.ts';
import type { Template } from '../../forms/template.ts';
import { readPaperMark } from '../../model/paper-mark.ts';
import type { Shop } from '../../model/shop.ts';
import { makeInStages } from '../../use/make/make-in-stages.ts';
import type { Made } from '../../use/make/make-parts.ts';
import { printedIn } from '../../text/printed.ts';
import type { TellProgress } from '../model/progress.ts';
import {
  driversAnswer,
  holeWaysAnswer,
  type PartAtWork,
  provedAnswer,
  sketchAnswer,
} from './drawn-answers.ts';
import type {
  BlankAsk,
  HoleAsk,
  HoleWays,
  ProveAsk,
  ProvedAnswer,
  SketchAnswer,
} from './drawn-questions.ts';
import type { ShopAnswer } from './shop-questions.ts';
import type {
  FamilyAnswer,
  FilesAnswer,
  JobAnswer,
  PaperAnswer,
  PaperAsk,
  PartAnswer,
  PartAsk,
  Questions,
  RedesignAnswer,
  Texts,
} from './questions.ts';
import { type JobSoFar, type PartSoFar, readJobSoFar } from '../../jobfile/so-far.ts';
import { shopAnswer } from './shop-answers.ts';
import { familyAnswer, familyPicture } from './family-answers.ts';
import {
  atNoLine,
  cutListAnswer,
  jobAnswer,
  noPart,
  packAnswer,
  rest,
  shopOf,
} from './job-answers.ts';
import { flatPictures } from './flat-answer.ts';
import { filesAnswer } from './files-answer.ts';
import { type PapersAhead, papersAhead } from './papers-ahead.ts';
import { type AllOfPart, paperFound } from './paper-answer.ts';
import { redesignAnswer } from './redesign-answer.ts';
import { fieldsOf } from './field-answers.ts';
import { blankAnswer, shapeAnswer } from './blank-answers.ts';
import {
  foldedAnswer,
  partModel,
  strokeSection,
  wholeAnswer,
  wholeModel,
} from './model-answers.ts';
import { drawnTube, tubeAnswer, tubeModel } from './tube-answers.ts';
import type { MadePart } from '../../use/made-part.ts';

/**
 * What the core has read and made last, kept for the next question, and what it makes of it. Families are
 * loaded once, the job and the shop read anew when their text is another.
 */
export class Core {
  #families: Promise<ReadonlyMap<string, Template>> | undefined;
  #shop: { readonly text: string | null; readonly read: ReturnType<typeof shopOf> } | undefined;
  #job: { readonly text: string; readonly read: JobSoFar } | undefined;
  readonly #made = new Map<string, Made>();
  readonly #flats = flatPictures();
  #begun: { readonly key: string; readonly stages: ReturnType<typeof makeInStages> } | undefined;

  #loaded(): Promise<ReadonlyMap<string, Template>> {
    return (this.#families ??= Promise.all(
      [...ALL_FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
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

  /** A part of the job as far as it can be read, and its family. */
  async #found({ job, index }: Pick<PartAsk, 'job' | 'index'>) {
    const so = (await this.#read(job)).parts[index];
    return { so, template: (await this.#loaded()).get(so?.family ?? '') };
  }

  async families(): Promise<FamilyAnswer[]> {
    return [...(await this.#loaded()).values()].map((template) => familyAnswer(template));
  }

  async familyPicture(family: string): Promise<string> {
    const template = (await this.#loaded()).get(family);
    return template === undefined ? '' : familyPicture(template);
  }

  shop(text: string | null): ShopAnswer {
    return shopAnswer(text, this.#shopFrom(text).shop);
  }

  async job({ job, shop }: Texts): Promise<JobAnswer> {
    return jobAnswer(await this.#read(job), this.#shopFrom(shop));
  }

  async part(
    { job, shop, index, ...screen }: PartAsk,
    isWhole: boolean,
    tell?: TellProgress,
  ): Promise<PartAnswer> {
    const { so, template } = await this.#found({ job, index });
    if (so === undefined || template === undefined) return noPart(so);
    const made = this.#make(so, template, this.#shopFrom(shop).shop, isWhole, tell);
    const told = {
      flatOf: this.#flats(screen),
      print: printedIn(screen.unit),
      silence: so.part?.silence,
      hasThumb: isWhole,
    };
    return {
      family: so.family,
      name: so.name,
      fields: fieldsOf(template, so),
      problems: so.problems.map(atNoLine),
      blanks:
        made?.ok === true
          ? [
              ...made.parts.map((one) => blankAnswer(one, told)),
              ...made.tubes.map((one) => tubeAnswer(one, { ...told, screen })),
            ]
          : [],
      reports: made?.ok === true ? made.reports : [],
    };
  }

  #keyOf(...of: readonly unknown[]): string {
    return JSON.stringify([...of, this.#shop?.text ?? null]);
  }

  /** The first stage of a part; `part` goes on from there when it is asked for, and another key does not. */
  async shape({ job, shop, index, blank, ...screen }: Questions['shape']['ask']) {
    const { so, template } = await this.#found({ job, index });
    if (so?.part === undefined || template === undefined) return null;
    const { inputs, way, family } = so.part;
    const options = { ...way, shop: this.#shopFrom(shop).shop, foldAt: 'service' as const };
    const key = this.#keyOf(family, inputs, way, false);
    const stages = makeInStages(template, inputs, options, key);
    const first = stages.next();
    if (first.done === true) return null;
    this.#begun = { key, stages };
    const one = first.value.blanks[blank];
    return one === undefined ? null : shapeAnswer(one, this.#flats(screen));
  }

  #make(
    { part }: Pick<PartSoFar, 'part'>,
    template: Template,
    shop: Shop,
    isWhole: boolean,
    tell?: TellProgress,
  ): Made | undefined {
    if (part === undefined) return undefined;
    const { inputs, way, family } = part;
    const options = isWhole
      ? { ...way, shop, fit: {} }
      : { ...way, shop, foldAt: 'service' as const };
    const key = this.#keyOf(family, inputs, way, isWhole);
    const known = this.#made.get(key);
    if (known !== undefined) return known;
    const begun = this.#begun?.key === key ? this.#begun.stages : undefined;
    const made = rest(begun ?? makeInStages(template, inputs, options), tell);
    // What was run to its end gives nothing a second time.
    if (begun !== undefined) this.#begun = undefined;
    if (this.#made.size >= MOST_KEPT) this.#made.clear();
    this.#made.set(key, made);
    return made;
  }

  async folded(ask: Questions['folded']['ask']): Promise<string | null> {
    const { parts, tubes } = await this.#allOf(ask, ask.strokes !== null);
    const tube = tubes[ask.blank - parts.length];
    if (tube !== undefined) return drawnTube(tube, ask);
    if (ask.isSet) return wholeAnswer(parts, ask);
    const one = parts[ask.blank];
    return one === undefined ? null : foldedAnswer(one, ask);
  }

  /** What a part is made of: its blanks, and behind them its tubes. */
  async #allOf({ job, shop, index }: PartAsk, isWhole: boolean): Promise<AllOfPart> {
    const { so, template } = await this.#found({ job, index });
    if (so === undefined || template === undefined) return { parts: [], tubes: [] };
    const made = this.#make(so, template, this.#shopFrom(shop).shop, isWhole);
    return made?.ok === true ? made : { parts: [], tubes: [] };
  }

  async #madeOf(ask: PartAsk, isWhole: boolean): Promise<readonly MadePart[]> {
    return (await this.#allOf(ask, isWhole)).parts;
  }

  async model(ask: Questions['model']['ask']): Promise<Questions['model']['answer']> {
    const { parts, tubes } = await this.#allOf(ask, ask.isPlanned);
    const tube = tubes[ask.blank - parts.length];
    if (tube !== undefined) return tubeModel(tube);
    const one = parts[ask.blank];
    return ask.isSet ? wholeModel(parts, one) : partModel(one);
  }

  async section(ask: Questions['section']['ask']): Promise<string | null> {
    const parts = await this.#madeOf(ask, true);
    return strokeSection(parts[ask.blank], ask.stroke, ask.share, printedIn(ask.unit));
  }

  async #at({ job, shop, index }: PartAsk): Promise<PartAtWork | undefined> {
    const { so, template } = await this.#found({ job, index });
    if (so?.part === undefined || template === undefined) return undefined;
    const { shop: read } = this.#shopFrom(shop);
    const made = this.#make(so, template, read, false);
    const { inputs } = so.part;
    return { template, inputs, shop: read, parts: made?.ok === true ? made.parts : [] };
  }

  async sketch(ask: PartAsk): Promise<SketchAnswer[]> {
    const { template } = await this.#found(ask);
    return template === undefined ? [] : sketchAnswer(template, await this.#at(ask));
  }

  async drivers(ask: BlankAsk): Promise<Readonly<Record<string, string>>> {
    const work = await this.#at(ask);
    return work === undefined ? {} : driversAnswer(work, ask.blank, ask);
  }

  async holeWays(ask: HoleAsk): Promise<HoleWays | null> {
    const work = await this.#at(ask);
    return work === undefined ? null : holeWaysAnswer(work, ask);
  }

  async proved(ask: ProveAsk): Promise<ProvedAnswer> {
    return provedAnswer(await this.#at(ask), ask);
  }

  async paper({ job, shop, text }: PaperAsk): Promise<PaperAnswer | null> {
    const mark = readPaperMark(text);
    if (mark === undefined) return null;
    const names = (await this.#read(job)).parts.map(({ name }) => name);
    return paperFound(mark, names, (index) =>
      this.#allOf({ job, shop, index, isNarrow: false }, false),
    );
  }

  async redesigns({ job, shop, index }: PartAsk): Promise<RedesignAnswer[]> {
    const { so, template } = await this.#found({ job, index });
    return so?.part === undefined || template === undefined
      ? []
      : redesignAnswer(template, so.part, this.#shopFrom(shop).shop);
  }

  async files(
    { job, shop, index, unit, ...asked }: Questions['files']['ask'],
    tell?: TellProgress,
  ): Promise<FilesAnswer> {
    const { so, template } = await this.#found({ job, index });
    return so?.part === undefined || template === undefined
      ? { problems: so?.problems ?? [], files: [] }
      : filesAnswer(so.part, { ...asked, template, unit, shop: this.#shopFrom(shop).shop }, tell);
  }

  async ahead(ask: PartAsk): Promise<PapersAhead> {
    return papersAhead(await this.#allOf(ask, true), this.#shopFrom(ask.shop).shop);
  }

  async cutlist({ job, shop }: Texts, tell?: TellProgress) {
    const read = this.#shopFrom(shop).shop;
    return cutListAnswer(await this.#read(job), await this.#loaded(), read, tell);
  }

  async pack({ job, shop }: Texts, tell?: TellProgress) {
    return packAnswer(job, await this.#loaded(), this.#shopFrom(shop).shop, tell);
  }
}

/** Parts that are kept in memory: those of a page and of the way back by undo. */
const MOST_KEPT = 60;
