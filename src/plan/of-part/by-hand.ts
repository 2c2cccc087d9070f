import { HEM_DEG, WIDEST_HEM } from '../../bending/hem.ts';
import { figure } from '../../text/figures.ts';
import type { BareStep } from './step-card.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import type { Fold } from '../../model/part.ts';
import { givenRadius } from './given-radius.ts';

/**
 * Whether a bend is formed round a pipe, a bar or another former and is no stroke of the machine: it
 * goes right over and is too wide for a hem, or is rolled with the middle of the sheet keeping its
 * length, as a strap is round a pipe; or it is far wider than the tool would make it. What the
 * shop's own strips gave is made as they were.
 */
export const isFormed = (
  fold: Pick<Fold, 'angleDeg' | 'insideRadiusMm' | 'rule' | 'midSurface'>,
  bend: Pick<FlatBend, 'rule'> | undefined,
  thicknessMm: number,
  machine?: Machine,
): boolean => {
  const { angleDeg, insideRadiusMm, rule, midSurface } = fold;
  if (midSurface === true || angleDeg === 0) return false;
  const isWide = insideRadiusMm > WIDEST_HEM * thicknessMm;
  if (angleDeg >= HEM_DEG) return isWide || (rule?.id === 'k' && rule.k === MID_SHEET_K);
  if (!isWide || machine === undefined || bend?.rule === 'measured') return false;
  return givenRadius(machine, thicknessMm, insideRadiusMm) !== undefined;
};

/** K of a bend whose middle of the sheet keeps its length, which is a roll. */
const MID_SHEET_K = 0.5;

/** How far a bend is taken at each hit where it is bumped, degrees (common practice). */
const BUMP_DEG = 5;
/** More than this at a hit leaves facets that are seen. */
const MOST_BUMP_DEG = 10;

/** Lines of bumping nearer to each other than this, in thicknesses, run into one another. */
const LEAST_PITCH = 1.5;

/** How a bend is formed: round what, and where that helps in how many hits, and how far apart. */
export const formedNote = (bend: FlatBend, thicknessMm: number): string => {
  const hits = Math.min(
    Math.ceil(bend.angleDeg / BUMP_DEG),
    Math.max(1, Math.floor(bend.allowanceMm / (LEAST_PITCH * thicknessMm))),
  );
  const pitchMm = bend.allowanceMm / hits;
  const bumped =
    bend.angleDeg / hits > MOST_BUMP_DEG
      ? ''
      : `, or bumped in ${hits} hits of ${figure(bend.angleDeg / hits, 1)} deg, ${figure(pitchMm, 1)} mm apart`;
  return `by hand round a pipe, bar or former of radius ${figure(bend.insideRadiusMm)}, or in rolls${bumped}: it is no fold`;
};

/** The step of a fold that no machine makes: one round a former, or a row of slots. */
export const handStep = (fold: Fold, bend: FlatBend, thicknessMm: number): BareStep => {
  const [from, note] =
    fold.slots === undefined
      ? ['the tangent lines at both its ends', formedNote(bend, thicknessMm)]
      : [
          'its row of slots',
          'by hand along its slots, to the angle itself, then weld the slots up',
        ];
  return {
    bend: fold.id,
    clampedSide: bend.parent,
    flip: false,
    turnDeg: 0,
    stopAtDeg: bend.angleDeg,
    sightLineMm: null,
    from,
    mark: null,
    nose: null,
    fingersMm: [],
    note,
    way: fold.slots === undefined ? 'round a former' : 'along slots',
    byHandDeg: bend.angleDeg,
  };
};
