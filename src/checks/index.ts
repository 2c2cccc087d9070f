import type { Finding } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Material } from '../model/material.ts';
import { type Check, toChecked } from './check.ts';
import { holeNearBend } from './hole-near-bend.ts';
import { holeOffMetal } from './hole-off-metal.ts';
import { holesMeet } from './holes-meet.ts';
import { radiusBelowLeast } from './radius-below-least.ts';
import { thicknessNotStocked } from './thickness-not-stocked.ts';

/** Every check of a flat pattern, one line each. */
export const CHECKS: readonly Check[] = [holeOffMetal, holesMeet, holeNearBend, radiusBelowLeast, thicknessNotStocked];

/** What the checks find, in the order of the list. */
export function runChecks(flat: FlatPattern, material: Material): Finding[] {
  const checked = toChecked(flat, material);
  return CHECKS.flatMap((check) => check.run(checked));
}
