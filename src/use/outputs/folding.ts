import { printedIn } from '../../text/printed.ts';
import { type FoldCards, foldPages } from '../../paper/draw/fold-pages.ts';
import { blockedScenes, foldScenes, type PartDrawn } from '../../paper/draw/fold-scene.ts';
import {
  BLOCKED_KEY,
  blockedSummary,
  blockedWords,
  cardLines,
  STEP_KEY,
  stepWords,
} from '../../paper/draw/fold-words.ts';
import { foldHtml } from '../../paper/write/fold-html.ts';
import { foldSvg } from '../../paper/write/fold-svg.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import type { Contents, MarkedFile } from '../../model/output-file.ts';
import type { FindingResult, PartResult } from '../../contract/part.ts';
import { type Caution, CAUTIONS, cautionsAmong } from '../../data/cautions.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import { sheetName } from '../../model/paper.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import type { WholePart } from '../made-part.ts';
import { outputsNamed } from './index.ts';
import { type OutputSource, shared, type Written } from './output.ts';

/** The step cards of a part, or what prevents it from being folded, as one picture. */
export const foldingSvg = (source: OutputSource): Written =>
  written(source, (cards, mark) => foldSvg(cards, mark));

/** The same for paper, one stroke a page. */
export const foldingPdf = (source: OutputSource): Written =>
  written(source, (cards, mark) =>
    writePdf(foldPages(cards, sheetName(source.paper)), { title: cards.heading, mark }),
  );

/** The same for a phone, one stroke a screen. */
export const foldingHtml = (source: OutputSource): Written =>
  written(source, (cards, mark) => foldHtml(cards, mark));

const written = (
  source: OutputSource,
  write: (cards: FoldCards, mark: string) => Contents,
): Written => {
  const cards = cardsOfSource(source);
  return cards === undefined ? {} : { contents: write(cards, source.made.mark) };
};

const cardsOfSource = shared(({ made, paperMark, printUnits }): FoldCards | undefined =>
  made.plan === undefined
    ? undefined
    : foldCards(made.result, made.plan, { ...made, print: printedIn(printUnits) }, paperMark),
);

/** The files of such cards, by another plan than the one the part was made with; no cut file is named. */
export const foldingFiles = (
  { base, mark, result, part, flat }: WholePart,
  plan: PartPlan,
  print = printedIn(),
): MarkedFile[] => {
  const cards = foldCards(result, plan, { part, flat, print });
  if (cards === undefined) return [];
  const contents: Readonly<Record<string, () => Contents>> = {
    '-folding.svg': () => foldSvg(cards, mark),
    '-folding.pdf': () => writePdf(foldPages(cards), { title: cards.heading, mark }),
    '-folding.html': () => foldHtml(cards, mark),
  };
  const cardsOnly = outputsNamed('folding').filter(({ extension }) => extension in contents);
  return cardsOnly.map(({ extension }) => ({
    name: base + extension,
    contents: (contents[extension] as () => Contents)(),
    mark,
  }));
};

/**
 * A plan as cards; folds made by hand come last and have no picture. Where the part cannot be folded,
 * they show what prevents it; where the search was broken off, there are none.
 */
export const foldCards = (
  { name, findings }: Pick<PartResult, 'name' | 'findings'>,
  plan: PartPlan,
  drawn: PartDrawn,
  paperMark: PaperMark = { part: name },
): FoldCards | undefined => {
  if (plan.plan.feasible === null) return undefined;
  const told = plan.plan.feasible
    ? stepsOf(name, plan, drawn, cautionLines(findings, saidOnCards(plan)))
    : blockedOf(name, plan, drawn, cautionLines(findings, []));
  return { ...told, paperMark };
};

/** What the line CARE of a card says for its own stroke, and need not be said for all. */
const saidOnCards = ({ plan: { steps } }: PartPlan): Caution[] => [
  ...(steps.length > 0 ? [CAUTIONS['sharp-edges']] : []),
  ...(steps.some(({ card }) => card.tools.length > 0) ? [CAUTIONS.pinch] : []),
];

/** What is dangerous at the machine in full, the rest in a few words. */
const cautionLines = (findings: readonly FindingResult[], said: readonly Caution[]): string[] => {
  const all = cautionsAmong(findings).filter((caution) => !said.includes(caution));
  const others = all.filter(({ at }) => at !== 'folding').map(({ short }) => short);
  return [
    ...all.filter(({ at }) => at === 'folding').map(({ text }) => `CAUTION: ${text}`),
    ...(others.length === 0 ? [] : [`CAUTION, besides: ${others.join('; ')}.`]),
  ];
};

const stepsOf = (
  name: string,
  plan: PartPlan,
  drawn: PartDrawn,
  cautions: readonly string[],
): Omit<FoldCards, 'paperMark'> => {
  const scenes = foldScenes(plan, drawn);
  const { words } = drawn.print ?? printedIn();
  return {
    heading: `${name}: how it is folded`,
    captions: [...cautions, `On ${plan.machine.name}`, STEP_KEY].map(words),
    strokes: plan.plan.steps.map((step, i) => ({
      title: stepWords(step, i + 1).title,
      lines: cardLines(step, drawn.print),
      ...(scenes[i] !== undefined && { scene: scenes[i] }),
    })),
  };
};

const blockedOf = (
  name: string,
  plan: PartPlan,
  drawn: PartDrawn,
  cautions: readonly string[],
): Omit<FoldCards, 'paperMark'> => ({
  heading: `${name}: why no order of folds works`,
  captions: [
    ...cautions,
    `On ${plan.machine.name}. ${BLOCKED_KEY}`,
    ...blockedSummary(plan.plan),
  ].map((drawn.print ?? printedIn()).words),
  strokes: blockedScenes(plan, drawn).map(({ blocked, scene }) => {
    const { title, lines } = blockedWords(blocked);
    return {
      title,
      lines: lines.map((line) => ['WHY', (drawn.print ?? printedIn()).words(line)] as const),
      ...(scene !== undefined && { scene }),
    };
  }),
});
