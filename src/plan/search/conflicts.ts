import {
  type BoundingCylinder,
  mayReach,
  mayTouch,
  sweepsOf,
} from '../machines/bounding-cylinder.ts';
import { reachesIn, takenBy, type Taken } from '../machines/contacts.ts';
import type { PlacedPart, PlacedPanel } from '../machines/placed-part.ts';
import type { FoldNet } from '../machines/net.ts';
import { type BodyCheck, MOVING, STILL, type StrokeRules } from '../machines/stroke-rules.ts';
import { swingContact } from '../machines/swing-contact.ts';
import type { Solid } from '../../geometry/convex-solid.ts';
import { bitCount } from '../machines/bits.ts';
import { askedBefore, numberOf } from './known-verdicts.ts';

/** What stands in the way of a stroke in some state of the part. */
export interface Verdict {
  /** Whether something stands in the way that no choice of tools clears. */
  readonly hard: boolean;
  /** Stretches where no tool can stand. */
  readonly taken: readonly Taken[];
}

/** Counts the bodies that were compared. */
export interface Effort {
  contacts: number;
}

/**
 * A question whose answer depends on the folds of `path` alone: the folds between panels, and the
 * machine, decide how one panel or two of them lie.
 */
interface Question {
  readonly path: number;
  /**
   * Whether anything can be near enough to stand in the way. It is asked first, because it costs
   * little.
   */
  readonly isNear: (made: number) => boolean;
  readonly ask: (made: number) => Verdict;
}

const NONE: readonly Taken[] = [];
const CLEAR: Verdict = { hard: false, taken: NONE };
const HARD: Verdict = { hard: true, taken: NONE };

/**
 * Compares every panel with the machine's bodies, through the whole stroke.
 *
 * @param laid how the part lies: its folds that are made, and the side that is clamped
 */
export const panelQuestions = (
  net: FoldNet,
  placedPart: PlacedPart,
  { checks, startDeg, stillStartDeg }: StrokeRules,
  effort: Effort,
  laid: string,
): Question[] => {
  const name = `${laid} from ${startDeg} ${stillStartDeg} by ${numberOf(checks)}`;
  const bySide = checksBySide(checks).map((own) => ({ own, sweeps: sweepsOf(own) }));
  return net.panels.map((_, panel) => {
    const { own, sweeps } = bySide[placedPart.sides[panel] as number] as (typeof bySide)[number];
    return {
      path: placedPart.paths[panel] as number,
      isNear: (made) => {
        const cylinder = placedPart.cylinders(made)[panel] as BoundingCylinder;
        return sweeps.some((sweep) => mayReach(cylinder, sweep));
      },
      ask: askedBefore(net, `${name} ${panel}`, effort, (made) =>
        panelVerdict(placedPart.panel(panel, made), own, placedPart.foldMm, effort),
      ),
    };
  });
};

const sidesKnown = new WeakMap<readonly BodyCheck[], readonly (readonly BodyCheck[])[]>();

/** The checks of the side that stays still, and those of the one that moves. */
const checksBySide = (checks: readonly BodyCheck[]): readonly (readonly BodyCheck[])[] => {
  const found =
    sidesKnown.get(checks) ?? [STILL, MOVING].map((side) => checks.filter((c) => c.side === side));
  sidesKnown.set(checks, found);
  return found;
};

function panelVerdict(
  { solids }: PlacedPanel,
  checks: readonly BodyCheck[],
  foldMm: number,
  effort: Effort,
): Verdict {
  const taken: Taken[] = [];
  for (const solid of solids) {
    for (const check of checks) {
      effort.contacts += 1;
      if (!check.inSections && reachesIn(solid, check)) return HARD;
      // What stands within the length of the fold hangs off no end.
      if (check.atEnd === true && isWithin(solid, foldMm) && reachesIn(solid, check)) return HARD;
      const stretch = check.inSections ? takenBy(solid, check) : undefined;
      if (stretch !== undefined) taken.push(stretch);
    }
  }
  return taken.length === 0 ? CLEAR : { hard: false, taken };
}

/** Whether a body reaches beyond neither end of the fold. */
const isWithin = ({ ring: { low, high } }: Solid, foldMm: number): boolean =>
  low > -foldMm / 2 && high < foldMm / 2;

/**
 * Compares every panel that swings with every one that stays; the answer is the same whichever side
 * is clamped.
 */
export const pairQuestions = (
  net: FoldNet,
  placedPart: PlacedPart,
  { swingDeg, startDeg, stillStartDeg }: StrokeRules,
  effort: Effort,
  laid: string,
): Question[] => {
  const name = `${laid} from ${startDeg} ${stillStartDeg} to ${swingDeg}`;
  const all = net.panels.map((_, panel) => panel);
  const on = (side: number): number[] => all.filter((panel) => placedPart.sides[panel] === side);
  const turnRad = ((swingDeg - startDeg) * Math.PI) / 180;
  return on(STILL).flatMap((still) =>
    on(MOVING).map((moving) => ({
      path: (placedPart.paths[still] as number) | (placedPart.paths[moving] as number),
      isNear: (made): boolean => {
        const cylinders = placedPart.cylinders(made);
        return mayTouch(
          cylinders[moving] as BoundingCylinder,
          cylinders[still] as BoundingCylinder,
          turnRad,
        );
      },
      ask: askedBefore(net, `${name} ${still} ${moving}`, effort, (made) => {
        effort.contacts += 1;
        return pairMeets(placedPart, still, moving, made, swingDeg - startDeg) ? HARD : CLEAR;
      }),
    })),
  );
};

