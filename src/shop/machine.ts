import { findMachine, MACHINES } from '../data/machines.ts';
import type { Json } from '../forms/accepts.ts';
import type { Read, Reader } from '../forms/field.ts';
import * as fields from '../forms/fields.ts';
import { list, optional, section } from '../forms/sections.ts';
import type { Capacity, HardestFold, Machine } from '../model/machine.ts';
import type { Sourced } from '../model/material.ts';
import { MATERIALS } from '../data/materials.ts';
import { family, sheetThickness } from './cutter.ts';
import { isSourced, machineEntry } from './machine-entry.ts';

/** A figure that the shop file gives. */
export const measured = <T>(value: T): Sourced<T> => ({
  value,
  basis: 'measured',
  source: 'the shop file',
});
export const orElse = <T, E>(value: T | undefined, otherwise: E): Sourced<T> | E =>
  value === undefined ? otherwise : measured(value);

export const length = (min: number, max: number, about: string) =>
  fields.length({ about, min, max });

/** What a shop file says of the hardest fold of a machine. */
export const HARDEST = {
  material: fields.choice({ about: 'The sheet.', choices: MATERIALS.map((m) => m.id) }),
  thickness: sheetThickness('Its thickness.'),
  length: optional(
    length(10, 20_000, 'Length of the fold; the whole length of the machine when left out.'),
  ),
  leafBarFitted: optional(
    fields.flag({
      about: 'Whether the bar was on the leaf then; as it is now when left out.',
    }),
  ),
};

/** What folders and press brakes have in common. */
export const ANY_MACHINE = {
  id: fields.id({ about: 'Its name as typed on the command line.' }),
  name: fields.text({ about: 'What it is called.', max: 100 }),
  workingLength: length(10, 20_000, 'The longest fold that it makes.'),
  capacity: optional(
    sheetThickness(
      'Thickest mild steel over the whole length, as its plate says it; with fingers in it takes two gauges less. Not checked when left out.',
    ),
  ),
  capacities: optional(
    list(
      'Thickest other sheet, or sheet over shorter folds, where that is known.',
      section('The thickest sheet of a kind.', {
        material: family('The family of materials.'),
        thickness: sheetThickness('The thickest.'),
        length: optional(
          length(10, 20_000, 'The fold that it holds up to; the whole length when left out.'),
        ),
      }),
      {
        what: 'capacities, each with material and thickness, and the length of fold that it holds up to',
        min: 0,
        max: 20,
      },
    ),
  ),
  minFlange: optional(length(0.1, 500, 'Least strip of flat sheet in front of the fold.')),
  maxAngle: optional(
    fields.angle({
      about: 'How far it bends: the steepest fold is less by its springback.',
      min: 1,
      max: 180,
    }),
  ),
  overbend: optional(
    fields.angle({
      about:
        'How far past the wanted angle a fold must be able to swing freely, where springback is less.',
      min: 0,
      max: 45,
    }),
  ),
  maxUncovered: optional(
    length(0, 500, 'How much of a fold may be left without tool at each end.'),
  ),
  stopOffset: optional(
    fields.angle({
      about:
        'How much more its dial or stop reads than the angle to which the metal is really turned; it is added to every stop angle.',
      min: -20,
      max: 20,
    }),
  ),
  hardestFold: optional(
    section(
      'The hardest fold that it has made, which stands in the place of its capacity.',
      HARDEST,
    ),
  ),
};

/** What folders and press brakes may have besides, read from the file. */
export const ownFigures = ({
  capacities,
  stopOffset,
  hardestFold,
}: {
  readonly capacities?: readonly Capacity[] | undefined;
  readonly stopOffset?: number | undefined;
  readonly hardestFold?: HardestFold | undefined;
}): Pick<Machine, 'capacities' | 'stopOffsetDeg' | 'hardestFold'> => ({
  ...(capacities !== undefined && { capacities }),
  ...(stopOffset !== undefined && { stopOffsetDeg: measured(stopOffset) }),
  ...(hardestFold !== undefined && { hardestFold: measured(hardestFold) }),
});

/**
 * A described machine that has the id of a built-in one: figures that are the same as there keep
 * their basis and source, for nobody has measured them.
 */
const withKnownSources = <M extends Machine>(given: M): M => {
  const known = MACHINES.find((m) => m.kind === given.kind && m.id === given.id);
  return known === undefined ? given : withSourcesOf(given, known);
};

/** `own` are the names, as the machine has them, of figures that were given one by one. */
const withSourcesOf = <M extends Machine>(
  given: M,
  known: Machine,
  own: ReadonlySet<string> = new Set(),
): M => knownWhereSame(given, known, own) as M;

