import type {
  FoldPlanResult,
  PlanResult,
  StepResult,
  StrokeNames,
} from '../../contract/panel-plan.ts';

/** The plan of panels as a person reads it. */
export const panelPlanText = ({
  machine,
  verdict,
  foldPlan,
  preFoldPlan,
  feasibleOrders,
  totalOrders,
  blocked,
}: PlanResult): string => {
  const counted =
    feasibleOrders === null ? [] : [`${feasibleOrders} of ${totalOrders ?? 'many'} orders work.`];
  if (foldPlan !== null) {
    const claim = foldPlan.cheapest
      ? ''
      : ' (a cheaper order may exist: the search was broken off)';
    return [`Fold on ${machine}${claim}:`, ...foldPlan.steps.map(stepText), ...counted].join('\n');
  }
  const head =
    verdict === 'impossible'
      ? `No order of folds works on ${machine}.`
      : `Not decided whether the part can be folded on ${machine}: the search was broken off.`;
  return [
    head,
    ...blocked
      .slice(0, MOST_TOLD)
      .map(
        (b) =>
          `  ${b.already_folded.length === 0 ? 'flat' : `after ${b.already_folded.join(', ')}`}: ${named(b.bend)} cannot be made. ${told(b.parent_side_clamped, 'parent')}; ${told(b.child_side_clamped, 'child')}`,
      ),
    ...(blocked.length > MOST_TOLD
      ? [`  and ${blocked.length - MOST_TOLD} more, with --json`]
      : []),
    ...(preFoldPlan === null ? [] : rescueText(preFoldPlan)),
  ].join('\n');
};

/** This is only a suggestion: the verdict is on folds made at one stroke each. */
const rescueText = ({ steps }: FoldPlanResult): string[] => [
  'What would help (tried): to make some folds in two strokes, in part first and finished later:',
  ...steps.map(stepText),
];

const MOST_TOLD = 10;

const told = (reason: string, side: string): string => `${side} side clamped: ${reason}`;

const named = (bend: StrokeNames): string => (typeof bend === 'string' ? bend : bend.join(' + '));

const stepText = (s: StepResult, i: number): string => {
  const moves = [
    ...(s.flip ? ['turn over'] : []),
    ...(s.turnDeg > 0 ? [`turn by ${s.turnDeg} deg`] : []),
  ];
  const fingers = s.fingersMm.map((room) => room.join(' + ')).join(' and ');
  return `  ${i + 1}. ${named(s.bend)}: ${[...moves, `clamp ${s.clampedPanel}`, `stop at ${s.stopAtDeg} deg`, `stops at ${s.stopMm} mm`, `tools ${fingers} mm`, ...inTwoText(s)].join(', ')}`;
};

const inTwoText = ({ bend, inTwo }: StepResult): string[] =>
  inTwo === undefined
    ? []
    : [
        inTwo.stroke === 1
          ? `folded in part now, to ${inTwo.keepsDeg} deg, and finished in step ${inTwo.otherStep}`
          : `finishes ${named(bend)}, begun in step ${inTwo.otherStep}`,
      ];
