import { shown } from '../forms/given.ts';
import type { Reader } from '../forms/field.ts';
import type { InputProblem } from '../forms/problem.ts';
import { list } from '../forms/sections.ts';
import type { Machine } from '../model/machine.ts';
import type { Sourced } from '../model/material.ts';
import { nearest } from '../text/nearest.ts';
import { FINGERS, FOLDER } from './folder.ts';
import { length, nameInMachine } from './machine.ts';
import { BRAKE } from './press-brake.ts';

/**
 * Settings of a machine in a worked case of folding: figures that replace the machine's own, under
 * the names of the shop file or of the published cases.
 */
export type Settings = Readonly<Record<string, unknown>>;

type Readers = Readonly<Record<string, Reader>>;

/** The limit keeps the search small, since it tries all subsets of a finger set. */
const MOST_FINGERS = 16;
/** This height lies below the shoulders of the built-in punches. */
const LOWEST_PUNCH_MM = 91;

const { id: _folder, name: _named, section: _section, fingers: _fingers, ...ANY_FOLDER } = FOLDER;
const { endOverhang, ...ANY_CLAMP } = ANY_FOLDER;
const { id: _brake, name: _called, punches: _punches, ...ANY_BRAKE } = BRAKE;

/** Figures inside `fingers` are named with it in front: `fingers.widths`. */
const WITH_FINGERS: Readers = {
  ...ANY_CLAMP,
  ...Object.fromEntries(Object.entries(FINGERS).map(([name, r]) => [`fingers.${name}`, r])),
  'fingers.widths': list(
    'Widths of the fingers in the shop.',
    length(1, 2000, 'Width of a finger.'),
    {
      what: 'finger widths',
      min: 1,
      max: MOST_FINGERS,
    },
  ),
};
const OF_ONE_PIECE: Readers = { ...ANY_CLAMP, endOverhang };
const OF_BRAKE: Readers = {
  ...ANY_BRAKE,
  punchHeight: length(LOWEST_PUNCH_MM, 2000, 'Height from the tip of the punch up to the ram.'),
};

/** Names of the published cases, each with the names that the shop file has for it. */
const PUBLISHED: Readonly<Record<string, readonly string[]>> = {
  working_length_mm: ['workingLength'],
  overbend_deg: ['overbend'],
  min_flange_mm: ['minFlange'],
  max_angle_deg: ['maxAngle'],
  max_uncovered_each_end_mm: ['maxUncovered'],
  bed_depth_mm: ['bedDepth'],
  nose_setback_mm: ['noseSetback'],
  finger_depth_mm: ['noseDepth'],
  finger_front_mm: ['noseFront'],
  nose_bevel_deg: ['noseBevel'],
  leaf_bar_fitted: ['leafBarFitted'],
  clamp_land_min_mm: ['clampLand'],
  box_depth_mm: ['clampHeight', 'fingers.boxDepth'],
  beam_depth_mm: ['fingers.beamDepth'],
  finger_widths_mm: ['fingers.widths'],
  finger_side_clear_mm: ['fingers.sideClear'],
  end_overhang_allowed: ['endOverhang'],
  V_mm: ['v'],
  punch: ['punch'],
  punch_height_mm: ['punchHeight'],
  die_height_mm: ['dieHeight'],
  die_holder_half_width_mm: ['dieHolderHalf'],
  ram_half_width_mm: ['ramHalf'],
};

/**
 * The shop file's names for a setting. A clamp of one piece is all beam, so its beam depth is
 * `noseDepth`.
 */
const calledInShop = (machine: Machine, name: string): readonly string[] => {
  if (name === 'beam_depth_mm' && machine.kind === 'folder' && machine.clamp.kind === 'one piece')
    return ['noseDepth'];
  return Object.hasOwn(PUBLISHED, name) ? (PUBLISHED[name] ?? []) : [name];
};

const readersOf = (machine: Machine): Readers => {
  if (machine.kind === 'press brake') return OF_BRAKE;
  return machine.clamp.kind === 'fingers' ? WITH_FINGERS : OF_ONE_PIECE;
};

/** Writes `fingers: { widths }` as `fingers.widths`. */
const flat = (settings: Settings): readonly (readonly [string, unknown])[] =>
  Object.entries(settings).flatMap(([name, value]) =>
    name === 'fingers' && typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.entries(value).map(([inner, each]) => [`fingers.${inner}`, each] as const)
      : [[name, value] as const],
  );

/**
 * Sets a machine up as a case asks. Every problem is told at once; `place` says where the settings
 * stand.
 */
export function setUp(
  machine: Machine,
  settings: Settings,
  place: string,
): { readonly machine: Machine; readonly problems: readonly InputProblem[] } {
  const readers = readersOf(machine);
  const problems: InputProblem[] = [];
  const set = new Map<string, unknown>();
  for (const [given, value] of flat(settings)) {
    const input = `${place}.${given}`;
    for (const name of calledInShop(machine, given)) {
      const reader = Object.hasOwn(readers, name) ? readers[name] : undefined;
      if (reader === undefined) {
        problems.push(unknown(input, given, value, Object.keys(readers)));
        break;
      }
      const read = reader.read(value);
      if (read.ok) set.set(name, read.value);
      else problems.push(...read.flaws.slice(0, 1).map((f) => wrong(input, value, f.allowed)));
    }
  }
  const punches = machine.kind === 'press brake' ? machine.punches.map((p) => p.id) : [];
  const punch = set.get('punch');
  if (typeof punch === 'string' && !punches.includes(punch)) {
    problems.push(wrong(`${place}.punch`, punch, `one of ${punches.join(', ')}`));
    set.delete('punch');
  }
  return { machine: withSettings(machine, set), problems };
}

const wrong = (input: string, given: unknown, allowed: string): InputProblem => ({
  input,
  given: shown(given),
  allowed,
});

const unknown = (
  input: string,
  name: string,
  value: unknown,
  names: readonly string[],
): InputProblem => {
  const published = Object.hasOwn(PUBLISHED, name);
  const meant = published ? undefined : nearest(name, [...names, ...Object.keys(PUBLISHED)]);
  return {
    ...wrong(input, value, `a setting of this machine: ${names.join(', ')}`),
    ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
  };
};

/** Names of the shop file whose values the machine holds as they are, without source. */
const BARE = new Set(['punch', 'capacities']);

const entryOf = (name: string, value: unknown): readonly [string, unknown] => {
  if (BARE.has(name)) return [name, value];
  const figure: Sourced<unknown> = {
    value,
    basis: 'common practice',
    source: 'set by the user',
  };
  return [nameInMachine(name), figure];
};

/**
 * The machine with the settings put in. It uses the shop file's names too, each with its unit
 * appended.
 */
const withSettings = (machine: Machine, set: ReadonlyMap<string, unknown>): Machine => {
  const own = [...set].filter(([name]) => !name.startsWith('fingers.') && name !== 'endOverhang');
  const whole = { ...machine, ...Object.fromEntries(own.map((each) => entryOf(...each))) };
  if (machine.kind === 'press brake') return whole as Machine;
  const clamp = [...set].flatMap(([name, value]) =>
    name === 'endOverhang' || name.startsWith('fingers.')
      ? [entryOf(name.replace('fingers.', ''), value)]
      : [],
  );
  return { ...whole, clamp: { ...machine.clamp, ...Object.fromEntries(clamp) } } as Machine;
};
