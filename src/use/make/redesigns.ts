import type { Redesign } from '../../contract/redesign.ts';
import { AT } from '../../forms/named-folds.ts';
import type { Template } from '../../forms/template.ts';
import { type Made, makeGiven } from './make-given.ts';
import type { FilledOptions } from './make-options.ts';
import { valueOfInput } from './part-told.ts';
import { costOf } from './redesign-cost.ts';
import { type Changed, changesFor, otherDesigns } from './redesign-inputs.ts';
import { type Joints, jointsFor, NO_JOINTS } from './redesign-joints.ts';
import { flagsOf } from './redesign-words.ts';
import { type Design, type Trials, trialsOf } from './redesign-trials.ts';

type Raw = Readonly<Record<string, unknown>>;

/** So many plans are made for one part before what was found by then is told. */
const MOST_PLANS = 300;

/** From so many seams on it is worth asking whether another choice needs fewer. */
const MANY_SEAMS = 3;
const FEW_PLANS = 150;

/** The most redesigns that are told. */
export const MOST_REDESIGNS = 4;

/**
 * Designs of a part that the shop can fold, for one that it cannot: with folds welded or slit, a
 * choice made otherwise or a size changed; the cheapest first. Each was made as a whole: every piece
 * planned, its DXF proved, its drawing made. There are none for a part that can be folded, or that
 * something else stops.
 */
export function redesignsOf(
  template: Template,
  raw: Raw,
  options: FilledOptions,
  wanted = MOST_REDESIGNS,
): readonly Redesign[] {
  const trials = trialsOf(template, options, MOST_PLANS);
  const design = trials.designOf(raw);
  if (design === undefined || isFoldable(design, trials)) return [];
  // Where the cheapest alone is asked for, dearer kinds are not looked for.
  const ways = wanted === 1 ? (['weld', 'hem'] as const) : undefined;
  const joined = jointsFor(design, trials, undefined, ways).map((joints) =>
    redesignBy(design, {}, joints, trials),
  );
  const mostCost =
    wanted === 1
      ? Math.min(...joined.map((one) => (one === undefined ? Infinity : costOf(one))))
      : Infinity;
  const single = [
    ...joined,
    ...changesFor(template, design, trials, mostCost).map((changed) =>
      redesignBy(design, changed, undefined, trials),
    ),
  ];
  const fewest = Math.min(
    ...single.map((one) => (one === undefined ? MANY_SEAMS : jointsIn(one))),
    MANY_SEAMS,
  );
  const found =
    fewest < MANY_SEAMS
      ? single
      : [...single, ...choicesWithJoints(template, design, trialsOf(template, options, FEW_PLANS))];
  const told: Redesign[] = [];
  for (const redesign of ofEachKind(found.filter((one) => one !== undefined))) {
    if (told.length >= wanted) break;
    if (isMade(makeGiven(template, { ...raw, ...redesign.inputs }, { ...options, fit: undefined })))
      told.push(redesign);
  }
  return told.toSorted((a, b) => costOf(a) - costOf(b));
}

const jointsIn = ({ seams, slits, laps, tabs }: Redesign): number => seams + slits + laps + tabs;

/**
 * The cheapest first, and before others of its kind the cheapest of each kind: whoever cannot weld
 * thin sheet is not helped by three choices of seams.
 */
const ofEachKind = (found: readonly Redesign[]): readonly Redesign[] => {
  const ranked = found.toSorted((a, b) => costOf(a) - costOf(b));
  const kindOf = ({ inputs }: Redesign): string => Object.keys(inputs).toSorted().join();
  const isFirst = (one: Redesign): boolean =>
    ranked.find((other) => kindOf(other) === kindOf(one)) === one;
  return [...ranked.filter(isFirst), ...ranked.filter((one) => !isFirst(one))];
};

const isFoldable = ({ blanks, context }: Design, trials: Trials): boolean =>
  blanks.every(({ part }) => trials.canBeFolded(part, context));

/** Another choice with seams beside it, where one change alone takes many seams or does not help. */
const choicesWithJoints = (template: Template, design: Design, trials: Trials) =>
  otherDesigns(template, design, trials).flatMap(({ changed, tried }) =>
    jointsFor(tried, trials, MANY_SEAMS - 1, ['weld']).map((joints) =>
      redesignBy(design, changed, joints, trials),
    ),
  );

/** Whether every part was made with its proof, and can be folded or has nothing to fold. */
export const isMade = (made: Made): boolean =>
  made.ok &&
  made.parts.every(
    ({ stopped, result: { foldPlan } }) =>
      !stopped && (foldPlan === null || foldPlan.feasible === true),
  );

function redesignBy(
  { raw, context: { values }, blanks }: Design,
  changed: Changed,
  joints: Joints = NO_JOINTS,
  trials: Trials,
): Redesign | undefined {
  const inputs = {
    ...changed,
    ...Object.fromEntries(
      AT.filter((at) => joints[at].length > 0).map((at) => [
        at,
        [...values[at], ...joints[at]].join(', '),
      ]),
    ),
  };
  const now = trials.designOf({ ...raw, ...inputs });
  if (now === undefined) return undefined;
  return {
    inputs,
    flags: flagsOf(inputs),
    seams: joints.weldAt.length + joints.hemAt.length,
    seamMm: Math.round(joints.seamMm),
    slits: joints.slitAt.length,
    slitMm: Math.round(joints.slitMm),
    laps: joints.lapAt.length,
    lapMm: Math.round(joints.lapMm),
    tabs: joints.tabAt.length,
    tabMm: Math.round(joints.tabMm),
    pieces: { before: piecesIn(blanks), now: piecesIn(now.blanks) },
    changes: Object.entries(changed).map(([input, to]) => ({
      input,
      from: valueOfInput(values, input) as string | number,
      to,
    })),
  };
}

const piecesIn = (blanks: Design['blanks']): number =>
  blanks.reduce((sum, { quantity }) => sum + quantity, 0);
