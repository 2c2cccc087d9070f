import { screwFor } from '../data/hole-sizes.ts';
import { ONE_NAME } from './distances.ts';
import { entriesOf } from './split-entries.ts';
import { SCALAR, TEXT } from './accepts.ts';
import { type Field, type FieldReading, makeField, makeOptionalField, type Said } from './field.ts';
import { shown } from './given.ts';
import { BEHIND_NOTATION } from './hole-notation.ts';
import { widthOf } from './hole-extent.ts';
import { readHoleSize, SIZE_ALLOWED, type SizedHole } from './hole-shape.ts';

/** The hole at a point known by its name; `null` where there is none. */
export interface NamedHole {
  readonly name: string;
  readonly hole: SizedHole | null;
}

export const NAMED_HOLES_ALLOWED = `the names of points with a size behind each, as P: M12 with ';' between them; a size is ${SIZE_ALLOWED}, or none`;

/** More names than this are a slip, or an attack. */
const MOST_NAMED = 1000;

type Options = Said & { readonly example: string };

/** A field for the size of holes that have their places from elsewhere. */
export const holeSize = (
  options: Options & { readonly default: string | number },
): Field<SizedHole> =>
  makeField(
    { kind: 'text', allowed: SIZE_ALLOWED, notation: [BEHIND_NOTATION], ...options },
    SCALAR,
    readSize,
  );

/**
 * The same for holes that bolts go through. They need no screw: a size without one is for the screw
 * that fits it.
 */
export const boltHoleSize = (
  options: Options & { readonly default: string | number },
): Field<SizedHole> =>
  makeField(
    { kind: 'text', allowed: SIZE_ALLOWED, notation: [BEHIND_NOTATION], ...options },
    SCALAR,
    (given) => {
      const read = readSize(given);
      return read.ok ? { ok: true, value: asBoltHole(read.value) } : read;
    },
  );

/** A hole that takes the screw which fits it, if none was named. */
export const asBoltHole = ({ shape, use }: SizedHole): SizedHole => {
  if (use?.tube !== undefined) return { shape, use };
  const screw = use?.screw ?? screwFor(widthOf(shape));
  return screw === undefined
    ? { shape, ...(use !== undefined && { use }) }
    : { shape, use: { ...use, screw } };
};

/** What a bolt hole meets, where the user did not say. */
export const meeting = ({ shape, use }: SizedHole, meets: string): SizedHole =>
  use?.screw === undefined
    ? { shape, ...(use !== undefined && { use }) }
    : { shape, use: { meets, ...use } };

/** A field for the sizes of holes at named points, none unless given. */
export const namedHoles = (
  options: Options & { readonly otherwise: string },
): Field<readonly NamedHole[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'point', many: 'points' },
      allowed: NAMED_HOLES_ALLOWED,
      notation: [BEHIND_NOTATION],
      ...options,
    },
    TEXT,
    readNamedHoles,
  );

/** The notation of sizes is that of the holes of a panel. */
function readSize(given: number | string): FieldReading<SizedHole> {
  const read = readHoleSize(String(given));
  return read.ok ? read : { ok: false, mend: read.reasons.join('; ').replace(/^size: /, '') };
}

/** Reads `P: M12; Q: 10x20; D: none`. */
export function readNamedHoles(given: string): FieldReading<readonly NamedHole[]> {
  const entries = entriesOf(given, MOST_NAMED).map((e) => e.trim());
  if (entries.length > MOST_NAMED)
    return { ok: false, given: `more than ${MOST_NAMED} points`, allowed: NAMED_HOLES_ALLOWED };
  const found: NamedHole[] = [];
  for (const entry of entries) {
    const read = readNamedHole(entry);
    const mend = typeof read === 'string' ? read : twin(read, found);
    if (typeof read === 'string' || mend !== undefined)
      return {
        ok: false,
        given: shown(entry),
        allowed: NAMED_HOLES_ALLOWED,
        ...(mend !== undefined && { mend }),
      };
    found.push(read);
  }
  return { ok: true, value: found };
}

function readNamedHole(entry: string): NamedHole | string {
  const [name = '', size = '', ...more] = entry.split(':').map((part) => part.trim());
  if (size === '' || more.length > 0)
    return "write the point's name, ':' and the size, such as P: M12";
  if (!ONE_NAME.test(name)) return "a name has up to 24 letters, digits, '_' or '.'";
  if (size.toLowerCase() === 'none') return { name, hole: null };
  const read = readSize(size);
  return read.ok ? { name, hole: read.value } : (read.mend ?? `a size is ${SIZE_ALLOWED}`);
}

const twin = ({ name }: NamedHole, others: readonly NamedHole[]): string | undefined =>
  others.some((o) => o.name === name)
    ? `${name} has a size already; give each point one`
    : undefined;
