import { type DimensionedBlank, dimensionedBlank, type Field } from '../draw/dimensioned-blank.ts';
import { ANGLE_KEY, CHAIN_KEY, FOLD_KEY } from '../draw/line-types.ts';
import { sizesText } from '../sizes/size-tables.ts';
import type { BlankSizes } from '../sizes/blank-sizes.ts';
import type { Datum } from '../sizes/datum.ts';
import { datumText } from '../sizes/datum-text.ts';
import { foldedView } from '../draw/folded-view.ts';
import { hitTicks } from '../draw/hit-ticks.ts';
import { type Printed } from '../../text/printed.ts';
import { atLeast, figure } from '../../text/figures.ts';
import { hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { type SheetName, SHEETS } from '../../model/paper.ts';
import type { Part } from '../../model/part.ts';
import type { Picture } from '../../model/picture.ts';
import { rulesUsed } from '../../model/rules-used.ts';
import type { PartResult } from '../../contract/part.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import { contentMm, type Fact, GUTTER_MM, type PictureBlock, type SheetBlock } from './content.ts';
import { marksOf } from './sheet-findings.ts';
import { type SheetPart } from './sheet-head.ts';

/** The part in view over the blank, and beside it, on A4; wider paper has larger ones. */
const VIEW = { widthMm: 116, heightMm: 62 };
const SIDE_VIEW = { widthMm: 86, heightMm: 70 };
const onPaper = ({ widthMm, heightMm }: Field, paper: SheetName): Field => {
  const larger = contentMm(paper) / contentMm('a4');
  return { widthMm: widthMm * larger, heightMm: heightMm * larger };
};
/** How much more height a page has than one of A4, mm. */
const moreHeightMm = (paper: SheetName): number => SHEETS[paper].heightMm - SHEETS.a4.heightMm;
/** Of faces of arcs on paper, as a share of the part's size. */
const VIEW_SHARE = 1 / 1500;
/** More names than these hide the part. */
const MOST_NAMED = 12;

/** The first blocks of a sheet, and what the blank's picture tells. */
export interface Opening {
  readonly blocks: readonly SheetBlock[];
  readonly sizes: BlankSizes;
  /** Height of the blank's picture. */
  readonly blankMm: number;
}

/** The part and its blank, which is no higher than `mostMm` where that is given. */
export const opening = (
  { result, part, flat, datum }: SheetPart,
  print: Printed,
  {
    paper,
    isChain,
    mostMm = Infinity,
  }: {
    readonly paper: SheetName;
    readonly isChain: boolean;
    readonly mostMm: number | undefined;
  },
): Opening => {
  const facts = factsOf(result, print);
  const marks = marksOf(result.findings);
  const drawn = ({ widthMm, heightMm }: Field): DimensionedBlank =>
    dimensionedBlank(
      flat,
      datum,
      { widthMm, heightMm: Math.min(heightMm, Math.max(mostMm, LEAST_BLANK_MM)) },
      marks,
      { isChain, print },
    );
  const [view, side] = [onPaper(VIEW, paper), onPaper(SIDE_VIEW, paper)];
  const more = moreHeightMm(paper);
  const under = drawn({
    widthMm: contentMm(paper),
    heightMm: blankHeightMm(flat) + more - (view.heightMm - VIEW.heightMm),
  });
  const beside = drawn({
    widthMm: contentMm(paper) - side.widthMm - GUTTER_MM,
    heightMm: sideHeightMm(flat.bends.length) + more,
  });
  // Where it is drawn larger.
  const isBeside = beside.scale > under.scale;
  const picture = viewOf(part, flat, result, isBeside ? side : view, print);
  const plain = isBeside ? beside : under;
  const ticks = hitTicks(flat, result.foldPlan, plain.at);
  const taken = {
    ...plain,
    picture: { ...plain.picture, items: [...plain.picture.items, ...ticks] },
  };
  const blank = blankBlock(datum, taken, {
    isMarked: marks.length > 0,
    isChain,
  });
  const overview = { kind: 'overview', ...(picture !== undefined && { picture }), facts } as const;
  return {
    sizes: taken.sizes,
    blankMm: taken.picture.heightMm,
    blocks: isBeside ? [{ ...overview, blank }] : [overview, blank],
  };
};

/** Of a stopped part there is nothing to be folded up: its holes may lie off the metal. */
const viewOf = (
  part: Part,
  flat: FlatPattern,
  { folded, bends, findings }: PartResult,
  size: typeof VIEW,
  print: Printed,
): Picture | undefined => {
  if (folded === null || hasStop(findings)) return undefined;
  const mesh = foldedMesh(part, flat, Math.max(0.02, Math.max(...folded.sizeMm) * VIEW_SHARE));
  if (mesh === undefined) return undefined;
  const [x, y, z] = folded.sizeMm.map((v) => print.tape(v, 1)) as [string, string, string];
  const labels =
    bends.length > MOST_NAMED ? {} : { labels: new Map(bends.map(({ id }) => [id, id])) };
  return foldedView(mesh, { ...size, sizes: [x, y, z], ...labels });
};

const factsOf = ({ blank, folded, rule, bends, proof }: PartResult, print: Printed): Fact[] => [
  ...(blank === null
    ? []
    : [
        {
          name: `Blank, ${print.word}`,
          value: `${print.tape(blank.widthMm, 1)} x ${print.tape(blank.heightMm, 1)}`,
          isBig: true,
        },
      ]),
  ...(folded === null
    ? []
    : [
        {
          name: `Folded, outside, ${print.word}`,
          value: folded.sizeMm.map((v) => print.tape(v, 1)).join(' x '),
          isBig: true,
        },
      ]),
  ...(blank === null
    ? []
    : [
        { name: 'Mass', value: `${figure(blank.massKg, 3)} kg` },
        {
          name: 'Cut length',
          value: `${print.machine(blank.cutLengthMm, 0)} ${print.word}, ${blank.pierces} ${blank.pierces === 1 ? 'pierce' : 'pierces'}`,
        },
        { name: 'Area of metal', value: print.area(blank.areaMm2) },
      ]),
  ...(bends.length === 0 ? [] : [{ name: 'Bends by', value: rulesUsed(rule, bends) }]),
  ...(proof === null
    ? []
    : [
        {
          name: 'Proof of the cut file',
          value: print.words(
            `within ${atLeast(proof.worstMm, 3)} mm in ${proof.measures.length} measures`,
          ),
        },
      ]),
];

/** A lower picture of a blank shows nothing: it begins the next page, mm. */
const LEAST_BLANK_MM = 60;

/** So high that the tables of one or two bends and a few holes stand on the same page. */
const blankHeightMm = ({ bends, cutouts }: FlatPattern): number =>
  bends.length > 2
    ? 126
    : Math.max(
        78,
        122 -
          6.5 * bends.length -
          (cutouts.length > 0 && cutouts.length <= 4 ? 13 + 3 * cutouts.length : 0),
      );

const sideHeightMm = (bends: number): number =>
  bends > 8 ? 175 : Math.max(125, 160 - 6.5 * bends);

const blankBlock = (
  datum: Datum,
  { picture, leftOut, sizes }: DimensionedBlank,
  { isMarked, isChain }: { readonly isMarked: boolean; readonly isChain: boolean },
): PictureBlock => ({
  kind: 'picture',
  title: 'Blank, developed',
  picture,
  captions: [
    `${sizesText(sizes.print)} Not to scale. ${datumText(datum)}${isChain ? ` ${CHAIN_KEY}` : ''}`,
    ...(sizes.drawn.flat.bends.length === 0
      ? ['This face is up.']
      : [`This face is up. ${FOLD_KEY} ${ANGLE_KEY}`]),
    ...(isMarked ? ['Rings with a number: see the findings.'] : []),
    ...(leftOut === 0
      ? []
      : [`${leftOut} ${leftOut === 1 ? 'name has' : 'names have'} no room here: see the tables.`]),
  ],
});
