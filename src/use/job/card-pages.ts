import { hasStop } from '../../model/finding.ts';
import { type PaperSize } from '../../model/paper.ts';
import { flattenSound } from '../../flatten/flatten.ts';
import { readInputs } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { JobPart } from '../../jobfile/job-file.ts';
import { cardPageCount } from '../../paper/draw/card-template.ts';
import { paperWords } from '../outputs/outputs-asked.ts';
import { isCardOf } from '../outputs/card-of.ts';
import { begin, blanksOf } from '../make/begin.ts';
import { handsApart, type OneMaking } from '../make/hands-apart.ts';
import { filledOptions } from '../make/make-options.ts';
import { type ReadyJob, templateOf } from './ready-job.ts';

/** So many pages are soon laid together, and nothing is said of them. */
const FEW_PAGES = 10;
/** Paper that fewer pages lie on, the usual first. */
const COARSER: readonly PaperSize[] = ['a3', { rollMm: 610 }, 'plotter'];

/**
 * How many pages all cards of a job take, told before any is made, and on which paper it would be
 * fewer: a line each; none where they are few. Blanks are laid flat for that and no more, in the design
 * that was given.
 */
export const cardPagesText = (ready: ReadyJob): string[] => {
  const { papers, paper = 'a4', parts } = ready.job;
  if (!papers.includes('card')) return [];
  const blanks = parts.map((part) => ({ name: part.name, flats: flatsOf(ready, part) }));
  const pagesOf = (flats: readonly FlatPattern[], size: PaperSize): number =>
    flats.reduce((sum, flat) => sum + cardPageCount(flat, size), 0);
  const all = blanks.flatMap(({ flats }) => flats);
  const sum = pagesOf(all, paper);
  if (sum <= FEW_PAGES) return [];
  const most = blanks
    .map(({ name, flats }) => ({ name, pages: pagesOf(flats, paper) }))
    .toSorted((a, b) => b.pages - a.pages)
    .slice(0, MOST_NAMED);
  const fewer = COARSER.map((size) => ({ size, pages: pagesOf(all, size) })).filter(
    ({ pages }) => pages < sum,
  );
  return [
    `Cards take ${sum} pages of ${paperWords(paper)} in all; most of them: ${most.map(({ name, pages }) => `${name} ${pages}`).join(', ')}.`,
    ...(fewer.length === 0
      ? []
      : [
          `  Fewer with paper: ${fewer.map(({ size, pages }) => `${paperWords(size)} (${pages})`).join(', ')}; or of a part only the pieces that are wanted: cardOf: NAME`,
        ]),
  ];
};

const MOST_NAMED = 3;

/** The blanks that a part of the job has cards of, one for each hand; none of what cannot be made. */
const flatsOf = (ready: ReadyJob, { family, inputs, way, cardOf }: JobPart): FlatPattern[] => {
  const template = templateOf(ready, family);
  const options = filledOptions({ ...way, shop: ready.shop, foldAt: 'service' });
  return handsApart(template, inputs, options).flatMap((one) => flatsOfOne(template, one, cardOf));
};

const flatsOfOne = (
  template: Template,
  { raw, options }: OneMaking,
  cardOf: JobPart['cardOf'],
): FlatPattern[] => {
  const read = readInputs(template, raw);
  if (!read.ok) return [];
  const begun = begin(template, raw, read, options);
  if (!begun.ok || hasStop(begun.context.findings)) return [];
  const { built, context } = begun;
  const { hand, rule } = context.values;
  return blanksOf(built, context).flatMap(({ id, part, findings }) => {
    if (part === undefined || hasStop(findings) || !isCardOf(cardOf, [id])) return [];
    const flat = flattenSound(part, rule);
    if (flat.outline.length === 0) return [];
    return hand === 'both' && options.apart === undefined ? [flat, flat] : [flat];
  });
};
