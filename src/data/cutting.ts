import type { Sourced } from '../model/material.ts';
import type { CutterProcess, LimitRows } from '../model/shop.ts';
import { fromMemory, practice } from './sourced.ts';

/** What a way of cutting requires of a drawing, where a shop has not measured its own figures. */
export interface CuttingRules {
  readonly leastHole: Sourced<LimitRows>;
  readonly leastSlot: Sourced<LimitRows>;
  readonly leastWeb: Sourced<LimitRows>;
  readonly leastEdge: Sourced<LimitRows>;
  readonly warpsUpTo: Sourced<number>;
}

const SLOT = practice<LimitRows>(
  [{ kerfs: 2 }],
  'common practice: a slot narrower than 2 kerfs is one pass on its centre line, or is refused',
);

/**
 * No standard gives any of these figures: they are what shops accept, and the lower end where shops
 * differ.
 */
export const CUTTING: Readonly<Record<CutterProcess, CuttingRules>> = {
  laser: {
    leastHole: practice<LimitRows>(
      [{ mm: 1, thicknesses: 1 }],
      'common practice: 1 thickness (some shops accept 0.7), never under 1 mm',
    ),
    leastSlot: SLOT,
    leastWeb: practice<LimitRows>([{ thicknesses: 1 }], 'common practice: 1 thickness'),
    leastEdge: practice<LimitRows>([{ thicknesses: 1 }], 'common practice: 1 to 1.5 thicknesses'),
    warpsUpTo: practice(0, 'common practice: a laser brings little heat'),
  },
  plasma: {
    leastHole: practice<LimitRows>(
      [{ mm: 4, thicknesses: 1.5 }],
      'common practice: 1.5 to 2 thicknesses, not under 4 to 5 mm',
    ),
    leastSlot: SLOT,
    leastWeb: practice<LimitRows>(
      [{ thicknesses: 2, kerfs: 2 }],
      'common practice: 2 thicknesses and 2 kerfs',
    ),
    leastEdge: practice<LimitRows>(
      [{ thicknesses: 2, kerfs: 2 }],
      'common practice: as between two cuts',
    ),
    warpsUpTo: practice(1.5, 'common practice: sheet of 1.5 mm and under needs care on plasma'),
  },
  waterjet: {
    leastHole: fromMemory<LimitRows>(
      [{ kerfs: 2 }],
      'from memory: a hole that is cut round takes twice the kerf',
    ),
    leastSlot: SLOT,
    leastWeb: fromMemory<LimitRows>([{ thicknesses: 1 }], 'from memory: 1 thickness'),
    leastEdge: fromMemory<LimitRows>([{ thicknesses: 1 }], 'from memory: 1 thickness'),
    warpsUpTo: practice(0, 'common practice: a water jet brings no heat'),
  },
};
