import * as z from 'zod';
import { clearanceHoleMm, rivetNutHoleMm } from '../data/hole-sizes.ts';
import { parseAngle, parseLength } from '../units.ts';
import type { FieldReading } from './field.ts';
import { shown } from './given.ts';

/** A hole as asked for. Lengths in mm, measured from the outside corner of the fold and the left end of the fold. */
export interface HoleSpec {
  readonly acrossMm: number;
  readonly alongMm: number;
  readonly shape: HoleShape;
}

/** A slot's length is its overall length; at turn 0 it runs along the fold, and the turn is counter-clockwise. */
export type HoleShape =
  | { readonly kind: 'round'; readonly diameterMm: number }
  | { readonly kind: 'slot'; readonly widthMm: number; readonly lengthMm: number; readonly turnDeg: number };

const PLACE = z.union([z.number(), z.string()]);

/** Text for all holes of a panel, or a list with an object, or the text of one hole, for each. */
export const HOLES_INPUT = z.union([
  z.string(),
  z.array(z.union([z.string(), z.strictObject({ across: PLACE, along: PLACE, size: PLACE })])),
]);

export type HolesInput = z.infer<typeof HOLES_INPUT>;

export const HOLES_ALLOWED =
  "holes as across,along,size with ';' between them; a size is a diameter (6.6), a thread (M8), a slot (8x20 or 8x20@90) or a rivet nut (RN6)";

/** More holes than this in one panel are a slip, or an attack. */
const MOST_HOLES = 1000;

/** Positions may be negative: a hole beyond the corner of a fold reaches into the bend. */
const FARTHEST_MM = 10_000;
const LARGEST_MM = 3000;

/** Reads the holes of one panel. The refusal names the first hole that cannot be read, and all that is wrong with it. */
export function readHoles(given: HolesInput): FieldReading<readonly HoleSpec[]> {
  const entries = typeof given === 'string' ? split(given) : given;
  if (entries.length > MOST_HOLES) return { ok: false, allowed: `at most ${MOST_HOLES} holes in a panel`, given: `${entries.length} holes` };
  const specs: HoleSpec[] = [];
  for (const [index, entry] of entries.entries()) {
    const reading = typeof entry === 'string' ? readText(entry) : readHole(entry);
    if (!reading.ok) return refusal(index, entry, reading.reasons);
    specs.push(reading.value);
  }
  return { ok: true, value: specs };
}

type Fields = { readonly across: number | string; readonly along: number | string; readonly size: number | string };
type Reading<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reasons: readonly string[] };

const bad = (...reasons: string[]): { ok: false; reasons: readonly string[] } => ({ ok: false, reasons });

/** A `;` after the last hole is no slip; an empty hole between two is. */
function split(given: string): readonly string[] {
  const entries = given.split(';', MOST_HOLES + 2);
  if (entries.at(-1)?.trim() === '') entries.pop();
  return entries;
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/** `the first hole`, `the second hole`, ... `hole 11`. */
export const nameOfHole = (index: number): string => {
  const ordinal = ORDINALS[index];
  return ordinal === undefined ? `hole ${index + 1}` : `the ${ordinal} hole`;
};

function refusal(index: number, entry: string | Fields, reasons: readonly string[]): FieldReading<never> {
  const text = typeof entry === 'string' ? entry.trim() : `${entry.across},${entry.along},${entry.size}`;
  return {
    ok: false,
    given: `${shown(text)} as ${nameOfHole(index)}`,
    allowed: HOLES_ALLOWED,
    mend: reasons.join('; '),
  };
}

function readText(entry: string): Reading<HoleSpec> {
  const [across, along, size, ...more] = entry.split(',');
  if (across === undefined || along === undefined || size === undefined) {
    return bad('write three figures with commas between them: across, along and size');
  }
  if (more.length > 0) {
    return bad("write three figures only, a ';' before the next hole, and a point as decimal mark");
  }
  return readHole({ across, along, size });
}

function readHole({ across, along, size }: Fields): Reading<HoleSpec> {
  const acrossMm = readPlace('across', across);
  const alongMm = readPlace('along', along);
  const shape = readSize(String(size));
  if (acrossMm.ok && alongMm.ok && shape.ok) {
    return { ok: true, value: { acrossMm: acrossMm.value, alongMm: alongMm.value, shape: shape.value } };
  }
  return bad(...[acrossMm, alongMm, shape].flatMap((r) => (r.ok ? [] : r.reasons)));
}

function readPlace(which: string, given: number | string): Reading<number> {
  const parsed = typeof given === 'number' ? ({ ok: true, value: given } as const) : parseLength(given);
  if (!parsed.ok) return bad(`${which}: ${parsed.reason}`);
  if (Math.abs(parsed.value) <= FARTHEST_MM) return parsed;
  return bad(`${which}: must lie between -${FARTHEST_MM} and ${FARTHEST_MM} mm`);
}

function readSize(given: string): Reading<HoleShape> {
  const text = given.trim();
  if (/^rn/i.test(text)) return roundOf(rivetNutHoleMm(text));
  if (/^m\s*\d/i.test(text)) return roundOf(clearanceHoleMm(text));
  if (/[x×]/i.test(text)) return readSlot(text);
  if (text.includes('@')) return bad('size: only a slot can be turned');
  const diameter = readExtent('size', text);
  return diameter.ok ? { ok: true, value: { kind: 'round', diameterMm: diameter.value } } : diameter;
}

type Looked = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly reason: string };

const roundOf = (looked: Looked): Reading<HoleShape> =>
  looked.ok ? { ok: true, value: { kind: 'round', diameterMm: looked.value } } : bad(`size: ${looked.reason}`);

function readSlot(text: string): Reading<HoleShape> {
  const [body = '', turn = '0', ...rest] = text.split('@');
  const [width = '', long = '', ...more] = body.split(/[x×]/i);
  if (rest.length > 0 || more.length > 0) return bad('size: write a slot as width x length, such as 8x20 or 8x20@90');
  const widthMm = readExtent('slot width', width);
  const lengthMm = readExtent('slot length', long);
  const turnDeg = parseAngle(turn);
  if (widthMm.ok && lengthMm.ok && turnDeg.ok) {
    if (lengthMm.value <= widthMm.value) {
      return bad(`size: a slot's overall length comes second and must be more than its width; write ${long.trim()}x${width.trim()}, or a diameter`);
    }
    return { ok: true, value: { kind: 'slot', widthMm: widthMm.value, lengthMm: lengthMm.value, turnDeg: turnDeg.value } };
  }
  const reasons = [widthMm, lengthMm].flatMap((r) => (r.ok ? [] : r.reasons));
  return bad(...reasons, ...(turnDeg.ok ? [] : [`turn: ${turnDeg.reason}`]));
}

function readExtent(which: string, text: string): Reading<number> {
  const parsed = parseLength(text);
  if (!parsed.ok) return bad(`${which}: ${parsed.reason}`);
  if (parsed.value > 0 && parsed.value <= LARGEST_MM) return parsed;
  return bad(`${which}: must be more than 0 and at most ${LARGEST_MM} mm`);
}
