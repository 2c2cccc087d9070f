import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Template } from '../../forms/template.ts';
import type { JobSoFar, PartSoFar } from '../../jobfile/so-far.ts';
import type { Shop } from '../../model/shop.ts';
import { readJob } from '../../jobfile/read.ts';
import { readShop } from '../../shop/read.ts';
import { cutListOfJob } from '../../use/cutlist/cut-list-of-job.ts';
import type { makeInStages } from '../../use/make/make-in-stages.ts';
import { shopOfJob } from '../../use/job/ready-job.ts';
import type { MakeParts } from '../../use/job/remembering-parts.ts';
import { type Made, makeParts } from '../../use/make/make-parts.ts';
import { packJob } from '../../use/pack/pack-job.ts';
import type { TellProgress } from '../model/progress.ts';
import type { JobAnswer, PackAnswer, PartAnswer, Questions } from './questions.ts';

/** What is being done behind each stage, the next one. */
const STAGES = {
  shape: ['checks', 1],
  checks: ['proof of the cut file', 2],
  proof: ['order of folds', 3],
  plan: ['how well it fits', 4],
} as const;
const MOST_STAGES = 5;

/** The parts that the last stage gives, each stage told when it begins. */
export const rest = (stages: ReturnType<typeof makeInStages>, tell?: TellProgress): Made => {
  for (;;) {
    const { done, value } = stages.next();
    if (done === true) return value;
    const [doing, number] = STAGES[value.stage];
    tell?.({ doing, done: number, of: MOST_STAGES });
  }
};

/** Makes parts as `makeParts` does, and tells how many of the job's are done. */
const counting = (of: number, tell: TellProgress = () => undefined): MakeParts => {
  let done = 0;
  return (...all) => {
    tell({ doing: 'parts', done, of });
    const made = makeParts(...all);
    done++;
    return made;
  };
};

export const shopOf = (text: string | null) => {
  if (text === null) return { shop: DEFAULT_SHOP, problems: [] };
  const read = readShop(text);
  return read.ok
    ? { shop: read.shop, problems: [] }
    : { shop: DEFAULT_SHOP, problems: read.problems };
};

/** What is wrong with an input stands at its field: where it stands in the file is no help there. */
export const atNoLine = (problem: InputProblem): InputProblem => ({
  ...problem,
  given: problem.given.replace(/ (?:at|in what begins at) line \d+, column \d+/, ''),
});

/** The job as far as it can be read, beside its shop. */
export const jobAnswer = (
  { title, problems, measurements, parts }: JobSoFar,
  { shop, problems: shopProblems }: ReturnType<typeof shopOf>,
): JobAnswer => ({
  title,
  problems,
  shopProblems,
  shopName: shop.name,
  measurements,
  parts: parts.map(({ family, name, problems: own }) => ({ family, name, problems: own })),
});

export const noPart = (so: PartSoFar | undefined): PartAnswer => ({
  family: so?.family ?? '',
  name: so?.name ?? '',
  fields: [],
  problems: so?.problems ?? [],
  blanks: [],
  reports: [],
});

/** What the job takes in sheet, as far as its parts can be read; `null` where none can. */
export const cutListAnswer = (
  { title, parts: written }: JobSoFar,
  families: ReadonlyMap<string, Template>,
  shop: Shop,
  tell?: TellProgress,
): Questions['cutlist']['answer'] => {
  const parts = written.flatMap(({ part }) => part ?? []);
  if (parts.length === 0) return null;
  const job = {
    title,
    shop: undefined,
    out: undefined,
    papers: [],
    paper: 'a4',
    printUnits: 'mm',
    parts,
  } as const;
  return cutListOfJob({ job, families, shop: shopOfJob(job, shop) }, counting(parts.length, tell))
    .result;
};

/** The archives for a cutting service, as the command makes them. */
export const packAnswer = async (
  text: string,
  families: ReadonlyMap<string, Template>,
  shop: Shop,
  tell?: TellProgress,
): Promise<PackAnswer> => {
  const read = readJob(text, families);
  if (!read.ok) return { problems: read.problems, files: [], left: [] };
  const { job } = read;
  const { result, files } = await packJob(
    { job, families, shop: shopOfJob(job, shop) },
    { make: counting(job.parts.length, tell) },
  );
  return {
    problems: [],
    files: files.map(({ name, contents }) => ({ name, contents })),
    left: result.left,
  };
};
