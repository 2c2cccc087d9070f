import { type Printed, printedIn } from '../../text/printed.ts';
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

export const stepWords = (s: FoldStep, number: number, print = printedIn()): StepWords => {
  const moves = movesOf(s);
  return {
    title: `${number}. Fold ${s.bend}${partOf(s)}: ${stopTitle(s)}`,
    moves: moves.length === 0 ? null : `first ${moves.join(', then ')}`,
    lines: [
      [markOf(s, print), ...noseWords(s), `${holdOf(s)}${toolsOf(s)}`, ...stopWords(s)].join('; '),
      ...checkWords(s, print),
      ...(s.note === null ? [] : [s.note]),
    ].map(print.words),
  };
};

const stopTitle = ({ bump, way, stopAtDeg }: FoldStep): string => {
  const degrees = `${figure(stopAtDeg, 1)} degrees`;
  return way === 'by eye'
    ? `${degrees} by eye`
    : `${bump === undefined ? '' : `${bump.hits} hits, each `}stop at ${degrees}`;
};

const movesOf = ({ flip, turnDeg, card }: FoldStep): string[] => [
  ...(flip ? [`turn it over${FLIPS[card.flipAbout ?? 'first']}`] : []),
  ...(turnDeg > 0
    ? [
        `turn it by ${figure(turnDeg, 1)} degrees${card.turnTo === null ? '' : ` to the ${card.turnTo}, seen from above`}`,
      ]
    : []),
];

const FLIPS = {
  along: ' end for end, its front edge to the back',
  across: ' sideways, its left end to the right',
  first: ', the face of the drawing down',
} as const;

const markOf = (s: FoldStep, { tape, word }: Printed): string =>
  s.sightLineMm === null
    ? `mark: by ${s.from}`
    : `mark: ${tape(s.sightLineMm, 1)} ${word} from ${s.from}`;

/** A folder clamps one side; on a brake, which has no nose, both rise. */
const holdOf = ({ nose, clampedSide, card: { swungSide, tools } }: FoldStep): string =>
  nose === null && tools.length > 0
    ? `${clampedSide} on the left, ${swungSide} on the right`
    : `clamp ${clampedSide}, swing ${swungSide}`;

const toolsOf = ({ fingersMm }: FoldStep): string =>
  fingersMm.length === 0 ? '' : `; tools ${fingersMm.map((w) => figure(w, 0)).join(' + ')} mm`;

/** What tape and square read on the part after a step. */
export const checkWords = ({ card: { checks } }: FoldStep, print = printedIn()): string[] => {
  const each = checks.map(({ kind, from, to, value, unit, plusMinus }) => {
    const { tape, machine } = unit === 'mm' ? print : printedIn();
    const off = plusMinus === null ? '' : ` \u00b1 ${machine(plusMinus)}`;
    return kind === 'angle'
      ? `${figure(value, 1)}${off} degrees inside, by the square`
      : `${tape(value, 1)}${off} ${print.word} from ${from} to ${to}`;
  });
  return each.length === 0 ? [] : [`check: ${each.join('; ')}`];
};

/** Heavier than this, kg, a side is told with the hand that bears it. */
const HEAVY_KG = 3;

/** What the bend keeps of the angle that it is turned to. */
const springWords = ({ stopAtDeg, stop, bump, card: { keepsDeg } }: FoldStep): string[] =>
  bump !== undefined || stopAtDeg - (stop?.offsetDeg ?? 0) - keepsDeg < 0.05
    ? []
    : [`it springs back to ${figure(keepsDeg, 1)}`];

/** The card of a step, line by line: what is done first, each with the word that it is found by. */
export const cardLines = (
  s: FoldStep,
  print = printedIn(),
): (readonly [word: string, text: string])[] =>
  metricLines(s, print).map(([word, text]) => [word, print.words(text)]);

/** The same, with what is no mark and no check in mm. */
const metricLines = (s: FoldStep, print: Printed): (readonly [word: string, text: string])[] => {
  const { card } = s;
  const isByHand = card.tools.length === 0;
  const moves = movesOf(s);
  const face =
    card.faceUp === 'upper' ? 'the face of the drawing is up' : 'the face of the drawing is down';
  return [
    ...(moves.length === 0 ? [] : [['FIRST', moves.join(', then ')] as const]),
    ['MARK', `${markOf(s, print).replace(/^mark: /, '')}, on the face that is up; ${face}`],
    ...(isByHand ? [] : [['SET', setWords(s)] as const]),
    ...(isByHand && s.bump === undefined ? [] : [['HOLD', holdOf(s)] as const]),
    [
      'STOP',
      [stopTitle(s).replace(/stop at/, 'at'), ...springWords(s), ...stopWords(s)].join(', '),
    ],
    ...checkWords(s, print).map((text) => ['CHECK', text.replace(/^check: /, '')] as const),
    ...(card.takeOff === null ? [] : [['OUT', OUT[card.takeOff]] as const]),
    ['CARE', careWords(s)],
    ...(s.note === null ? [] : [['NOTE', s.note] as const]),
  ];
};

const OUT = {
  'to the front': 'pull it straight out to the front',
  'along the machine': 'push it along the machine, over its end',
  'not at all': 'not straight out: take the tools out of it, or tilt it',
} as const;

const setWords = (s: FoldStep): string => {
  const { tools, barFitted } = s.card;
  const at = tools.map(
    ({ fromMm, widthsMm }) =>
      `${widthsMm.map((w) => figure(w, 0)).join(' + ')} mm${Math.abs(fromMm) < 0.05 ? ' from its left end' : fromMm > 0 ? ` from ${figure(fromMm, 1)} mm right of its left end` : ` from ${figure(-fromMm, 1)} mm left of its left end`}`,
  );
  return [
    `${s.nose === null ? 'tools' : 'fingers'} along the fold: ${at.join('; ')}`,
    ...noseWords(s),
    ...(barFitted === null ? [] : [barFitted ? 'bar on the leaf' : 'bar off the leaf']),
  ].join('; ');
};

const careWords = ({ nose, bump, card }: FoldStep): string => {
  const heavy =
    card.swungKg < HEAVY_KG
      ? []
      : [
          `the side that rises is ${figure(card.swungKg, 1)} kg: ${card.hand === 'both' ? 'both hands, or a second person,' : `the ${card.hand} hand`} under it`,
        ];
  const pinch =
    bump !== undefined
      ? ['hands clear of where the tools close, at every hit']
      : card.tools.length === 0
        ? []
        : nose === null
          ? ['hands out of the V and from under the ram; the sheet whips up']
          : ['hands clear of the clamp and of the gap between leaf and nose'];
  return [...heavy, ...pinch, 'cut edges are sharp: gloves'].join('; ');
};

/**
 * How the nose is set: how far its front stands back from the leaf, or over its edge, and what the
 * figure and the mark rest on.
 */
export const noseWords = ({ nose }: FoldStep): string[] => {
  if (nose === null) return [];
  const { radiusMm, gapMm, basis } = nose;
  const kind = radiusMm === 0 ? 'sharp nose' : `nose of radius ${figure(radiusMm, 1)} mm`;
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
  'In section black is clamped, white is swung, grey is bent or about to be; thin lines stand behind. In the view hatched is clamped, the heavy line is the fold: full for UP, broken for DOWN. Not to scale, but one scale before and after.';

/** How the pictures of what stands in the way are read. */
export const BLOCKED_KEY =
  'Black is clamped, white is swung, the grey flange is in the way. Pictures: as it lies, before the stroke, and where it stops. Not to scale, but one scale before and after.';
