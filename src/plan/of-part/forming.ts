import { type Bump, bumpOf, MOST_HIT_DEG } from '../../bending/bump.ts';
import { HEM_DEG } from '../../bending/hem.ts';
import { formerRadiusMm } from '../../bending/springback.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import type { Fold } from '../../model/part.ts';
import type { Rolls } from '../../model/wide-bends.ts';
import { type BumpCheck, checkBump } from './bump-check.ts';
import { givenRadius } from './given-radius.ts';
import type { PartToFold } from './plan-steps.ts';
import { rollsFor, whyNotRolled } from '../machines/rolls.ts';
import { bendLengthMm } from './step-notes.ts';

/** How a bend is formed that is far wider than the tool of a machine makes it. */
export type Forming =
  | {
      readonly way: 'round a former';
      readonly toolRadiusMm: number;
      /** Why it is not bumped, where that was tried. */
      readonly notBumped?: string;
    }
  | {
      readonly way: 'in rolls';
      readonly toolRadiusMm: number;
      readonly rolls: Rolls | undefined;
      /** Why the shop's own rolls do not take it, where they do not. */
      readonly notRolled: readonly string[];
    }
  | {
      readonly way: 'bumped';
      readonly bump: Bump;
      /** Inside radius that the tool gives at a hit, mm. */
      readonly hitRadiusMm: number;
      readonly check: BumpCheck;
    };

/**
 * How a bend is formed: as it was asked for, or else in rolls of the shop that take it, or bumped
 * where the machine gets through all hits and they are slight enough, or by hand round a former. What
 * goes round a pipe or is bent right over is not bumped unless it is asked for. `made` are the folds
 * that the machine has made by then.
 */
export function formingOf(
  part: PartToFold,
  machine: Machine,
  fold: Fold,
  bend: FlatBend,
  made: readonly string[],
): Forming {
  const { material, rolls = [], wideBends, flat } = part;
  const { thicknessMm } = flat;
  const asked = wideBends?.way;
  const tool = formerRadiusMm(material, bend.insideRadiusMm, thicknessMm);
  const round = { material, thicknessMm, lengthMm: bendLengthMm(bend), toolRadiusMm: tool };
  const own = rollsFor(rolls, round);
  if (asked === 'rolled' || (asked === undefined && own !== undefined))
    return {
      way: 'in rolls',
      toolRadiusMm: tool,
      rolls: own,
      notRolled: own === undefined ? rolls.flatMap((one) => whyNotRolled(one, round) ?? []) : [],
    };
  const former: Forming = { way: 'round a former', toolRadiusMm: tool };
  if (asked === 'former' || (asked === undefined && isWrapped(fold))) return former;
  const bump = bumpOf({ ...bend, thicknessMm }, wideBends?.way === 'bumped' ? wideBends : {});
  const hitRadiusMm = Math.min(
    bend.insideRadiusMm,
    givenRadius(machine, thicknessMm, bend.insideRadiusMm)?.radiusMm ?? thicknessMm,
  );
  if (asked === undefined && bump.angleDeg > MOST_HIT_DEG) return former;
  const check = checkBump(part, machine, bend, bump, hitRadiusMm, made);
  return asked === undefined && check.isClear !== true
    ? { ...former, ...(check.reason !== undefined && { notBumped: check.reason }) }
    : { way: 'bumped', bump, hitRadiusMm, check };
}

/** Whether a bend hugs what it holds, or is bent right over. */
const isWrapped = ({ angleDeg, rolled }: Fold): boolean => rolled === true || angleDeg >= HEM_DEG;
