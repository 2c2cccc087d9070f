import { computed, effect, signal } from '@preact/signals';
import type { FamilyAnswer, JobAnswer, PartAnswer } from '../core/questions.ts';
import type { CutListResult } from '../../contract/cut-list.ts';
import { EMPTY_JOB, jobValue } from '../model/job-text.ts';
import type { Progress, TellProgress } from '../model/progress.ts';
import { wordOf } from '../model/word-of.ts';
import { quick, slow } from './cores.ts';
import { OpenText } from './open-text.ts';
import { unit } from './units.ts';
import { askLong, underWay } from './work.ts';

/** Everything that the page shows is one of these, or follows from them. */

export const jobFile = new OpenText(EMPTY_JOB);
/** Empty where there is no shop file. */
export const shopFile = new OpenText('');
export const jobText = jobFile.text;
export const shopText = computed(() => (shopFile.text.value === '' ? null : shopFile.text.value));
export const fileName = signal('job.yaml');
/** The job file as a value, as it is written. */
export const written = computed(() => jobValue(jobText.value) as WrittenJob | null);

export interface WrittenJob {
  readonly title?: unknown;
  readonly measurements?: Readonly<Record<string, unknown>> | null;
  readonly parts?: readonly WrittenPart[] | null;
}

export interface WrittenPart {
  readonly family?: unknown;
  readonly name?: unknown;
  readonly hand?: unknown;
  readonly quantity?: unknown;
  readonly inputs?: Readonly<Record<string, unknown>> | null;
}

export const partsOf = (): readonly WrittenPart[] => {
  const parts = written.value?.parts;
  return Array.isArray(parts) ? (parts as readonly WrittenPart[]) : [];
};

/** Takes the job a step on. Changes of one thing with the same `of` are one step of undo. */
export const change = (text: string, words: string, of?: string): void =>
  jobFile.change(text, words, of);

// What the core says of it.
export const families = signal<readonly FamilyAnswer[]>([]);
/** Pictures of families, as far as they have been drawn. */
export const familyPictures = signal<ReadonlyMap<string, string>>(new Map());
export const job = signal<JobAnswer | undefined>(undefined);
/** Parts by their place in the job, as far as they have been made. */
export const parts = signal<ReadonlyMap<number, PartAnswer>>(new Map());
export const cutlist = signal<CutListResult | null>(null);
/** A mistake of ours, told rather than hidden. */
export const broken = signal<string | undefined>(undefined);

/** Which of several blanks is looked at. */
export const chosen = signal(0);

// Where the page is.
export interface Place {
  readonly view: 'job' | 'add' | 'part' | 'shop' | 'check';
  readonly part: number;
  readonly tab: 'measures' | 'flat' | 'folded' | 'steps';
}

const placeOf = (hash: string): Place => {
  const [, view = '', part = '', tab = ''] = hash.split('/');
  return {
    view: (['add', 'part', 'shop', 'check'] as const).find((v) => v === view) ?? 'job',
    part: Number(part) || 0,
    tab: (['measures', 'folded', 'steps'] as const).find((t) => t === tab) ?? 'flat',
  };
};

export const place = signal<Place>(placeOf(location.hash));
addEventListener('hashchange', () => {
  place.value = placeOf(location.hash);
});

/** Milliseconds of rest before what takes longer is asked for. */
const PLAN_REST = 500;

const told = (error: unknown): void => {
  broken.value = error instanceof Error ? error.message : String(error);
};

const afterRest = (ms: number): ((work: () => void) => void) => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return (work) => {
    clearTimeout(timer);
    timer = setTimeout(work, ms);
  };
};

const texts = () => ({ job: jobText.value, shop: shopText.value });

/** A screen that is held in one hand. */
const narrow = matchMedia('(max-width: 40rem)');
export const isNarrow = signal(narrow.matches);
narrow.addEventListener('change', () => {
  isNarrow.value = narrow.matches;
});

/** A screen on which the picture stands over the measures. */
const oneColumn = matchMedia('(max-width: 60rem)');
export const isOneColumn = signal(oneColumn.matches);
oneColumn.addEventListener('change', () => {
  isOneColumn.value = oneColumn.matches;
});

/** What is asked of one part. */
export const partAsk = (index: number) => ({
  ...texts(),
  index,
  isNarrow: isNarrow.value,
  unit: unit.value,
});

const put = (index: number, answer: PartAnswer): void => {
  parts.value = new Map([...parts.value, [index, answer]]);
};

const askJob = async (): Promise<void> => {
  const answer = await quick.ask('job', texts());
  if (answer !== undefined) job.value = answer;
};

