import type { Finding } from '../model/finding.ts';
import { blankTooLarge } from './blank-too-large.ts';
import { type Check, type CheckedPart, toChecked } from './check.ts';
import { countersinkTooDeep } from './countersink-too-deep.ts';
import { formedUnderJaw } from './formed-under-jaw.ts';
import { grainDirection } from './grain-direction.ts';
import { handsShareBlank } from './hands-share-blank.ts';
import { holeBelowLeast } from './hole-below-least.ts';
import { holeNearBend } from './hole-near-bend.ts';
import { holeOffMetal } from './hole-off-metal.ts';
import { holeOtherWay } from './hole-other-way.ts';
import { holesMeet } from './holes-meet.ts';
import { noCutterTakesSheet } from './no-cutter-takes-sheet.ts';
import { radiusBelowLeast } from './radius-below-least.ts';
import { reliefTooNarrow } from './relief-too-narrow.ts';
import { rollsDoNotTake } from './rolls-do-not-take.ts';
import { sharpCorners } from './sharp-corners.ts';
import { sheetWarps } from './sheet-warps.ts';
import { slotLandWeak } from './slot-land-weak.ts';
import { thicknessNotStocked } from './thickness-not-stocked.ts';
import { threadTooShort } from './thread-too-short.ts';
import { webTooThin } from './web-too-thin.ts';

/** Every check of a flat pattern, one line each. */
export const CHECKS: readonly Check[] = [
  holeOffMetal,
  holeOtherWay,
  holesMeet,
  holeNearBend,
  holeBelowLeast,
  webTooThin,
  slotLandWeak,
  threadTooShort,
  countersinkTooDeep,
  reliefTooNarrow,
  blankTooLarge,
  noCutterTakesSheet,
  sheetWarps,
  radiusBelowLeast,
  rollsDoNotTake,
  formedUnderJaw,
  grainDirection,
  thicknessNotStocked,
  sharpCorners,
  handsShareBlank,
];

/** What the checks find, in the order of the list; `stops`: only those run that can stop a part. */
export function runChecks(part: CheckedPart, wanted: 'all' | 'stops' = 'all'): Finding[] {
  const checked = toChecked(part);
  const checks =
    wanted === 'all' ? CHECKS : CHECKS.filter(({ severities }) => severities.includes('stop'));
  return checks.flatMap((check) => check.run(checked));
}
