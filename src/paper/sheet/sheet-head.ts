import { type Caution, onEveryPage } from '../../data/cautions.ts';
import { hasStop } from '../../model/finding.ts';
import { figure } from '../../text/figures.ts';
import type { SheetBlock, SheetHead } from './content.ts';
import type { FindingResult, PartResult } from '../../contract/part.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Material } from '../../model/material.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { Part } from '../../model/part.ts';
import { safeName } from '../../text/safe-name.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import type { Datum } from '../sizes/datum.ts';

/** What of a made part its sheet is drawn from. */
export interface SheetPart {
  readonly result: PartResult;
  readonly mark: string;
  readonly part: Part;
  readonly flat: FlatPattern;
  /** What sizes are measured from. */
  readonly datum: Datum;
  readonly material: Material;
  readonly plan?: PartPlan;
}

/** In a few words on the first page; at their step they stand in full. */
export const cautionNotice = (cautions: readonly Caution[]): SheetBlock[] =>
  cautions.length === 0
    ? []
    : [
        {
          kind: 'notice',
          lead: 'CAUTION',
          text: `${cautions.map(({ short }) => short).join('; ')}.`,
        },
      ];

/** Cautions that stand on every page, for the head of a paper. */
export const cautionOfPages = (cautions: readonly Caution[]): Pick<SheetHead, 'caution'> => {
  const told = onEveryPage(cautions).map(({ short }) => short);
  return told.length === 0 ? {} : { caution: `CAUTION ${told.join('; ')}.` };
};

/** The warnings by their rules; further on they stand in full. */
export const decisionNotice = (findings: readonly FindingResult[]): SheetBlock[] => {
  const rules = new Set(findings.filter((f) => f.severity === 'warn').map(({ rule }) => rule));
  return rules.size === 0
    ? []
    : [
        {
          kind: 'notice',
          lead: 'DECIDE',
          text: `${[...rules].map((rule) => rule.replaceAll('-', ' ')).join('; ')}.`,
        },
      ];
};

/** What papers tell beside their part, where it is known. */
export interface PapersAbout {
  readonly paperMark?: PaperMark | undefined;
  readonly revision?: string | undefined;
  /** As the user wrote it. */
  readonly date?: string | undefined;
}

/** Who the sheet is of; the hand where it has to be told from another. */
export const headOf = (
  { result, mark, material }: SheetPart,
  isHanded: boolean,
  { paperMark, revision = '', date = '' }: PapersAbout,
  lines: readonly string[],
): SheetHead => {
  const { name, family, piece, hand, quantity, material: sheet, findings } = result;
  return {
    name,
    ...(isHanded && { hand: `${hand.toUpperCase()} HAND` }),
    quantity: `${quantity} off`,
    sheet: `${material.name}, ${figure(sheet.thicknessMm, 3)} mm`,
    lines: [piece === null ? family : `${family}: ${piece}`, ...lines],
    ...(hasStop(findings) && { stop: 'DO NOT CUT: see what stops it.' }),
    mark,
    paperMark: paperMark ?? { part: name, revision },
    title: { paper: `${safeName(name)}-sheet`, scale: 'not to scale', revision, date },
  };
};
