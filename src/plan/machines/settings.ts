import * as z from 'zod';
import type { Folder, Machine, PressBrake } from '../../model/machine.ts';
import type { Sourced } from '../../model/material.ts';
import { nearest } from '../../text/nearest.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { shown } from '../../forms/given.ts';

/** Machine settings of a case, by name. Any profile field may be set anew. */
export type Settings = Readonly<Record<string, unknown>>;

interface Setting {
  readonly schema: z.ZodType;
  readonly allowed: string;
}

const number = (least: number, most: number, unit = 'mm'): Setting => ({
  schema: z.number().min(least).max(most),
  allowed: `a number from ${least} to ${most} ${unit}`,
});
const length = number(0, 20_000);
const angle = number(0, 179, 'degrees');
const yesOrNo: Setting = { schema: z.boolean(), allowed: 'true or false' };
/** All subsets of a finger set are tried. */
const MOST_FINGERS = 16;

const ANY_MACHINE = {
  working_length_mm: length,
  overbend_deg: number(0, 45, 'degrees'),
  min_flange_mm: length,
  max_angle_deg: angle,
  max_uncovered_each_end_mm: length,
} as const;

const FOLDER: Readonly<Record<string, Setting>> = {
  ...ANY_MACHINE,
  bed_depth_mm: length,
  nose_setback_mm: length,
  finger_depth_mm: length,
  finger_front_mm: length,
  nose_bevel_deg: number(1, 89, 'degrees'),
  box_depth_mm: length,
  beam_depth_mm: length,
  leaf_bar_fitted: yesOrNo,
  clamp_land_min_mm: length,
  finger_widths_mm: {
    schema: z.array(z.number().min(1).max(20_000)).min(1).max(MOST_FINGERS),
    allowed: `up to ${MOST_FINGERS} widths in mm`,
  },
  finger_side_clear_mm: length,
  end_overhang_allowed: yesOrNo,
};

const BRAKE: Readonly<Record<string, Setting>> = {
  ...ANY_MACHINE,
  V_mm: number(1, 500),
  punch: { schema: z.string(), allowed: 'the name of a punch' },
  punch_height_mm: number(91, 2000),
  die_height_mm: length,
  die_holder_half_width_mm: length,
  ram_half_width_mm: length,
};

/**
 * A machine set up as a case asks. Every problem at once; `place` says where the settings stand.
 */
export function setUp(
  machine: Machine,
  settings: Settings,
  place: string,
): { readonly machine: Machine; readonly problems: readonly InputProblem[] } {
  const known = machine.kind === 'folder' ? FOLDER : BRAKE;
  const problems: InputProblem[] = [];
  const set: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(settings)) {
    const setting = Object.hasOwn(known, name) ? known[name] : undefined;
    if (setting === undefined)
      problems.push(unknown(`${place}.${name}`, name, value, Object.keys(known)));
    else if (!setting.schema.safeParse(value).success)
      problems.push({ input: `${place}.${name}`, given: shown(value), allowed: setting.allowed });
    else set[name] = value;
  }
  const punches = machine.kind === 'press brake' ? machine.punches.map((p) => p.id) : [];
  if (typeof set['punch'] === 'string' && !punches.includes(set['punch'])) {
    problems.push({
      input: `${place}.punch`,
      given: shown(set['punch']),
      allowed: punches.join(', '),
    });
    delete set['punch'];
  }
  return {
    machine: machine.kind === 'folder' ? setFolder(machine, set) : setBrake(machine, set),
    problems,
  };
}

const unknown = (
  input: string,
  name: string,
  value: unknown,
  names: readonly string[],
): InputProblem => {
  const meant = nearest(name, names);
  return {
    input,
    given: shown(value),
    allowed: `a setting of this machine: ${names.join(', ')}`,
    ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
  };
};

type Set = Readonly<Record<string, unknown>>;

const as = <T>(set: Set, name: string, usual: Sourced<T>): Sourced<T> =>
  set[name] === undefined
    ? usual
    : { value: set[name] as T, basis: 'common practice', source: 'set by the user' };
const orNull = <T>(set: Set, name: string, usual: Sourced<T> | null): Sourced<T> | null =>
  usual === null && set[name] === undefined ? null : as(set, name, usual as Sourced<T>);

const setAny = (
  m: Machine,
  set: Set,
): Pick<
  Machine,
  'workingLengthMm' | 'overbendDeg' | 'minFlangeMm' | 'maxAngleDeg' | 'maxUncoveredMm'
> => ({
  workingLengthMm: as(set, 'working_length_mm', m.workingLengthMm),
  overbendDeg: as(set, 'overbend_deg', m.overbendDeg),
  minFlangeMm: orNull(set, 'min_flange_mm', m.minFlangeMm),
  maxAngleDeg: orNull(set, 'max_angle_deg', m.maxAngleDeg),
  maxUncoveredMm: as(set, 'max_uncovered_each_end_mm', m.maxUncoveredMm),
});

const setFolder = (m: Folder, set: Set): Folder => {
  const { clamp } = m;
  return {
    ...m,
    ...setAny(m, set),
    bedDepthMm: as(set, 'bed_depth_mm', m.bedDepthMm),
    noseSetbackMm: as(set, 'nose_setback_mm', m.noseSetbackMm),
    noseDepthMm: as(
      set,
      clamp.kind === 'fingers' ? 'finger_depth_mm' : 'beam_depth_mm',
      m.noseDepthMm,
    ),
    noseFrontMm: as(set, 'finger_front_mm', m.noseFrontMm),
    noseBevelDeg: as(set, 'nose_bevel_deg', m.noseBevelDeg),
    leafBarFitted: as(set, 'leaf_bar_fitted', { ...m.overbendDeg, value: m.leafBarFitted }).value,
    clampLandMm: as(set, 'clamp_land_min_mm', m.clampLandMm),
    ...(clamp.kind === 'fingers' && { clampHeightMm: as(set, 'box_depth_mm', m.clampHeightMm) }),
    clamp:
      clamp.kind === 'fingers'
        ? {
            ...clamp,
            boxDepthMm: as(set, 'box_depth_mm', clamp.boxDepthMm),
            beamDepthMm: as(set, 'beam_depth_mm', clamp.beamDepthMm),
            widthsMm: as(set, 'finger_widths_mm', clamp.widthsMm),
            sideClearMm: as(set, 'finger_side_clear_mm', clamp.sideClearMm),
          }
        : { ...clamp, endOverhang: as(set, 'end_overhang_allowed', clamp.endOverhang) },
  };
};

const setBrake = (m: PressBrake, set: Set): PressBrake => ({
  ...m,
  ...setAny(m, set),
  vMm: as(set, 'V_mm', m.vMm),
  punch: as(set, 'punch', { ...m.vMm, value: m.punch }).value,
  punchHeightMm: as(set, 'punch_height_mm', m.punchHeightMm),
  dieHeightMm: as(set, 'die_height_mm', m.dieHeightMm),
  dieHolderHalfMm: as(set, 'die_holder_half_width_mm', m.dieHolderHalfMm),
  ramHalfMm: as(set, 'ram_half_width_mm', m.ramHalfMm),
});
