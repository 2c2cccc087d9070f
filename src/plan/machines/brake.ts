import type { PressBrake, Section } from '../../model/machine.ts';
import { add } from '../../geometry/vec2.ts';
import { bodiesOf } from './bodies.ts';
import { cosDeg } from '../../geometry/degrees.ts';
import {
  type BodyCheck,
  type Help,
  MOVING,
  type Sheet,
  type Side,
  STILL,
  type StrokeRules,
} from './stroke-rules.ts';

/** The section of a press brake, in the frame of the brake. */
export interface BrakeBodies {
  readonly punch: readonly Section[];
  readonly ram: readonly Section[];
  /** The die while the sheet is flat. */
  readonly die: readonly Section[];
}

/** How far ram and die holder reach, mm. */
const REACH_MM = 300;

const box = (left: number, low: number, right: number, high: number): Section => [
  [left, low],
  [right, low],
  [right, high],
  [left, high],
];

/** The polygons of a press brake from its dimensions, convex pieces, mm. */
export function brakeBodies(m: PressBrake, liftMm = 0): BrakeBodies {
  const height = m.punchHeightMm.value;
  const punch = m.punches.find((p) => p.id === m.punch);
  if (punch === undefined) throw new Error(`no punch ${m.punch} on ${m.id}`);
  const [half, shoulder] = [m.vMm.value / 2, m.vMm.value / 2 + m.shoulderMm.value];
  const [deep, holder] = [m.dieHeightMm.value, m.dieHolderHalfMm.value];
  return {
    punch: punch.section(height).map((piece) => piece.map((p) => add(p, [0, liftMm]))),
    ram: [box(-m.ramHalfMm.value, height + liftMm, m.ramHalfMm.value, height + liftMm + REACH_MM)],
    die: [
      box(-shoulder, -deep, -half, 0),
      box(half, -deep, shoulder, 0),
      box(-holder, -deep - REACH_MM, holder, -deep),
    ],
  };
}

/**
 * The height of the punch's tip over the crossing of the outside faces at the end of the stroke.
 * The inside radius rests on the tip, (t + r) / cos(A/2) - r on the line that halves the bend. The
 * tip stands there from the start, which is a little too high at first, when nothing is near it
 * yet.
 */
export const tipMm = ({ thicknessMm: t, insideRadiusMm: r }: Sheet, angleDeg: number): number =>
  (t + r) / cosDeg(Math.min(angleDeg, 150) / 2) - r;

/** The die at rest; before it is bent each leg lies half of `nearerMm` nearer to the middle. */
const inDieAtRest = (die: readonly Section[], side: Side, nearerMm: number): BodyCheck => {
  const by = side === MOVING ? nearerMm / 2 : -nearerMm / 2;
  return {
    side,
    bodies: bodiesOf(die.map((piece) => piece.map((p) => add(p, [by, 0])))),
    turnDeg: 0,
    inSections: false,
    say: (panel) => `${panel} would lie inside the die`,
  };
};

/**
 * The rules of a stroke on a press brake. Both legs rise by half the angle past punch and ram,
 * which stay still; the die comes up with the legs. The least flange is V/2 + 2 + t: bending limit
 * dimensions, trade pages. For a fold that is made in part both legs begin at half of `startDeg`.
 */
export function brakeRules(
  m: PressBrake,
  angleDeg: number,
  thicknessMm: number,
  sheet: Sheet,
  startDeg = 0,
  help?: Help,
): StrokeRules {
  const swingDeg = angleDeg + m.overbendDeg.value;
  const least = m.minFlangeMm?.value ?? m.vMm.value / 2 + 2 + thicknessMm;
  const most = m.maxAngleDeg?.value;
  return {
    swingDeg,
    startDeg,
    stillStartDeg: -startDeg / 2,
    checks: brakeChecks(m, angleDeg, sheet, startDeg, help),
    stripMm: [least, least],
    gripMm: 0,
    turns: [-0.5, 0.5],
    carriedMm: [-m.vMm.value / 2, m.vMm.value / 2],
    holder: { kind: 'sections', mostUncoveredMm: 2 * m.maxUncoveredMm.value },
    sayInTheWay: (panel, deg) =>
      deg === 0
        ? `${panel} stands where the punch has to be`
        : `${panel} swings into the punch at about ${2 * deg + startDeg} deg`,
    ...(most !== undefined &&
      angleDeg > most && { beyond: `${angleDeg} deg is more than the machine's ${most} deg` }),
    ...(help !== undefined && { help }),
  };
}

/** What either leg may run into; each leg turns by half the angle of the fold. */
const brakeChecks = (
  m: PressBrake,
  angleDeg: number,
  sheet: Sheet,
  startDeg: number,
  help: Help | undefined,
): readonly BodyCheck[] => {
  const { punch, ram, die } = brakeBodies(m, tipMm(sheet, angleDeg));
  const { nearerMm = 0 } = sheet;
  const still = [...punch, ...ram];
  const halfDeg = (angleDeg + m.overbendDeg.value - startDeg) / 2;
  const legs: readonly {
    readonly side: Side;
    readonly turnDeg: number;
    readonly turnedDeg: number;
  }[] = [
    { side: STILL, turnDeg: -halfDeg, turnedDeg: -startDeg / 2 },
    { side: MOVING, turnDeg: halfDeg, turnedDeg: startDeg / 2 },
  ];
  const bend = (deg: number): number => 2 * deg + startDeg;
  const inDie = (p: string, deg: number): string =>
    deg === 0
      ? `${p} would lie inside the die`
      : `${p} swings into the die at about ${bend(deg)} deg`;
  // A die that is as short as its fold leaves room beside it, down to what carries it.
  const isShort = help === 'short die';
  const [shoulders, holder] = [die.slice(0, -1), die.slice(-1)];
  const dies = isShort ? [shoulders, holder] : [die];
  return legs.flatMap((leg): BodyCheck[] => [
    {
      ...leg,
      bodies: bodiesOf(ram, still),
      inSections: false,
      say: (p, deg) => `${p} swings into the ram at about ${bend(deg)} deg`,
    },
    ...dies.map((pieces): BodyCheck => ({
      ...leg,
      bodies: bodiesOf(pieces, die),
      halfVMm: m.vMm.value / 2,
      inSections: isShort && pieces === shoulders,
      say: inDie,
    })),
    ...(nearerMm === 0 || startDeg > 0
      ? []
      : dies.map((pieces) => ({
          ...inDieAtRest(pieces, leg.side, nearerMm),
          inSections: isShort && pieces === shoulders,
        }))),
    { ...leg, bodies: bodiesOf(punch, still), inSections: true, say: () => '' },
  ]);
};
