import type { Material, Sourced } from '../../model/material.ts';
import { practice } from '../sourced.ts';

/** Instruments with which lengths of the job are measured. */
export const INSTRUMENTS = ['tape', 'rule', 'calliper'] as const;

export type Instrument = (typeof INSTRUMENTS)[number];

/** How far a length, mm, and an angle, degrees, measured on the job may be off, either way. */
export interface Reading {
  readonly lengthMm: Sourced<number>;
  readonly angleDeg: Sourced<number>;
}

const ANGLE_FINDER = practice(0.5, 'common practice: an angle finder, read to half a degree');

export const READINGS: Readonly<Record<Instrument, Reading>> = {
  tape: {
    lengthMm: practice(
      1,
      'common practice: a tape, its hook and its bend into a corner, to a millimetre',
    ),
    angleDeg: ANGLE_FINDER,
  },
  rule: {
    lengthMm: practice(0.5, 'common practice: a steel rule or a square, to half a millimetre'),
    angleDeg: ANGLE_FINDER,
  },
  calliper: {
    lengthMm: practice(0.1, 'common practice: a calliper in the hand, to a tenth of a millimetre'),
    angleDeg: ANGLE_FINDER,
  },
};

/** How near to its mark a fold lands, mm, and to its angle, degrees, either way. */
export interface FoldingAccuracy {
  readonly landsMm: Sourced<number>;
  readonly angleDeg: Sourced<number>;
}

export const FOLDING: Readonly<Record<'folder' | 'press brake', FoldingAccuracy>> = {
  folder: {
    landsMm: practice(0.5, 'common practice: a line brought under the nose of a folder by eye'),
    angleDeg: practice(1, 'common practice: an angle folded by hand and checked with a square'),
  },
  'press brake': {
    landsMm: practice(0.3, 'common practice: a line under the punch, or a gauge set by hand'),
    angleDeg: practice(1, 'common practice: air bending, the first parts checked'),
  },
};

/** How near to its place a fold line is scribed by hand, mm. */
export const SCRIBED_MM = practice(0.3, 'common practice: a line scribed along a rule');

/** How closely a K factor of one's own holds for the next sheet. */
export const OWN_K = practice(
  0.03,
  'common practice: the K of one sheet and tool, on the next sheet',
);

/** How closely the inside radius comes out: a share of it, and never closer than so many mm. */
export const RADIUS = practice(
  { share: 0.1, leastMm: 0.2 },
  'common practice: a tenth of the radius, at least 0.2 mm',
);

/** Smallest limit of error of K, whatever the rules say. */
export const LEAST_K_LIMIT = 0.02;

/**
 * The group of Machinery's Handbook to which a sheet belongs: soft steel and aluminium, or harder
 * metal.
 */
export const handbookGroup = ({ id, family }: Material): 'mh2' | 'mh3' =>
  id === 'dc01' || family === 'stainless' ? 'mh3' : 'mh2';
