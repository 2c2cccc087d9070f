import { CUTOUTS_INPUT, type Given } from './accepts.ts';
import { type Field, type FieldReading, makeField, type Said, saidOf } from './field.ts';
import { OUTLINE_ALLOWED } from './outline-corners.ts';
import { type GivenOutline, readGivenOutline } from './outline.ts';

const ALLOWED = `outlines with '|' between them, each of ${OUTLINE_ALLOWED}`;
const MOST_CUTOUTS = 200;

/**
 * A field for cut-outs of any shape; none unless given. The kind is text: to programs that fill in
 * forms it is a line to type.
 */
export const cutouts = (options: Said): Field<readonly GivenOutline[]> =>
  makeField(
    {
      kind: 'text',
      list: { one: 'cut-out', many: 'cut-outs' },
      ...saidOf(options),
      allowed: ALLOWED,
      default: '',
      example: '40,30; 80,30; 80,50 r6; 40,50 r6',
    },
    CUTOUTS_INPUT,
    readCutouts,
  );

/** Reads cut-outs. The refusal names the cut-out, counted from 1, and its point. */
export function readCutouts(
  given: Given<typeof CUTOUTS_INPUT>,
): FieldReading<readonly GivenOutline[]> {
  const entries = typeof given === 'string' ? split(given) : given;
  if (entries.length > MOST_CUTOUTS)
    return { ok: false, given: `${entries.length} cut-outs`, mend: `give at most ${MOST_CUTOUTS}` };
  const outlines: GivenOutline[] = [];
  for (const [index, entry] of entries.entries()) {
    const read = readGivenOutline(entry);
    if (!read.ok)
      return {
        ...read,
        allowed: ALLOWED,
        mend: [`cut-out ${index + 1}`, read.mend].filter((text) => text !== undefined).join(': '),
      };
    outlines.push(read.value);
  }
  return { ok: true, value: outlines };
}

const split = (given: string): readonly string[] =>
  given.trim() === '' ? [] : given.split('|', MOST_CUTOUTS + 1);
