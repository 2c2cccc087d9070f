import type { Machine } from '../../model/machine.ts';
import { blockRules, freeHandRules } from '../machines/block.ts';
import { PACKER_MM, PACKER_STEP_MM, REST_DEG, SPRING_MM } from '../machines/helps.ts';
import type { FoldNet, Hands, NetFold } from '../machines/net.ts';
import { withPreFolds } from '../machines/pre-fold.ts';
import { sheetOf } from '../machines/section.ts';
import { springing } from '../machines/springing.ts';
import type { Help, StrokeRules } from '../machines/stroke-rules.ts';
import type { Effort } from './conflicts.ts';
import { makeStroke, type Stroke, type Swing, swingOf } from './stroke.ts';

/** The folds that helped strokes are made of, and the machine that is helped. */
export interface Helped {
  /** Sets of folds that the machine may make at one stroke. */
  readonly onMachine: readonly (readonly number[])[];
  /** Folds that may be left to the hands. */
  readonly byHand: readonly number[];
  readonly kind: Machine['kind'];
  readonly rulesFor: (
    net: FoldNet,
    folds: readonly number[],
    help?: Help,
    packerMm?: number,
  ) => StrokeRules;
  readonly effort: Effort;
}

/** The helps at each kind of machine, the least costly first. */
const ON_FOLDER = ['tight', 'off the end', 'on packers'] as const;
const ON_BRAKE = ['tight', 'short die'] as const;

/**
 * The strokes that are made with the help of hands, beside those of the machine as it stands. In all
 * of them thin metal may spring aside. Each is one more way of making the same folds, so that a
 * state is still the set of folds made.
 */
export function helpedStrokes(net: FoldNet, hands: Hands, helped: Helped): Stroke[] {
  const { onMachine, byHand, kind, rulesFor, effort } = helped;
  const springs = springing(net);
  const helps = kind === 'folder' ? ON_FOLDER : ON_BRAKE;
  const single = onMachine.flatMap(([f, ...more]) => (more.length === 0 ? [f as number] : []));
  const swings = new Map<string, Swing>();
  const stroke = (folds: readonly number[], rules: StrokeRules): Stroke => {
    const key = `${folds.join()} ${rules.swingDeg} ${rules.stillStartDeg}`;
    const swing = swings.get(key) ?? swingOf(springs, folds, rules, effort);
    swings.set(key, swing);
    return makeStroke(springs, folds, rules, effort, swing);
  };
  return [
    ...helps.flatMap((help) =>
      onMachine.map((folds) => ({
        ...stroke(folds, rulesFor(net, folds, help)),
        plain: () => rulesFor(net, folds),
        ...(help === 'on packers' && { packerMm: lowestPackers(net, folds, helped, stroke) }),
      })),
    ),
    ...single
      .filter((f) => has(hands.rest, f) && angleOf(net, f) > REST_DEG)
      .map((f) => restByHand(springs, f, helped)),
    ...byHand.filter((f) => has(hands.overBlock, f)).map((f) => stroke([f], overBlock(net, f))),
  ];
}

/**
 * The search lays the sheet on the highest packers there are, for what is clear on some is clear on
 * higher ones. A step tells of the lowest: as high as the part hangs under the sheet, and so high
 * that the leaf passes under what stays in front of the bed all the way of its swing.
 */
const lowestPackers =
  (
    net: FoldNet,
    folds: readonly number[],
    { rulesFor }: Helped,
    stroke: (folds: readonly number[], rules: StrokeRules) => Stroke,
  ): NonNullable<Stroke['packerMm']> =>
  (made, placement) => {
    const on = (mm: number): Stroke => stroke(folds, rulesFor(net, folds, 'on packers', mm));
    const placedPart = on(PACKER_MM).placedParts[placement];
    const depths = net.panels.flatMap((_, panel) =>
      placedPart.panel(panel, made).solids.flatMap((s) => s.corners.map((c) => -c[1])),
    );
    const deepest = Math.max(0, ...depths.filter((d) => d <= PACKER_MM + SPRING_MM));
    const hanging = Math.min(PACKER_MM, Math.ceil(deepest / PACKER_STEP_MM) * PACKER_STEP_MM);
    let mm = hanging;
    while (mm < PACKER_MM && !on(mm).isClear(made, placement)) mm += PACKER_STEP_MM;
    // One step more, and nothing need spring where the leaf passes.
    return mm === hanging ? mm : Math.min(PACKER_MM, mm + PACKER_STEP_MM);
  };

const has = (bits: number, fold: number): boolean => (bits & (1 << fold)) !== 0;

const angleOf = (net: FoldNet, fold: number): number => (net.folds[fold] as NetFold).angleDeg;

const overBlock = (net: FoldNet, fold: number): StrokeRules =>
  blockRules(angleOf(net, fold), sheetOf(net, net.folds[fold] as NetFold));

/**
 * A fold that the machine makes as far as it gets, which has to be to its last degrees, and that is
 * finished by hand with the part off the machine. What the machine can make to some angle it can
 * make to any smaller one.
 */
function restByHand(net: FoldNet, fold: number, { rulesFor, effort }: Helped): Stroke {
  const { angleDeg, overbendDeg = 0 } = net.folds[fold] as NetFold;
  const upTo = (deg: number): Stroke => {
    const first = asFarAs(net, fold, deg);
    return makeStroke(first, [fold], rulesFor(first, [fold], 'rest by hand'), effort);
  };
  const machined = upTo(angleDeg - REST_DEG);
  const finished = makeStroke(
    net,
    [fold],
    freeHandRules(angleDeg + overbendDeg, angleDeg - REST_DEG),
    effort,
  );
  return {
    ...machined,
    isClear: (made, placement, within) =>
      machined.isClear(made, placement, within) && finished.isClear(made, placement, within),
    reachesDeg: (made, placement) => {
      let deg = angleDeg - REST_DEG;
      while (deg + 1 < angleDeg && upTo(deg + 1).isClear(made, placement)) deg += 1;
      return deg;
    },
  };
}

/** The same part with one fold that ends at a smaller angle. */
export const asFarAs = (net: FoldNet, fold: number, angleDeg: number): FoldNet => {
  const [first] = withPreFolds(net, [fold], angleDeg / angleOf(net, fold)).preFolds ?? [];
  return {
    ...net,
    folds: net.folds.map((f, i) => (i === fold && first !== undefined ? first.made : f)),
  };
};
