import type { PressBrake, Section } from '../../model/machine.ts';
import { illustrative, LIMITS, setting } from './sources.ts';
import { practice, published } from '../sourced.ts';

/** Height above the tip at which the wedge of a punch reaches its full width, mm. */
const WEDGE_MM = 22.4;
const HALF_MM = 6;

const WEDGE: Section = [
  [0, 0],
  [HALF_MM, WEDGE_MM],
  [-HALF_MM, WEDGE_MM],
];

const box = (left: number, low: number, right: number, high: number): Section => [
  [left, low],
  [right, low],
  [right, high],
  [left, high],
];

/** A small press brake with the usual Vs and two punches. */
export const PRESS_BRAKE: PressBrake = {
  kind: 'press brake',
  id: 'pressbrake-1250',
  name: 'small press brake, V dies, sectioned punch, 1250 mm',
  workingLengthMm: illustrative(1250),
  capacityMm: null,
  overbendDeg: practice(2),
  minFlangeMm: null,
  maxAngleDeg: null,
  maxUncoveredMm: setting(0, 'punch sections of any length are at hand'),
  vMm: illustrative(12, 'six times a sheet of 2 mm; use the die that is in'),
  otherVsMm: published([6, 8, 10, 16, 20, 25, 32], 'the openings of published air-bending charts'),
  shoulderMm: published(2.5, LIMITS),
  dieHeightMm: illustrative(60),
  dieHolderHalfMm: illustrative(30),
  ramHalfMm: illustrative(30, 'half the thickness of ram and clamps'),
  punchHeightMm: illustrative(130, 'punch tip to underside of ram'),
  punch: 'straight',
  punches: [
    {
      id: 'straight',
      section: (height) => [WEDGE, box(-HALF_MM, WEDGE_MM, HALF_MM, height)],
      source: 'illustrative; measure your own punch',
    },
    {
      id: 'gooseneck-8',
      section: (height) => [
        WEDGE,
        [
          [-4, WEDGE_MM],
          [6, WEDGE_MM],
          [30, 40],
          [8, 40],
        ],
        box(8, 40, 30, 90),
        box(-10, 90, 30, height),
      ],
      source: 'illustrative; relieved 8 mm past the punch plane. Measure your own punch',
    },
  ],
};
