import type { Sourced } from '../model/material.ts';
import type { CutterProcess, LimitRows } from '../model/shop.ts';
import { fromMemory } from './sourced.ts';

/**
 * From where the tool pierces to the line that it cuts. No standard gives it, and programs of cutters
 * have a figure of their own; this is what a gap between parts should leave room for.
 */
export const LEAD_IN: Readonly<Record<CutterProcess, Sourced<LimitRows>>> = {
  laser: fromMemory<LimitRows>(
    [{ mm: 1, thicknesses: 1 }],
    'from memory: about 1 thickness, so that the pierce does not mark the edge',
  ),
  plasma: fromMemory<LimitRows>(
    [{ mm: 3, thicknesses: 1.5, kerfs: 2 }],
    'from memory: 1.5 to 2 thicknesses, for a pierce is twice as wide as the cut',
  ),
  waterjet: fromMemory<LimitRows>(
    [{ mm: 1.5, thicknesses: 1 }],
    'from memory: about 1 thickness, for a pierce is wider than the cut',
  ),
};