/** The known figure in place of a given one of the same value, in groups of figures too. */
const knownWhereSame = (given: unknown, known: unknown, own: ReadonlySet<string>): unknown => {
  if (isSourced(given))
    return isSourced(known) && JSON.stringify(given.value) === JSON.stringify(known.value)
      ? known
      : given;
  return isPlain(given) && isPlain(known)
    ? Object.fromEntries(
        Object.entries(given).map(([name, figure]) => [
          name,
          own.has(name) ? figure : knownWhereSame(figure, known[name], own),
        ]),
      )
    : given;
};

const UNITS: Readonly<Record<string, string>> = {
  overbend: 'Deg',
  maxAngle: 'Deg',
  noseBevel: 'Deg',
  stopOffset: 'Deg',
  forcePerMetre: 'Kn',
  endOverhang: '',
  hardestFold: '',
};

/** The name that a machine has for a sourced figure of the shop file: the unit stands behind it. */
export const nameInMachine = (name: string): string =>
  name === 'leafBarFitted' ? 'isLeafBarFitted' : `${name}${UNITS[name] ?? 'Mm'}`;

/**
 * The names of figures that are written down where only what differs is listed. They were looked up
 * at the machine, and are its own even where they are the same as those of the built-in one, but for
 * those that are said to be assumed.
 */
const namesOf = (differs: Readonly<Record<string, unknown>>): readonly string[] =>
  Object.entries(differs).flatMap(([name, value]) =>
    name === 'fingers' && isPlain(value) ? Object.keys(value) : [name],
  );

const ASSUMED = 'names of figures that are listed beside it and were not measured';

/**
 * A machine that is described, a built-in one that is named by its id alone, or one that is `like` a
 * built-in one and lists only what differs.
 */
export const orBuiltIn = <M extends Machine>(described: Reader<M>, kind: M['kind']): Reader<M> => {
  const ids = MACHINES.flatMap((m) => (m.kind === kind ? [m.id] : []));
  const named = (given: string, path: readonly string[]): Read<M> => {
    const found = findMachine(given);
    if (found.ok && found.value.kind === kind) return { ok: true, value: found.value as M };
    const allowed = `a ${kind} described, or the id of a built-in one: ${ids.join(', ')}`;
    const mend = found.ok ? `${given} is a ${found.value.kind}` : found.reason;
    return { ok: false, flaws: [{ path, allowed, mend }] };
  };
  return {
    json: (): Json => ({
      anyOf: [{ type: 'string', enum: ids }, described.json(), likeJson(described.json(), ids)],
    }),
    read: (given) => {
      if (typeof given === 'string') return named(given, []);
      if (!isPlain(given) || given['like'] === undefined) {
        const read = described.read(given);
        return read.ok ? { ok: true, value: withKnownSources(read.value) } : read;
      }
      const { like, assumed = [], ...differs } = given;
      const known = named(typeof like === 'string' ? like : JSON.stringify(like), ['like']);
      if (!known.ok || Object.keys(differs).length === 0) return known;
      const listed = namesOf(differs);
      if (!Array.isArray(assumed) || assumed.some((name) => !listed.includes(String(name))))
        return { ok: false, flaws: [{ path: ['assumed'], allowed: ASSUMED }] };
      const read = described.read(merged(entryOf(known.value), differs));
      if (!read.ok) return read;
      const own = new Set(listed.filter((name) => !assumed.includes(name)).map(nameInMachine));
      const machine = withSourcesOf(read.value, known.value, own);
      return { ok: true, value: { ...machine, like: known.value.id } };
    },
  };
};

const likeJson = (described: Json, ids: readonly string[]): Json => ({
  ...described,
  required: ['like'],
  properties: {
    like: {
      type: 'string',
      enum: ids,
      description: 'The built-in machine that it is like in all that is left out here.',
    },
    assumed: {
      type: 'array',
      items: { type: 'string', description: 'The name of a figure that is listed here.' },
      description:
        'Figures that are listed here, and are those of the built-in machine all the same.',
    },
    ...(described['properties'] as Json),
  },
});

/** A built-in machine under the names of the shop file, its figures bare. */
const entryOf = (machine: Machine): unknown => bare(machineEntry(machine));

const bare = (value: unknown): unknown => {
  if (isSourced(value)) return bare(value.value);
  if (Array.isArray(value)) return value.map(bare);
  if (!isPlain(value)) return value;
  const kept = Object.entries(value).filter(([, v]) => v !== undefined);
  return Object.fromEntries(kept.map(([name, v]) => [name, bare(v)]));
};

const isPlain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What differs laid over what is known; `null` (in YAML, nothing) takes a name away. */
const merged = (known: unknown, differs: unknown): unknown => {
  if (!isPlain(known) || !isPlain(differs)) return differs;
  const all = Object.entries({
    ...known,
    ...Object.fromEntries(
      Object.entries(differs).map(([name, value]) => [
        name,
        Object.hasOwn(known, name) ? merged(known[name], value) : value,
      ]),
    ),
  });
  return Object.fromEntries(all.filter(([, value]) => value !== null));
};
