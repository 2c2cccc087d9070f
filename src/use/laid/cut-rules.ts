import type { FindingResult } from '../../contract/part.ts';
import type { CutRules, SheetCuts } from '../../cutting/sheet-cuts.ts';
import { CAUTIONS } from '../../data/cautions.ts';
import { LEAD_IN } from '../../data/lead-in.ts';
import { loopExtents } from '../../geometry/extents.ts';
import type { LaidSheet } from '../../model/laid.ts';
import {
  type Cutter,
  cutterFor,
  kerfOf,
  limitOf,
  type MaterialFamily,
  type Shop,
} from '../../model/shop.ts';
import { shearWords } from '../../paper/laid/laid-words.ts';
import type { RuleName } from '../../rules/index.ts';
import { atLeast, figure } from '../../text/figures.ts';
import { printedIn } from '../../text/printed.ts';

/** What the cutter of a shop asks of the order of cutting, and of the room before an outline. */
export interface CutterRules extends CutRules {
  readonly cutter?: Cutter | undefined;
}

/** A pierce is about twice as wide as the cut (from memory): half of that is a kerf. */
const PIERCE_KERFS = 1;

/** By the cutter that takes the sheet; where none does, or no shop is known, nothing is asked. */
export const cutRulesOf = (
  shop: Shop | undefined,
  { thicknessMm }: LaidSheet,
  family: MaterialFamily | undefined,
): CutterRules => {
  const cutter = shop === undefined ? undefined : cutterFor(shop, thicknessMm);
  if (cutter === undefined) return { mayWarp: false };
  const kerf = kerfOf(cutter, family ?? 'steel', thicknessMm);
  const rows = LEAD_IN[cutter.process].value;
  return {
    cutter,
    mayWarp: thicknessMm <= cutter.warpsUpTo,
    leadIn: { longMm: limitOf(rows, thicknessMm, kerf), clearMm: PIERCE_KERFS * kerf },
  };
};

/** What there is to be known before a sheet is cut. */
export const cutFindings = (cuts: SheetCuts, { leadIn, cutter }: CutterRules): FindingResult[] => {
  const { blanks, order, sheet } = cuts;
  const nameOf = (at: number): string =>
    blanks.find(({ part }) => part === sheet.parts[at])?.name ?? '';
  const tight = blanks.filter(
    ({ leadInMm }) => leadIn !== undefined && leadInMm !== undefined && leadInMm < leadIn.longMm,
  );
  return [
    ...(leadIn === undefined || cutter === undefined || tight.length === 0
      ? []
      : [
          {
            rule: 'lead-in-room' satisfies RuleName,
            severity: 'warn',
            message:
              `On ${sheet.name} a pierce on ${cutter.name} with its lead-in of ${figure(leadIn.longMm, 1)} mm has no room beside ${tight
                .map(({ name, leadInMm = 0 }) => `${name} (${figure(leadInMm, 1)} mm)`)
                .join(', ')}, with a gap of ${figure(sheet.gapMm)} mm. ` +
              `Leave a gap of ${atLeast(leadIn.longMm + leadIn.clearMm, 1)} mm, or set a lead-in no longer than the figures in brackets and try it on scrap.`,
          } as const,
        ]),
    ...order.inARow.map(
      ([a, b]) =>
        ({
          rule: 'long-neighbours' satisfies RuleName,
          severity: 'note',
          message: `On ${sheet.name} ${nameOf(a)} and ${nameOf(b)} lie side by side over a long way and are cut one after the other, since there is no other order: let the sheet cool between the two.`,
        }) as const,
    ),
  ];
};

/** Where a sheet is sheared before it is cut. */
export const shearFindings = (
  { name, stock }: LaidSheet,
  { cutter }: CutterRules,
): FindingResult[] => {
  if (stock.shears === undefined || cutter === undefined) return [];
  const { maxX = 0, maxY = 0 } = loopExtents(stock.outline) ?? {};
  const size = (a: number, b: number): string => `${figure(a, 1)} x ${figure(b, 1)} mm`;
  return [
    {
      rule: 'stock-over-bed' satisfies RuleName,
      severity: 'note',
      message: `The sheet of ${name}, ${size(maxX, maxY)}, is larger than the bed of ${cutter.name}, ${size(cutter.bed.length, cutter.bed.width)}. Shear it first, ${shearWords(stock.shears, printedIn('mm'))}: each piece has its own file, called by a letter, from the lower left on, row by row.`,
    },
  ];
};

/** What to beware of where a sheet is cut, in a few words each. */
export const cautionsOf = (
  { cutter }: CutterRules,
  family: MaterialFamily | undefined,
): string[] => {
  const isHot = cutter?.process === 'plasma' && family !== undefined;
  return [
    CAUTIONS['sharp-edges'],
    CAUTIONS.eyes,
    ...(isHot ? [CAUTIONS[`${family}-fume`]] : []),
  ].map(({ short }) => short);
};
