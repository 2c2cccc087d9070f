import { grainWish } from '../../checks/grain-direction.ts';
import type { FindingResult } from '../../contract/part.ts';
import type { Region } from '../../geometry/region.ts';
import type { LayRequest, LeftOut, PartToLay } from '../../lay/sheets/request.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { Material } from '../../model/material.ts';
import { cutterFor, kerfOf, limitOf, type Shop } from '../../model/shop.ts';
import { isOfStock, type StockPiece } from '../../model/stock.ts';
import { grouped } from '../../text/grouped.ts';
import { type ReadyJob, templateOf } from '../job/ready-job.ts';
import type { WholePart } from '../made-part.ts';
import { makeParts } from '../make/make-parts.ts';
import { drawnRegion, hasMarks } from './drawn-region.ts';
import { ontoBed } from './onto-bed.ts';

/** Turns that parts may be laid in. */
export const TURNS = ['0', '180', '90', 'any'] as const;

/** What is asked of a layout. */
export interface LayAsked {
  readonly turns: (typeof TURNS)[number];
  /** In place of what the cutter needs, mm. */
  readonly gapMm?: number | undefined;
  readonly edgeMm?: number | undefined;
  /** Width along the lower edge of sheets and remnants that clamps hold, mm; the cutter's without. */
  readonly clampsMm?: number | undefined;
  /** One face of the sheet is the good one: brushed, coated. No part is turned over. */
  readonly hasGoodFace: boolean;
  /** Whether more sheets may be bought than are in stock. */
  readonly mayBuy: boolean;
  /** Names of parts that are laid first, and of those that come onto one sheet. */
  readonly first: readonly string[];
  readonly together: readonly (readonly string[])[];
}

/** All parts of one material and thickness, and what they are laid on. */
export interface LayGroup {
  readonly material: Material;
  readonly thicknessMm: number;
  /** The stock that its parts may be cut from, as it was given. */
  readonly stock: readonly StockPiece[];
  /** What was found of that stock, such as a remnant larger than the bed of the cutter. */
  readonly findings: readonly FindingResult[];
  readonly request: LayRequest;
}

/** What is to be laid. */
export interface ToLay {
  readonly groups: readonly LayGroup[];
  /** Parts that are not laid whatever the stock. */
  readonly left: readonly LeftOut[];
  readonly findings: readonly FindingResult[];
  /** By the names of the parts: what is drawn of each, and what is cut. */
  readonly drawings: ReadonlyMap<string, Drawing>;
  readonly outlines: ReadonlyMap<string, Region>;
}

/** A part with all that is needed to lay it. */
export interface LayBlank {
  readonly name: string;
  readonly quantity: number;
  readonly material: Material;
  readonly thicknessMm: number;
  readonly drawing: Drawing;
  readonly grain: PartToLay['grain'];
}

/** The blanks of a job by material and thickness, with the stock for each. */
export const layGroupsOfJob = (
  ready: ReadyJob,
  stock: readonly StockPiece[],
  asked: LayAsked,
): ToLay => {
  const blanks: LayBlank[] = [];
  const left: LeftOut[] = [];
  const findings: FindingResult[] = [];
  for (const { family, inputs, way } of ready.job.parts) {
    const made = makeParts(templateOf(ready, family), inputs, { ...way, shop: ready.shop });
    // The inputs were already read with the job.
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    for (const one of made.parts) {
      const { name, quantity } = one.result;
      findings.push(...one.result.findings);
      if (one.stopped) left.push({ name, count: quantity, reason: CANNOT_BE_MADE });
      else blanks.push(blankOf(one));
    }
  }
  return { ...layGroups(blanks, ready.shop, stock, asked), left, findings };
};

const CANNOT_BE_MADE = 'it cannot be made; blankwright job tells why';

const blankOf = ({ result: { name, quantity }, material, flat, drawing }: WholePart): LayBlank => ({
  name,
  quantity,
  material,
  thicknessMm: flat.thicknessMm,
  drawing,
  grain: grainWish(flat, material),
});

/** Any parts by material and thickness, with the stock for each. */
export const layGroups = (
  given: readonly LayBlank[],
  shop: Shop,
  stock: readonly StockPiece[],
  asked: LayAsked,
): Omit<ToLay, 'left' | 'findings'> => {
  const blanks = withOwnNames(given);
  return {
    groups: grouped(blanks, ({ material, thicknessMm }) => `${material.id} ${thicknessMm}`).map(
      (group) => groupOf(group, shop, stock, asked),
    ),
    drawings: new Map(blanks.map(({ name, drawing }) => [name, drawing])),
    outlines: new Map(blanks.map(({ name, drawing }) => [name, drawnRegion(drawing)])),
  };
};