/** The part of the page: at once what is quick, and the rest after a rest. */
const askPart = async (index: number): Promise<void> => {
  const asked = texts();
  void askShape(index);
  const answer = await quick.ask('part', partAsk(index));
  if (answer !== undefined && asked.job === jobText.value) put(index, keepingPlan(index, answer));
};

/** The blank of a part that is known, drawn anew before anything else is looked at. */
const askShape = async (index: number): Promise<void> => {
  const asked = texts();
  // Looked at without being followed: what is put there would else ask for itself again.
  const known = parts.peek().get(index);
  if (place.peek().tab !== 'flat' || known === undefined) return;
  const blank = Math.min(chosen.peek(), known.blanks.length - 1);
  const flat = await quick.ask('shape', { ...partAsk(index), blank });
  const now = parts.value.get(index);
  if (flat === undefined || flat === null || now === undefined) return;
  if (asked.job !== jobText.value) return;
  put(index, {
    ...now,
    blanks: now.blanks.map((one, i) => (i === blank ? { ...one, flat } : one)),
  });
};

/** Until the new plan is there, nothing is told of folding; the rest is new at once. */
const keepingPlan = (index: number, answer: PartAnswer): PartAnswer => {
  const before = parts.value.get(index);
  return before === undefined || JSON.stringify(before.fields) !== JSON.stringify(answer.fields)
    ? answer
    : before;
};

/** The name of a part as it stands in the job. */
const nameAt = (index: number): string => {
  const part = partsOf()[index];
  return wordOf(part?.name ?? part?.family);
};

const askWhole = async (index: number): Promise<void> => {
  const asked = texts();
  const answer = await askLong('whole', partAsk(index), {
    what: `Order of folds and fit of ${nameAt(index)}`,
    left: 'The part is as it was typed; how it is folded is not known yet.',
    again: () => void askWhole(index).catch(told),
    stops: true,
  });
  if (answer !== undefined && asked.job === jobText.value) put(index, answer);
};

/** Draws a family's first example, unless that has been done. */
export const drawFamily = async (family: string): Promise<void> => {
  if (familyPictures.value.has(family)) return;
  const picture = await slow.ask('familyPicture', family, { key: `family ${family}` });
  if (picture !== undefined)
    familyPictures.value = new Map([...familyPictures.value, [family, picture]]);
};

/** Draws the families, one after the other, while somebody looks at them. */
export const drawFamilies = async (): Promise<void> => {
  for (const { family } of families.value) {
    if (place.value.view !== 'add') return;
    await drawFamily(family);
  }
};

/** All parts of the job, one after the other, for its cards, and then its sheets. */
const askAll = async (): Promise<void> => {
  const asked = texts();
  const key = 'cards';
  const of = partsOf().length;
  const lookAt = async (tell: TellProgress): Promise<void> => {
    for (let done = 0; done < of; done++) {
      if (asked.job !== jobText.value || place.value.view !== 'job') return;
      tell({ doing: 'parts', done, of });
      const answer = await slow.ask('whole', partAsk(done), { key });
      if (answer === undefined || asked.job !== jobText.value) return;
      put(done, answer);
    }
    const onProgress = ({ done, of: parts }: Progress): void =>
      tell({ doing: 'sheets for the parts', ...(done !== undefined && { done, of: parts }) });
    const list = await slow.ask('cutlist', asked, { key, onProgress });
    if (list !== undefined && asked.job === jobText.value) cutlist.value = list;
  };
  await underWay(
    {
      what: 'Looking at the whole job',
      left: 'The job is as it was typed; what has not been looked at is marked so.',
      again: () => void askAll().catch(told),
    },
    lookAt,
    () => slow.stop(key),
  );
};

/** Begins to ask the core about every change. */
export const startAsking = async (): Promise<void> => {
  const toPlan = afterRest(PLAN_REST);
  let lastKinds = '';
  effect(() => {
    const { view, part } = place.value;
    void [jobText.value, shopText.value, isNarrow.value];
    const kinds = JSON.stringify([unit.value, ...partsOf().map(({ family }) => family)]);
    // Parts that were added, moved or taken out: what was made stands for others now; or it is told in
    // another unit.
    if (kinds !== lastKinds) parts.value = new Map();
    lastKinds = kinds;
    if (view === 'part') {
      askPart(part).catch(told);
      toPlan(() => void askWhole(part).catch(told));
    } else if (view === 'job') toPlan(() => void askAll().catch(told));
  });
  // After the picture of the part: whoever types looks at that.
  effect(() => {
    void [jobText.value, shopText.value];
    askJob().catch(told);
  });
  families.value = (await quick.ask('families', null)) ?? [];
};
