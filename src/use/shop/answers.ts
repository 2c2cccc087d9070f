import { springbackOf } from '../../bending/springback.ts';
import { findMaterial, MATERIALS } from '../../data/materials.ts';
import { MATERIAL_FAMILIES } from '../../shop/cutter.ts';
import { figure } from '../../text/figures.ts';
import { parseLength } from '../../text/units.ts';

/** What an answer says, or what is allowed in its place. */
export type Answer<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: string };

/** Far more fingers of one width than any machine has. */
const MOST_ALIKE = 60;

/**
 * Widths, counted: `25 x4, 50 x2, 100` are seven, mm. A comma, a semicolon or a plus stands between
 * them.
 */
export function countedWidths(text: string): Answer<readonly number[]> {
  const widths: number[] = [];
  for (const entry of text.split(/[,;+]/).map((e) => e.trim())) {
    const [, width = '', times = '1'] = /^(.*?)(?:\s*[x*]\s*(\d+))?$/i.exec(entry) ?? [];
    const read = parseLength(width);
    const count = Number(times);
    if (!read.ok || read.value <= 0 || count < 1 || count > MOST_ALIKE)
      return {
        ok: false,
        why: `'${entry}' is no width: allowed: widths with how many there are of each, such as 25 x4, 50 x2, 100`,
      };
    widths.push(...Array.from({ length: count }, () => read.value));
  }
  return { ok: true, value: widths };
}

/** Lengths, one after the other: `0.5, 2`. */
export function lengthsOf(text: string): Answer<readonly number[]> {
  const read = text.split(/[,;]/).map((entry) => parseLength(entry.trim()));
  const values = read.flatMap((r) => (r.ok ? [r.value] : []));
  return values.length === read.length
    ? { ok: true, value: values }
    : { ok: false, why: 'allowed: lengths in mm with commas between, such as 0.5, 2' };
}

/** Two lengths, `2500 x 1250`, or three. */
const crossed = (text: string): readonly number[] | undefined => {
  const read = text.split(/\s*[x*]\s*/i).map((part) => parseLength(part.trim()));
  const values = read.flatMap((r) => (r.ok && r.value > 0 ? [r.value] : []));
  return values.length === read.length ? values : undefined;
};

const METALS: readonly string[] = [...MATERIAL_FAMILIES, ...MATERIALS.map((m) => m.id)];

/** Sheets as the shop file has them: `2500 x 1250, 2000 x 1000 x 2 steel`. */
export function sheetsOf(text: string): Answer<readonly Readonly<Record<string, unknown>>[]> {
  const sheets: Readonly<Record<string, unknown>>[] = [];
  for (const entry of text.split(/[,;]/).map((e) => e.trim())) {
    const [, before = '', last = ''] = /^(.*)\s(\S+)$/.exec(entry) ?? [];
    const material = METALS.includes(last.toLowerCase()) ? last.toLowerCase() : undefined;
    const sizes = material === undefined ? entry : before;
    const [length, width, thickness, ...more] = crossed(sizes) ?? [];
    if (length === undefined || width === undefined || more.length > 0)
      return {
        ok: false,
        why: `'${entry}' is no sheet: allowed: length x width, with the thickness and the metal (${MATERIAL_FAMILIES.join(', ')}, or an id of blankwright materials) where it has one, such as 2500 x 1250, 2000 x 1000 x 2 steel`,
      };
    sheets.push({
      length,
      width,
      ...(thickness !== undefined && { thickness }),
      ...(material !== undefined && { material }),
    });
  }
  return { ok: true, value: sheets };
}

/** Length and width of a bed: `2500 x 1250`. */
export function bedOf(text: string): Answer<{ readonly length: number; readonly width: number }> {
  const [length, width, ...more] = crossed(text) ?? [];
  return length === undefined || width === undefined || more.length > 0
    ? { ok: false, why: 'allowed: length x width, such as 2500 x 1250' }
    : { ok: true, value: { length, width } };
}

/** A sheet by its material and thickness: `dc01 1.5`. */
export function sheetOf(
  text: string,
): Answer<{ readonly material: string; readonly thickness: number }> {
  const [, name = '', mm = ''] = /^(\S+)\s+(.+)$/.exec(text.trim()) ?? [];
  const [material, thickness] = [findMaterial(name), parseLength(mm)];
  if (name !== '' && !material.ok) return { ok: false, why: material.reason };
  return material.ok && thickness.ok && thickness.value > 0
    ? { ok: true, value: { material: material.value.id, thickness: thickness.value } }
    : { ok: false, why: 'allowed: material and thickness, such as dc01 1.5' };
}

/** A test fold: at what the stop was set, and at what angle from flat it came out, degrees. */
export interface TestFold {
  readonly setDeg: number;
  readonly cameDeg: number;
  readonly material: string;
  readonly thickness: number;
}

/** More than this is a misreading: an angle read from the wrong side, most likely. */
export const MOST_OFFSET_DEG = 20;

/**
 * How much more the stop reads than the metal was turned: what it was set to, less the angle to
 * which the metal must have been turned to come out as it did (`springbackOf`, for a radius of one
 * thickness, which a test strip has as a rule).
 */
export const offsetDeg = ({ setDeg, cameDeg, material, thickness }: TestFold): number => {
  const found = findMaterial(material);
  if (!found.ok) throw new Error(`no material ${material}`);
  return setDeg - cameDeg / springbackOf(found.value, thickness, thickness).factor;
};

/** Offsets of one stop that differ by more than this were not all read well, degrees. */
const SAME_OFFSET_DEG = 1;

/** The offset that test folds show, their mean to a tenth of a degree, and how it was found. */
export function stopOffset(folds: readonly TestFold[]): {
  readonly deg: number;
  readonly remark: string;
  /** Said where the folds disagree. */
  readonly doubt: string | undefined;
} {
  const offsets = folds.map(offsetDeg);
  const mean = offsets.reduce((sum, deg) => sum + deg, 0) / offsets.length;
  const spread = Math.max(...offsets) - Math.min(...offsets);
  const remark = folds
    .map(
      ({ setDeg, cameDeg, material, thickness }) =>
        `set to ${figure(setDeg)} came out at ${figure(cameDeg)}, ${material} ${figure(thickness)}`,
    )
    .join('; ');
  return {
    deg: Math.round(mean * 10) / 10,
    remark: `${remark}; springback taken off`,
    doubt:
      spread <= SAME_OFFSET_DEG
        ? undefined
        : `the test folds differ by ${figure(spread, 1)} degrees: their mean is taken; fold another one where you doubt`,
  };
}
