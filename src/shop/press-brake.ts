import { PRESS_BRAKE } from '../data/machines/press-brake.ts';
import * as fields from '../forms/fields.ts';
import { checked, list, made, optional, section } from '../forms/sections.ts';
import type { PressBrake, Punch } from '../model/machine.ts';
import { ANY_MACHINE, length, measured, orElse, ownFigures } from './machine.ts';
import { polygons } from './polygon.ts';

/** A punch, described by its section: convex polygons from the tip up to the ram. */
const punch = made(
  section('A punch.', {
    id: fields.id({ about: 'Its name as it is typed.', example: 'straight' }),
    polygons: polygons('Its section, from the tip up to the ram.'),
  }),
  (given): Punch => ({
    id: given.id,
    section: () => given.polygons,
    source: 'the shop file',
  }),
);

/** The names of a press brake in a shop file. */
export const BRAKE = {
  ...ANY_MACHINE,
  v: length(1, 500, 'Opening of the V in the machine.'),
  otherVs: optional(
    list('Openings of the other dies in the shop.', length(1, 500, 'Opening of a V.'), {
      what: 'V openings',
      min: 1,
      max: 40,
    }),
  ),
  forcePerMetre: optional(
    fields.number({
      about: 'Greatest force of the machine, kN per metre of bend.',
      what: 'a force per metre of bend, in kN,',
      min: 1,
      max: 20_000,
    }),
  ),
  shoulder: optional(length(0.1, 200, "Width of the die's shoulder beside the V.")),
  dieHeight: length(1, 1000, 'Height of the die.'),
  dieHolderHalf: length(1, 500, 'Half the width of the die holder.'),
  ramHalf: length(1, 500, 'Half the width of the ram.'),
  punchHeight: length(5, 1000, 'Height from the tip of the punch up to the ram.'),
  daylight: optional(
    length(5, 2000, 'Travel of the tip of the punch from the end of a stroke to fully up.'),
  ),
  punch: optional(fields.id({ about: 'The punch in the machine.', example: 'straight' })),
  punches: list('The punches in the shop.', punch, {
    what: 'punches, each with id and polygons',
    min: 1,
    max: 40,
  }),
};

/** A press brake. What the file leaves out is either unknown or taken from the built-in one. */
export const pressBrake = made(
  checked(section('A press brake.', BRAKE), ({ punch: named, punches }, disagree) => {
    const ids = punches.map((p) => p.id);
    if (named !== undefined && !ids.includes(named))
      disagree(['punch'], `one of ${ids.join(', ')}`, 'name the punch that is in by its id');
  }),
  (given): PressBrake => ({
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
    ...(given.otherVs !== undefined && { otherVsMm: measured(given.otherVs) }),
    ...(given.forcePerMetre !== undefined && { forcePerMetreKn: measured(given.forcePerMetre) }),
    ...ownFigures(given),
    shoulderMm: orElse(given.shoulder, PRESS_BRAKE.shoulderMm),
    dieHeightMm: measured(given.dieHeight),
    dieHolderHalfMm: measured(given.dieHolderHalf),
    ramHalfMm: measured(given.ramHalf),
    punchHeightMm: measured(given.punchHeight),
    ...(given.daylight !== undefined && { daylightMm: measured(given.daylight) }),
    punch: given.punch ?? (given.punches[0] as Punch).id,
    punches: given.punches,
  }),
);
