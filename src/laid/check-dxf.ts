import { drawnLines } from '../dxf/read/drawn.ts';
import { readRecords } from '../dxf/read/records.ts';
import { unlessRefused } from '../dxf/read/refusal.ts';
import { UNSTATED_UNITS, unitOf, type UnstatedUnit } from '../dxf/read/units.ts';
import type { Loop } from '../geometry/loop.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';
import type { Drawing } from '../model/drawing.ts';
import type { LaidSheet } from '../model/laid.ts';
import { fileLines } from '../proof/file-lines.ts';
import { type Fault, layoutFaults, type Lying } from './check-layout.ts';
import { findParts, type Found, type Wanted, wantedOf } from './find-parts.ts';

/**
 * What is wrong with the file of a laid sheet. Besides what may be wrong with any layout:
 *
 * - `unreadable`: nothing could be read, for the reason told;
 * - `missing`: no line of the file has the shape of the part;
 * - `moved`: the part lies this far from where it should;
 * - `other-face`: it lies turned over where it should not, or the other way round;
 * - `inner-missing`: so many of its inner cuts are not in the file;
 * - `stray`, `open`: so many closed lines of no part; so many lines that do not close.
 */
export type DxfLayoutFault =
  | Fault
  | { readonly kind: 'unreadable'; readonly reason: string }
  | { readonly kind: 'missing' | 'other-face'; readonly part: string }
  | { readonly kind: 'moved'; readonly part: string; readonly mm: number }
  | { readonly kind: 'inner-missing'; readonly part: string; readonly count: number }
  | { readonly kind: 'stray' | 'open'; readonly count: number };

export interface DxfLayout {
  readonly dxf: string;
  readonly sheet: LaidSheet;
  /** The drawing of each part, by its name. */
  readonly drawings: ReadonlyMap<string, Drawing>;
  /** The unit of a file that states none; mm when left out. */
  readonly unit?: UnstatedUnit;
}

/**
 * What is wrong with the text of a laid sheet's DXF: it is read again, every part is found by the
 * shape of its own blank, and gaps are measured between the lines of the file, to 0.01 mm. It shares
 * nothing with the search for the layout, nor with what wrote the file.
 */
export const layoutFaultsOfDxf = (layout: DxfLayout): readonly DxfLayoutFault[] => {
  const lines = linesOf(layout);
  if ('reason' in lines) return [{ kind: 'unreadable', reason: lines.reason }];
  const { sheet, drawings } = layout;
  const wanted = sheet.parts.map((part) => {
    const drawing = drawings.get(part.name);
    if (drawing === undefined) throw new Error(`no drawing of ${part.name}`);
    return wantedOf(drawing, part);
  });
  const { found, strays } = findParts(wanted, lines.closed);
  const lying = wanted.flatMap((part): Lying[] => {
    const at = found.get(part);
    return at === undefined ? [] : [{ name: part.name, outline: at.outline, holes: at.inner }];
  });
  const { gapMm, edgeMm, clampsMm, stock } = sheet;
  return [
    ...wanted.flatMap((part) => faultsOf(part, found.get(part))),
    ...counted('stray', strays.length),
    ...counted('open', lines.open),
    ...layoutFaults(lying, stock, { gapMm, edgeMm, clampsMm, withinMm: PROOF_MM }),
  ];
};

const counted = (kind: 'stray' | 'open', count: number): DxfLayoutFault[] =>
  count === 0 ? [] : [{ kind, count }];

const faultsOf = ({ name: part }: Wanted, found: Found | undefined): DxfLayoutFault[] => {
  if (found === undefined) return [{ kind: 'missing', part }];
  const { offMm, lost, isOtherFace } = found;
  return [
    ...(isOtherFace ? [{ kind: 'other-face', part } as const] : []),
    ...(offMm > PROOF_MM ? [{ kind: 'moved', part, mm: offMm } as const] : []),
    ...(lost > 0 ? [{ kind: 'inner-missing', part, count: lost } as const] : []),
  ];
};

/** The closed lines of a file that are cut, mm, and how many do not close. */
const linesOf = ({
  dxf,
  drawings,
  unit = 'mm',
}: DxfLayout):
  { readonly closed: readonly Loop[]; readonly open: number } | { readonly reason: string } =>
  unlessRefused(() => {
    const sections = readRecords(dxf);
    if (!sections.hasEntities) return { ok: false, reason: 'it has no ENTITIES section', mend: '' };
    if (sections.isCutOff) return { ok: false, reason: 'it is cut off before its end', mend: '' };
    const { mm } = unitOf(sections.header).stated ?? UNSTATED_UNITS[unit];
    const hasArcs = [...drawings.values()].some(({ items }) =>
      items.some(
        (item) =>
          item.kind === 'circle' || (item.kind === 'loop' && item.loop.some((v) => v.bulge !== 0)),
      ),
    );
    const { outlines, holes, open } = fileLines(drawnLines(sections, mm), hasArcs);
    return { closed: [...outlines, ...holes].map(({ loop }) => loop), open: open.length };
  });
