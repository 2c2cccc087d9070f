import {
  ALL,
  type Answers,
  answers,
  type Effort,
  pairQuestions,
  panelQuestions,
} from './conflicts.ts';
import { type Block, hold, type Stretch, type TakenStretch } from '../machines/holding.ts';
import { type PlacedPart, placePart, type Placement } from '../machines/placed-part.ts';
import type { FoldNet } from '../machines/net.ts';
import { MOVING, STILL, type StrokeRules } from '../machines/stroke-rules.ts';
import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';

/** One stroke of the machine: a fold, or several on one line, made from flat at once. */
export interface Stroke {
  /** Numbers of its folds. */
  readonly folds: readonly number[];
  readonly bits: number;
  /** Bits of what must be made before; for a fold that is finished, that is its first stroke. */
  readonly after: number;
  readonly rules: StrokeRules;
  /**
   * The part placed with the side of the first fold's parent clamped, and with that of its child.
   */
  readonly placedParts: readonly [PlacedPart, PlacedPart];
  /** Whether its folds lie on one line when the folds of `made`, as bits, are made. */
  readonly isInLine: (made: number) => boolean;
  /**
   * Whether it can be made in that state. With `within` the answer goes only as far as those folds
   * alone decide it: what they rule out stays ruled out whatever other folds are made.
   */
  readonly isClear: (made: number, placement: Placement, within?: number) => boolean;
  /** The tools along the fold; `undefined` when too much of it would be without them. */
  readonly tools: (
    made: number,
    placement: Placement,
    taken: readonly TakenStretch[],
  ) => readonly Block[] | undefined;
  /** The tools along the fold by name: equal where they stay as they are from stroke to stroke. */
  readonly setUp: (made: number, placement: Placement) => string;
  /** Stretches where no tool can stand, when nothing else stands in the way. */
  readonly taken: (made: number, placement: Placement) => readonly TakenStretch[];
  /** The rules of the machine as it stands, for a stroke that is helped there. */
  readonly plain?: () => StrokeRules;
  /** The angle that the machine gets to, degrees, where the rest is made by hand. */
  readonly reachesDeg?: (made: number, placement: Placement) => number;
  /** The lowest packers on which it is clear too, mm and in their steps, where it lies on some. */
  readonly packerMm?: (made: number, placement: Placement) => number;
}

/** What strokes of the same folds through the same swing share. */
export interface Swing {
  readonly placedParts: Stroke['placedParts'];
  readonly pairs: Answers;
}

/** The swing of some folds: where the part lies, and where it meets itself. */
export const swingOf = (
  net: FoldNet,
  folds: readonly number[],
  rules: StrokeRules,
  effort: Effort,
): Swing => {
  const placedParts = [placePart(net, folds, 0, rules), placePart(net, folds, 1, rules)] as const;
  return {
    placedParts,
    pairs: answers(() => pairQuestions(net, placedParts[0], rules, effort, folds.join())),
  };
};

/** `rules` are those of the machine for the angle of the folds. */
export function makeStroke(
  net: FoldNet,
  folds: readonly number[],
  rules: StrokeRules,
  effort: Effort,
  { placedParts, pairs }: Swing = swingOf(net, folds, rules, effort),
): Stroke {
  const panels = placedParts.map((placedPart, placement) =>
    answers(() => panelQuestions(net, placedPart, rules, effort, `${folds.join()} ${placement}`)),
  );
  const lines = placedParts.map((placedPart) => linesOf(net, folds, placedPart));
  const tools = (
    made: number,
    placement: Placement,
    taken: readonly TakenStretch[],
  ): readonly Block[] | undefined => {
    const on = (lines[placement] as LinesOf)(made);
    return on === undefined ? undefined : hold(rules.holder, on, taken);
  };
  const setUps = rememberedSetUps(folds, rules, tools);
  return {
    folds,
    bits: folds.reduce((sum, f) => sum | (1 << f), 0),
    after: 0,
    rules,
    placedParts,
    isInLine: (made) => folds.length === 1 || (lines[0] as LinesOf)(made) !== undefined,
    isClear: (made, placement, within = ALL) => {
      if (
        rules.beyond !== undefined ||
        !hasStrips(folds, placedParts[placement], rules, made) ||
        pairs(made, within).hard
      )
        return false;
      const { hard, taken } = (panels[placement] as Answers)(made, within);
      return !hard && setUps(made, placement, taken) !== undefined;
    },
    tools,
    setUp: (made, placement) =>
      setUps(made, placement, (panels[placement] as Answers)(made).taken) ?? '',
    taken: (made, placement) => (panels[placement] as Answers)(made).taken,
  };
}

/**
 * The tools that hold the sheet, by name; `undefined` where none do. Where nothing stands in their
 * way all stay in. The tools of a single fold depend on what stands in their way alone.
 */
const rememberedSetUps = (
  folds: readonly number[],
  { holder }: StrokeRules,
  tools: Stroke['tools'],
): ((made: number, placement: Placement, taken: readonly TakenStretch[]) => string | undefined) => {
  const known = new Map<string, string | undefined>();
  return (made, placement, taken) => {
    const key = `${placement} ${folds.length === 1 ? 0 : made} ${taken.map((t) => `${t.from},${t.to}${t.atEnd === true ? ' off' : ''}`).join(' ')}`;
    if (known.has(key)) return known.get(key);
    const blocks = tools(made, placement, taken);
    const isAll = taken.length === 0 || holder.kind === 'one piece';
    const name = isAll ? ALL_TOOLS : blocks?.map((b) => b.widthsMm.join('+')).join(' ');
    known.set(key, blocks === undefined ? undefined : name);
    return known.get(key);
  };
};

/** The set-up with every tool in its place. */
const ALL_TOOLS = 'all';

type LinesOf = (made: number) => readonly Stretch[] | undefined;

/** The lines of the folds, remembered by the folds that decide them. */
const linesOf = (net: FoldNet, folds: readonly number[], placedPart: PlacedPart): LinesOf => {
  const path = folds.reduce(
    (sum, f) =>
      sum |
      (net.folds[f]?.panels ?? []).reduce((bits, p) => bits | (placedPart.paths[p] as number), 0),
    0,
  );
  const known = new Map<number, readonly Stretch[] | undefined>();
  return (made) => {
    const key = made & path;
    if (!known.has(key)) known.set(key, placedPart.lines(key));
    return known.get(key);
  };
};

const hasStrips = (
  folds: readonly number[],
  placedPart: PlacedPart,
  { stripMm }: StrokeRules,
  made: number,
): boolean =>
  folds.every((fold) =>
    [STILL, MOVING].every(
      (side) =>
        placedPart.strip(fold, side as typeof STILL, made) >=
        (stripMm[side] as number) - SAME_LENGTH_MM,
    ),
  );
