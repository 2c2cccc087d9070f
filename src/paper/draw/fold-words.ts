import { figure } from '../../text/figures.ts';
import type { Blocked, FoldPlan, FoldStep } from '../../contract/fold-plan.ts';

/**
 * What is to be done at a step in parts: what counts first; how the blank is moved before, where it
 * is; then how it is marked and held, and what else to know.
 */
export interface StepWords {
  readonly title: string;
  readonly moves: string | null;
  readonly lines: readonly string[];
}

export const stepWords = (s: FoldStep, number: number): StepWords => {
  const moves = [
    ...(s.flip ? ['turn it over'] : []),
    ...(s.turnDeg > 0 ? [`turn it by ${figure(s.turnDeg, 1)} degrees`] : []),
  ];
  const mark =
    s.sightLineMm === null
      ? `mark: by ${s.from}`
      : `mark: ${figure(s.sightLineMm, 1)} mm from ${s.from}`;
  const tools =
    s.fingersMm.length === 0
      ? ''
      : `; tools ${s.fingersMm.map((w) => figure(w, 0)).join(' + ')} mm`;
  return {
    title: `${number}. Fold ${s.bend}${partOf(s)}: stop at ${figure(s.stopAtDeg, 1)} degrees`,
    moves: moves.length === 0 ? null : `first ${moves.join(' and ')}`,
    lines: [
      [mark, ...noseWords(s), `clamp ${s.clampedSide}${tools}`, ...stopWords(s)].join('; '),
      ...(s.note === null ? [] : [s.note]),
    ],
  };
};

/**
 * How the nose is set: how far its front stands back from the leaf, or over its edge, and what the
 * figure and the mark rest on.
 */
export const noseWords = ({ nose }: FoldStep): string[] => {
  if (nose === null) return [];
  const { radiusMm, gapMm, basis } = nose;
  const kind = radiusMm === 0 ? 'sharp nose' : `nose of radius ${figure(radiusMm, 1)}`;
  const gap = figure(Math.abs(gapMm), 1);
  return [
    `nose gap ${gapMm < 0 ? `none, the nose reaches ${gap} mm over the edge of the leaf` : `${gap} mm`} (${kind}, ${basis})`,
  ];
};

/** What is in the stop angle besides springback, where the shop has measured it. */
export const stopWords = ({ stop }: FoldStep): string[] =>
  stop === undefined || stop.offsetDeg === 0
    ? []
    : [
        `the stop reads ${figure(Math.abs(stop.offsetDeg), 1)} deg ${stop.offsetDeg > 0 ? 'more' : 'less'} than it turns, as measured`,
      ];

/** Which figures of the machine a plan rests on, in one line. */
export const restsOnWords = ({ restsOn: { measured, assumed } }: FoldPlan): string =>
  [
    ...(measured.length === 0 ? [] : [`measured: ${measured.join(', ')}`]),
    ...(assumed.length === 0 ? [] : [`assumed: ${assumed.join(', ')}`]),
  ].join('; ');

const partOf = ({ inTwo }: FoldStep): string =>
  inTwo === undefined ? '' : inTwo.stroke === 1 ? ' in part' : ' to its end';

/** What stands in the way of a fold, and when. */
export const blockedWords = ({ bend, after, reason }: Blocked): StepWords => ({
  title: `Fold ${bend} cannot be made ${after.length === 0 ? 'from flat' : `after ${after.join(', ')}`}`,
  moves: null,
  lines: [`${reason}.`],
});

/**
 * What is known of a part that cannot be folded, in sentences: which folds alone are to blame, and
 * what helps.
 */
export const blockedSummary = ({ blockEachOther, blockedBy }: FoldPlan): string[] => {
  const helps = [...new Set(blockedBy.flatMap((b) => b.suggestion?.split('; or ') ?? []))];
  return [
    ...(blockEachOther.length > 1
      ? [`Folds ${blockEachOther.join(', ')} block each other in any order.`]
      : blockEachOther.map((id) => `Fold ${id} cannot be made at any time.`)),
    helps.length === 0
      ? 'No other set-up or machine of the shop helps: change the design, or have it folded elsewhere.'
      : `What would help (tried): ${helps.join('; or ')}.`,
  ];
};

/** How the pictures of the steps are read. */
export const STEP_KEY =
  'Black is clamped, white is swung, broken lines stand beside the tools. Not to scale.';

/** How the pictures of what stands in the way are read. */
export const BLOCKED_KEY =
  'Black is clamped, white is swung, the grey flange is in the way. Pictures: before the stroke, where it stops, and the part as it lies. Not to scale.';
