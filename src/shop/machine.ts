import * as z from 'zod';
import { findMachine, MACHINES } from '../data/machines.ts';
import { BOX_PAN } from '../data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../data/machines/press-brake.ts';
import type { Folder, Machine, PressBrake, Punch } from '../model/machine.ts';
import type { Sourced } from '../model/material.ts';
import { family, THICKEST_MM } from './cutter.ts';
import {
  degrees,
  disagree,
  id,
  list,
  mm,
  name,
  plain,
  type RefusalParams,
  section,
  yesNo,
} from '../forms/entries.ts';
import { polygons } from './polygon.ts';

/** A figure that the shop file gives. */
const measured = <T>(value: T): Sourced<T> => ({
  value,
  basis: 'measured',
  source: 'the shop file',
});
const orElse = <T, E>(value: T | undefined, otherwise: E): Sourced<T> | E =>
  value === undefined ? otherwise : measured(value);

/** What folders and press brakes have in common. */
const ANY_MACHINE = {
  id: id(),
  name: name(),
  workingLength: mm(10, 20_000),
  /** Thickest mild steel over the whole length. */
  capacity: mm(0.1, THICKEST_MM).optional(),
  capacities: list(
    section({
      material: family(),
      thickness: mm(0.1, THICKEST_MM),
      length: mm(10, 20_000).optional(),
    }),
    'capacities, each with material and thickness, and the length of fold that it holds up to',
    0,
    20,
  ).optional(),
  minFlange: mm(0.1, 500).optional(),
  maxAngle: degrees(1, 180).optional(),
  overbend: degrees(0, 45).optional(),
  maxUncovered: mm(0, 500).optional(),
};

/** A machine described, or one of the built-in ones by its id alone. */
export const orBuiltIn = <M extends Machine>(
  described: z.ZodType<M>,
  kind: M['kind'],
): z.ZodType<M> =>
  z.unknown().transform((given, context): M => {
    if (typeof given === 'string') {
      const found = findMachine(given);
      if (found.ok && found.value.kind === kind) return found.value as M;
      const ids = MACHINES.flatMap((m) => (m.kind === kind ? [m.id] : []));
      const mend = found.ok ? `${given} is a ${found.value.kind}` : found.reason;
      context.issues.push({
        code: 'custom',
        input: given,
        message: `a ${kind} described, or the id of a built-in one: ${ids.join(', ')}`,
        params: { mend } satisfies RefusalParams,
      });
      return z.NEVER;
    }
    const read = described.safeParse(given);
    if (read.success) return read.data;
    context.issues.push(
      ...read.error.issues.map(
        (issue) => ({ ...issue, path: [...issue.path], input: given }) as z.core.$ZodRawIssue,
      ),
    );
    return z.NEVER;
  });

const stiffener = section({
  projection: mm(0, 1000),
  startsBelow: mm(0, 2000),
  endsBelow: mm(0, 2000),
}).check(({ value, issues }) => {
  if (value.startsBelow > value.endsBelow)
    disagree(
      issues,
      value.endsBelow,
      ['endsBelow'],
      `at least the ${value.startsBelow} of startsBelow`,
      'measure both downwards from the upper edge of the leaf',
    );
});

const fingers = section({
  boxDepth: mm(1, 1000),
  beamDepth: mm(1, 2000),
  widths: list(mm(1, 2000), 'finger widths', 1, 60),
  sideClear: mm(0, 50).optional(),
});

/** Limits of the dimensions that a rule and a square measure on a folder, mm and degrees. */
const DIMENSIONS = {
  bedDepth: [10, 3000],
  noseDepth: [2, 1000],
  noseFront: [1, 500],
  noseBevel: [10, 80],
  clampHeight: [2, 2000],
} as const;

const bodies = section({
  bed: polygons(),
  leaf: polygons(),
  clamp: polygons(),
  beam: polygons().optional(),
});

/**
 * A folder, by the dimensions that a rule and a square measure on it, or by the polygons of its
 * section in their place. What it leaves out is that of the built-in one.
 */