/** Of two parts with one name the second is called by a number too. */
const withOwnNames = (blanks: readonly LayBlank[]): readonly LayBlank[] => {
  const taken = new Set<string>();
  return blanks.map((blank) => {
    let name = blank.name;
    for (let n = 2; taken.has(name); n++) name = `${blank.name} (${n})`;
    taken.add(name);
    return { ...blank, name };
  });
};

const groupOf = (
  blanks: readonly LayBlank[],
  shop: Shop,
  stock: readonly StockPiece[],
  asked: LayAsked,
): LayGroup => {
  const [{ material, thicknessMm }] = blanks as readonly [LayBlank];
  const { gapMm, edgeMm } = distancesOf(shop, material, thicknessMm, asked);
  const cutter = cutterFor(shop, thicknessMm);
  const clampsMm = asked.clampsMm ?? cutter?.clamps ?? 0;
  const ofIt = stock.filter((piece) => isOfStock(piece, material, thicknessMm));
  const { pieces: own, findings } = ontoBed(ofIt, cutter);
  return {
    material,
    thicknessMm,
    stock: own,
    findings,
    request: {
      parts: blanks.map((blank) => partOf(blank, shop, asked)),
      pieces: withBought(own, asked.mayBuy),
      gapMm,
      edgeMm,
      clampsMm,
    },
  };
};

/** Of sheets that are counted more can be bought, under the same name. */
const withBought = (pieces: readonly StockPiece[], mayBuy: boolean): readonly StockPiece[] =>
  mayBuy
    ? pieces.flatMap((piece) =>
        piece.isRemnant || piece.count === undefined
          ? [piece]
          : [piece, { ...piece, count: undefined }],
      )
    : pieces.map((piece) => ({ ...piece, count: piece.count ?? 0 }));

/** Where no cutter takes the sheet: two thicknesses, and no less than this, mm (common practice). */
const NO_CUTTER_MM = 5;

/** The cut is taken out of the gap, and what stays must be as wide as the cutter leaves it. */
const distancesOf = (
  shop: Shop,
  { family }: Material,
  thicknessMm: number,
  { gapMm, edgeMm }: LayAsked,
): { readonly gapMm: number; readonly edgeMm: number } => {
  const cutter = cutterFor(shop, thicknessMm);
  const kerf = cutter === undefined ? 0 : kerfOf(cutter, family, thicknessMm);
  const own =
    cutter === undefined
      ? Math.max(NO_CUTTER_MM, 2 * thicknessMm)
      : kerf + limitOf(cutter.leastWeb, thicknessMm, kerf);
  return { gapMm: gapMm ?? own, edgeMm: edgeMm ?? own };
};

const TURNS_DEG: Readonly<Record<LayAsked['turns'], readonly number[] | 'any'>> = {
  '0': [0],
  '180': [0, 180],
  '90': [0, 90, 180, 270],
  any: 'any',
};

const partOf = (
  { name, quantity, drawing, grain, thicknessMm }: LayBlank,
  shop: Shop,
  asked: LayAsked,
): PartToLay => ({
  name,
  ...drawnRegion(drawing),
  quantity,
  turnsDeg: TURNS_DEG[asked.turns],
  mayTurnOver:
    !asked.hasGoodFace &&
    shop.handover.protect === 'none' &&
    !(cutterFor(shop, thicknessMm)?.marks === true && hasMarks(drawing)),
  grain,
  isFirst: asked.first.includes(name),
  together: asked.together.find((names) => names.includes(name))?.join(', '),
});

/**
 * A group's request on what earlier groups have left: sheets of any material or thickness are there
 * for all of them, and each but once.
 */
export const onWhatIsLeft = ({ request }: LayGroup, used: readonly StockPiece[]): LayRequest => ({
  ...request,
  pieces: request.pieces.map((piece) => {
    const { name, count } = piece;
    if (count === undefined) return piece;
    const gone = used.filter((u) => u.name === name && u.count !== undefined).length;
    return gone === 0 ? piece : { ...piece, count: Math.max(0, count - gone) };
  }),
});
