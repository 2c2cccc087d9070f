import { takenBy, touchDeg } from '../machines/contacts.ts';
import { pairContact } from './conflicts.ts';
import { LEAST_LAND_SHARE } from '../machines/helps.ts';
import type { PlacedPart, Placement } from '../machines/placed-part.ts';
import type { FoldNet } from '../machines/net.ts';
import { type BodyCheck, MOVING, type Side, STILL } from '../machines/stroke-rules.ts';
import type { Stroke } from './stroke.ts';
import { SAME_LENGTH_MM, wholeUp } from '../../geometry/tolerance.ts';

/** Why a stroke cannot be made, as a sentence without its full stop. */
export interface Reason {
  readonly text: string;
  /** The panel in the way, where there is one. */
  readonly touches: string | null;
  /**
   * The first whole degree at which the panel is in the way; `null` where it is before anything
   * moves.
   */
  readonly atDeg: number | null;
}

/**
 * The first thing that stands in the way of a stroke with one side clamped; `undefined` when
 * nothing does. Reasons go in the order of the machine's rules; of things met during the swing, the
 * one met first is named.
 */
export function whyNot(
  net: FoldNet,
  stroke: Stroke,
  made: number,
  placement: Placement,
): Reason | undefined {
  const placedPart = stroke.placedParts[placement];
  const { rules } = stroke;
  if (rules.beyond !== undefined) return { text: rules.beyond, touches: null, atDeg: null };
  // A strip that is short by little is no reason where something stands in the way in any case.
  const short = tooShort(net, stroke, placedPart, made);
  const isBarely =
    net.isSolid && stroke.folds.every((f) => isNearlyLong(stroke, placedPart, f, made));
  return (
    (isBarely ? undefined : short) ??
    inBodies(net, stroke, placedPart, made) ??
    meeting(net, stroke, placedPart, made) ??
    withoutTools(net, stroke, made, placement) ??
    short
  );
}

/** Whether the flat strips on both sides of a fold are as long as helping hands make do with. */
const isNearlyLong = (
  { rules }: Stroke,
  placedPart: PlacedPart,
  fold: number,
  made: number,
): boolean =>
  [STILL, MOVING].every(
    (side) =>
      placedPart.strip(fold, side as Side, made) >=
      LEAST_LAND_SHARE * (rules.stripMm[side] as number),
  );

const tooShort = (
  net: FoldNet,
  { folds, rules }: Stroke,
  placedPart: PlacedPart,
  made: number,
): Reason | undefined => {
  for (const side of [STILL, MOVING] as const) {
    for (const fold of folds) {
      const strip = placedPart.strip(fold, side, made);
      const least = rules.stripMm[side];
      if (strip >= least - SAME_LENGTH_MM) continue;
      const panel = nameAt(net, fold, placedPart, side);
      const where = side === STILL ? 'behind' : 'in front of';
      return {
        text: `only ${rounded(strip)} mm of ${panel} lie flat ${where} the fold; ${rounded(least)} mm are needed`,
        touches: panel,
        atDeg: null,
      };
    }
  }
  return undefined;
};

const rounded = (mm: number): number => Math.round(mm * 10) / 10;

const nameAt = (net: FoldNet, fold: number, placedPart: PlacedPart, side: Side): string => {
  const [parent, child] = net.folds[fold]?.panels ?? [0, 0];
  return net.panels[placedPart.sides[parent] === side ? parent : child]?.id ?? '';
};

/** Checks of one side's moving bodies are one question: which of them is met first. */
function inBodies(
  net: FoldNet,
  { rules }: Stroke,
  placedPart: PlacedPart,
  made: number,
): Reason | undefined {
  const checks = rules.checks.filter((c) => !c.inSections);
  for (let i = 0; i < checks.length;) {
    const { side, turnDeg } = checks[i] as BodyCheck;
    let end = i + 1;
    while (turnDeg !== 0 && checks[end]?.side === side && checks[end]?.turnDeg === turnDeg)
      end += 1;
    const found = firstMet(net, placedPart, made, checks.slice(i, end));
    if (found !== undefined) return found;
    i = end;
  }
  return undefined;
}

function firstMet(
  net: FoldNet,
  placedPart: PlacedPart,
  made: number,
  checks: readonly BodyCheck[],
): Reason | undefined {
  let first: Reason | undefined;
  for (const panel of placedPart.naming) {
    for (const check of checks) {
      if (placedPart.sides[panel] !== check.side) continue;
      for (const solid of placedPart.panel(panel, made).solids) {
        const deg = touchDeg(solid, check);
        if (deg === undefined) continue;
        const atDeg = wholeUp(deg);
        const name = net.panels[panel]?.id ?? '';
        if (first === undefined || atDeg < (first.atDeg ?? 0))
          first = {
            text: check.say(name, atDeg, Math.max(...solid.corners.map((c) => c[1]))),
            touches: name,
            atDeg: check.turnDeg === 0 ? null : atDeg,
          };
      }
    }
  }
  return first;
}

function meeting(
  net: FoldNet,
  { rules }: Stroke,
  placedPart: PlacedPart,
  made: number,
): Reason | undefined {
  let first: Reason | undefined;
  const on = (side: Side): number[] =>
    placedPart.naming.filter((p) => placedPart.sides[p] === side);
  for (const moving of on(MOVING)) {
    for (const still of on(STILL)) {
      const more = pairContact(placedPart, still, moving, made, rules.swingDeg - rules.startDeg);
      const deg = (more ?? 0) + rules.startDeg;
      if (more === undefined || (first !== undefined && wholeUp(deg) >= (first.atDeg ?? 0)))
        continue;
      const [a, b] = [net.panels[moving]?.id ?? '', net.panels[still]?.id ?? ''];
      first = {
        text: `${a} swings into ${b} at about ${wholeUp(deg)} deg`,
        touches: b,
        atDeg: wholeUp(deg),
      };
    }
  }
  return first;
}

/**
 * Names what takes the tool's room. Where several do, it is the one whose absence would help, or
 * else the first.
 */
function withoutTools(
  net: FoldNet,
  stroke: Stroke,
  made: number,
  placement: Placement,
): Reason | undefined {
  const placedPart = stroke.placedParts[placement];
  const taken = placedPart.naming.flatMap((panel) =>
    stroke.rules.checks
      .filter((c) => c.inSections && c.side === placedPart.sides[panel])
      .flatMap((c) =>
        placedPart
          .panel(panel, made)
          .solids.flatMap((s) => takenBy(s, c) ?? [])
          .map((t) => ({ ...t, panel })),
      ),
  );
  if (stroke.tools(made, placement, taken) !== undefined) return undefined;
  const blamed =
    taken.find(
      (t) =>
        stroke.tools(
          made,
          placement,
          taken.filter((o) => o.panel !== t.panel),
        ) !== undefined,
    ) ?? taken[0];
  if (blamed === undefined)
    return { text: 'no tools reach along the whole fold', touches: null, atDeg: null };
  const name = net.panels[blamed.panel]?.id ?? '';
  const atDeg = wholeUp(blamed.atDeg);
  return {
    text: stroke.rules.sayInTheWay(name, atDeg),
    touches: name,
    atDeg: atDeg === 0 ? null : atDeg,
  };
}
