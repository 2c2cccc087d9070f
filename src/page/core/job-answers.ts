import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Template } from '../../forms/template.ts';
import type { JobSoFar, PartSoFar } from '../../jobfile/so-far.ts';
import type { Shop } from '../../model/shop.ts';
import { readShop } from '../../shop/read.ts';
import { cutListOfJob } from '../../use/cutlist/cut-list-of-job.ts';
import type { makeInStages } from '../../use/make/make-in-stages.ts';
import type { Made } from '../../use/make/make-parts.ts';
import type { PartAnswer, Questions } from './questions.ts';

/** The parts that the last stage gives. */
export const rest = (stages: ReturnType<typeof makeInStages>): Made => {
  for (;;) {
    const { done, value } = stages.next();
    if (done === true) return value;
  }
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
  given: problem.given.replace(/ at line \d+, column \d+/, ''),
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
): Questions['cutlist']['answer'] => {
  const parts = written.flatMap(({ part }) => part ?? []);
  if (parts.length === 0) return null;
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
    shop,
  }).result;
};