export const folder = section({
  ...ANY_MACHINE,
  bedDepth: mm(...DIMENSIONS.bedDepth).optional(),
  noseSetback: mm(0, 100),
  noseDepth: mm(...DIMENSIONS.noseDepth).optional(),
  noseFront: mm(...DIMENSIONS.noseFront).optional(),
  noseBevel: degrees(...DIMENSIONS.noseBevel).optional(),
  clampHeight: mm(...DIMENSIONS.clampHeight).optional(),
  leafEdge: section({ barFitted: mm(1, 500), barRemoved: mm(1, 500) }).optional(),
  leafBarFitted: yesNo().default(true),
  stiffener: stiffener.optional(),
  section: bodies.optional(),
  clampLand: mm(0.1, 500).optional(),
  fingers: fingers.optional(),
  endOverhang: yesNo().default(false),
  noseRadii: list(mm(0, 200), 'nose radii', 1, 40).optional(),
  clampOpening: mm(1, 1000).optional(),
})
  .check(({ value, issues }) => {
    for (const dimension of value.section === undefined
      ? [...Object.keys(DIMENSIONS), 'leafEdge', 'stiffener']
      : []) {
      if (value[dimension as keyof typeof value] === undefined)
        disagree(
          issues,
          undefined,
          [dimension],
          `${dimension}, or the polygons of section in place of all dimensions`,
          `add ${dimension}`,
        );
    }
    if (
      value.noseFront !== undefined &&
      value.noseDepth !== undefined &&
      value.noseFront >= value.noseDepth
    )
      disagree(
        issues,
        value.noseFront,
        ['noseFront'],
        `less than the ${value.noseDepth} of noseDepth`,
        'measure both back from the tip of the nose',
      );
    if (value.fingers !== undefined && value.endOverhang)
      disagree(
        issues,
        true,
        ['endOverhang'],
        'no, where there are fingers',
        'leave it out: fingers that are in the way are taken out',
      );
  })
  .transform((given): Folder => ({
    kind: 'folder',
    id: given.id,
    name: given.name,
    workingLengthMm: measured(given.workingLength),
    capacityMm: orElse(given.capacity, null),
    minFlangeMm: orElse(given.minFlange, BOX_PAN.minFlangeMm),
    maxAngleDeg: orElse(given.maxAngle, null),
    overbendDeg: orElse(given.overbend, BOX_PAN.overbendDeg),
    maxUncoveredMm: orElse(given.maxUncovered, BOX_PAN.maxUncoveredMm),
    bedDepthMm: orElse(given.bedDepth, BOX_PAN.bedDepthMm),
    noseSetbackMm: measured(given.noseSetback),
    noseDepthMm: orElse(given.noseDepth, BOX_PAN.noseDepthMm),
    noseFrontMm: orElse(given.noseFront, BOX_PAN.noseFrontMm),
    noseBevelDeg: orElse(given.noseBevel, BOX_PAN.noseBevelDeg),
    clampHeightMm: orElse(given.clampHeight, BOX_PAN.clampHeightMm),
    leafEdgeMm: orElse(given.leafEdge, BOX_PAN.leafEdgeMm),
    leafBarFitted: given.leafBarFitted,
    stiffenerMm: orElse(given.stiffener, BOX_PAN.stiffenerMm),
    clampLandMm: orElse(given.clampLand, BOX_PAN.clampLandMm),
    clamp: clampOf(given.fingers, given.endOverhang),
    ...(given.capacities !== undefined && { capacities: given.capacities }),
    ...(given.noseRadii !== undefined && { noseRadiiMm: measured(given.noseRadii) }),
    ...(given.clampOpening !== undefined && { clampOpeningMm: measured(given.clampOpening) }),
    ...(given.section !== undefined && {
      section: { ...given.section, beam: given.section.beam ?? [] },
    }),
  }));

const clampOf = (
  given: z.output<typeof fingers> | undefined,
  endOverhang: boolean,
): Folder['clamp'] =>
  given === undefined
    ? { kind: 'one piece', endOverhang: measured(endOverhang) }
    : {
        kind: 'fingers',
        boxDepthMm: measured(given.boxDepth),
        beamDepthMm: measured(given.beamDepth),
        widthsMm: measured(given.widths),
        // The clearance is common practice, as in the built-in folder.
        sideClearMm: orElse(given.sideClear, {
          value: 1,
          basis: 'common practice',
          source: 'common practice',
        }),
      };

/** A punch by its section: convex polygons from the tip up to the ram. */
const punch = section({ id: id(), polygons: polygons() }).transform((given): Punch => ({
  id: given.id,
  section: () => given.polygons,
  source: 'the shop file',
}));

export const pressBrake = section({
  ...ANY_MACHINE,
  v: mm(1, 500),
  otherVs: list(mm(1, 500), 'V openings', 1, 40).optional(),
  forcePerMetre: plain('a force per metre of bend, in kN,', 1, 20_000).optional(),
  shoulder: mm(0.1, 200).optional(),
  dieHeight: mm(1, 1000),
  dieHolderHalf: mm(1, 500),
  ramHalf: mm(1, 500),
  punchHeight: mm(5, 1000),
  daylight: mm(5, 2000).optional(),
  punch: id().optional(),
  punches: list(punch, 'punches, each with id and polygons', 1, 40),
})
  .check(({ value, issues }) => {
    const ids = value.punches.map((p) => p.id);
    if (value.punch !== undefined && !ids.includes(value.punch))
      disagree(
        issues,
        value.punch,
        ['punch'],
        `one of ${ids.join(', ')}`,
        'name the punch that is in by its id',
      );
  })
  .transform((given): PressBrake => ({
    kind: 'press brake',
    id: given.id,
    name: given.name,
    workingLengthMm: measured(given.workingLength),
    capacityMm: orElse(given.capacity, null),
    minFlangeMm: orElse(given.minFlange, null),
    maxAngleDeg: orElse(given.maxAngle, null),
    overbendDeg: orElse(given.overbend, PRESS_BRAKE.overbendDeg),
    maxUncoveredMm: orElse(given.maxUncovered, PRESS_BRAKE.maxUncoveredMm),
    vMm: measured(given.v),
    ...(given.otherVs !== undefined && { vsMm: measured(given.otherVs) }),
    ...(given.forcePerMetre !== undefined && { forcePerMetreKn: measured(given.forcePerMetre) }),
    ...(given.capacities !== undefined && { capacities: given.capacities }),
    shoulderMm: orElse(given.shoulder, PRESS_BRAKE.shoulderMm),
    dieHeightMm: measured(given.dieHeight),
    dieHolderHalfMm: measured(given.dieHolderHalf),
    ramHalfMm: measured(given.ramHalf),
    punchHeightMm: measured(given.punchHeight),
    ...(given.daylight !== undefined && { daylightMm: measured(given.daylight) }),
    punch: given.punch ?? (given.punches[0] as Punch).id,
    punches: given.punches,
  }));
