import { parseAngle, parseLength } from '../text/units.ts';
import type { TurnAndLeg } from '../tube/described.ts';
import { TEXT } from './accepts.ts';
import { type Field, type FieldReading, makeOptionalField, type Said } from './field.ts';
import { shown } from './given.ts';
import { entriesOf } from './split-entries.ts';

/** Legs of a tube, corner to corner, with what the tube turns by between them. */
export interface GivenLegs {
  readonly firstMm: number;
  readonly rest: readonly TurnAndLeg[];
}

const ALLOWED =
  "the first leg, then for each bend its angle and the leg behind it with a comma between, and ';' between bends; @ and an angle behind that of the bend is its rotation from the bend before";
const MOST_BENDS = 1000;
const LONGEST_MM = 20_000;
const MOST_DEG = 180;

/** Legs, angles and rotations; `undefined` where they are left out. */
export const optionalTubeLegs = (
  options: Said & { readonly otherwise: string },
): Field<GivenLegs | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'bend', many: 'bends', under: 'rest' },
      allowed: ALLOWED,
      example: '400; 90, 300; 45@-90, 200',
      ...options,
    },
    TEXT,
    readTubeLegs,
  );

/** Reads `400; 90, 300; 45@-90, 200`. The refusal names the entry that is wrong. */
export function readTubeLegs(given: string): FieldReading<GivenLegs> {
  const [first, ...entries] = entriesOf(given, MOST_BENDS + 1);
  if (entries.length > MOST_BENDS)
    return { ok: false, given: 'more bends', mend: `give at most ${MOST_BENDS}` };
  const firstMm = legOf(first ?? '');
  if (typeof firstMm === 'string')
    return { ok: false, given: `${shown((first ?? '').trim())} as the first leg`, mend: firstMm };
  const rest: TurnAndLeg[] = [];
  for (const [i, entry] of entries.entries()) {
    const read = readBend(entry);
    if (typeof read === 'string')
      return { ok: false, given: `${shown(entry.trim())} as bend ${i + 1}`, mend: read };
    rest.push(read);
  }
  return { ok: true, value: { firstMm, rest } };
}

/** A bend and the leg behind it, or what is wrong with them. */
const readBend = (entry: string): TurnAndLeg | string => {
  const [turn = '', leg, ...more] = entry.split(',');
  if (leg === undefined || more.length > 0) return 'write angle, leg: 90, 300';
  const [angle = '', rotation, ...others] = turn.split('@');
  if (others.length > 0) return 'write one @ and the rotation behind it: 45@-90';
  const angleDeg = turnOf(angle, 0, MOST_DEG);
  if (typeof angleDeg === 'string') return angleDeg;
  const rotateDeg = rotation === undefined ? 0 : turnOf(rotation, -MOST_DEG, MOST_DEG);
  if (typeof rotateDeg === 'string') return rotateDeg;
  const legMm = legOf(leg);
  return typeof legMm === 'string' ? legMm : { angleDeg, rotateDeg, legMm };
};

const turnOf = (text: string, least: number, most: number): number | string => {
  const read = parseAngle(text);
  if (!read.ok) return read.reason;
  return read.value < least || read.value > most
    ? `an angle from ${least} to ${most} degrees`
    : read.value;
};

const legOf = (text: string): number | string => {
  const read = parseLength(text);
  if (!read.ok) return read.reason;
  return read.value <= 0 || read.value > LONGEST_MM
    ? `a leg is more than 0 and at most ${LONGEST_MM} mm`
    : read.value;
};