/** Whether two panels meet. */
export const pairMeets = (
  placedPart: PlacedPart,
  still: number,
  moving: number,
  made: number,
  swingDeg: number,
): boolean =>
  placedPart
    .panel(moving, made)
    .lessGap.some((turning) =>
      placedPart
        .panel(still, made)
        .solids.some((fixed) => swingContact(turning, fixed, swingDeg) !== undefined),
    );

/** The first angle at which two panels meet, degrees. */
export const pairContact = (
  placedPart: PlacedPart,
  still: number,
  moving: number,
  made: number,
  swingDeg: number,
): number | undefined => {
  let first: number | undefined;
  for (const turning of placedPart.panel(moving, made).lessGap) {
    for (const fixed of placedPart.panel(still, made).solids) {
      const deg = swingContact(turning, fixed, swingDeg);
      if (deg !== undefined && (first === undefined || deg < first)) first = deg;
    }
  }
  return first;
};

/**
 * A question over no more folds than this is answered for all their states at once, and forgotten
 * where the answer is always no.
 */
export const FEW_FOLDS = 3;

/** The set of all folds. */
export const ALL = -1;

/** What stands in the way in a state, as far as the folds of `within` alone decide it. */
export type Answers = (made: number, within?: number) => Verdict;

/** Joins questions into one. Each is asked when a state first needs it. */
export function answers(questions: () => readonly Question[]): Answers {
  let sorted: Sorted | undefined;
  const find = (made: number, within: number): Verdict => {
    sorted ??= sortedOf(questions());
    const taken: Taken[] = [];
    for (const { path, ask } of sorted.few) {
      if ((path & ~within) !== 0) continue;
      const verdict = ask(made);
      if (verdict.hard) return HARD;
      taken.push(...verdict.taken);
    }
    // A few folds never decide a question over many.
    for (const { isNear, ask } of within === ALL ? sorted.deep : []) {
      if (!isNear(made)) continue;
      const verdict = ask(made);
      if (verdict.hard) return HARD;
      taken.push(...verdict.taken);
    }
    return taken.length === 0 ? CLEAR : { hard: false, taken };
  };
  // A state is asked for with one side clamped, and straight after with the other.
  let last:
    { readonly made: number; readonly within: number; readonly verdict: Verdict } | undefined;
  return (made, within = ALL) => {
    if (last?.made !== made || last.within !== within)
      last = { made, within, verdict: find(made, within) };
    return last.verdict;
  };
}

/** Questions over few folds, the fewest first, and over many. */
interface Sorted {
  readonly few: readonly Question[];
  readonly deep: readonly Question[];
}

function sortedOf(questions: readonly Question[]): Sorted {
  const few: Question[] = [];
  const deep: Question[] = [];
  for (const question of questions) {
    const { path, isNear, ask } = question;
    if (bitCount(path) > FEW_FOLDS) deep.push({ ...question, ask: remembering(path, ask) });
    else
      few.push({
        ...question,
        ask: remembering(path, (value) => (isNear(value) ? ask(value) : CLEAR)),
      });
  }
  return { few: few.toSorted((a, b) => bitCount(a.path) - bitCount(b.path)), deep };
}

/**
 * Answers over more folds than this are not remembered: they would take more memory than the time
 * they save is worth.
 */
const MOST_REMEMBERED = 13;

/** The value 0 stands for a question that was not asked yet. */
const [IS_CLEAR, IS_HARD, IS_TAKEN] = [1, 2, 3];

/** Remembers a byte for each state of the folds of a path. */
function remembering(path: number, ask: (made: number) => Verdict): (made: number) => Verdict {
  if (bitCount(path) > MOST_REMEMBERED) return ask;
  const places = Array.from({ length: 31 }, (_, i) => i).filter((i) => (path & (1 << i)) !== 0);
  const known = new Uint8Array(1 << places.length);
  const taken = new Map<number, Verdict>();
  return (made) => {
    let key = 0;
    for (let i = 0; i < places.length; i++) key |= ((made >> (places[i] as number)) & 1) << i;
    switch (known[key]) {
      case IS_CLEAR:
        return CLEAR;
      case IS_HARD:
        return HARD;
      case IS_TAKEN:
        return taken.get(key) as Verdict;
      default: {
        const fresh = ask(made & path);
        known[key] = fresh === CLEAR ? IS_CLEAR : fresh === HARD ? IS_HARD : IS_TAKEN;
        if (known[key] === IS_TAKEN) taken.set(key, fresh);
        return fresh;
      }
    }
  };
}
