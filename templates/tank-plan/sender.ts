import { figure, sinDeg, wholeDown } from '../../src/template.ts';
import type { ReportFigure, ReportTable, Vec2 } from '../../src/template.ts';
import { placesOf } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { lengthForReserve, longestMm, readingLevels, type Sender } from './levels.ts';
import { litresDrawnTo, type Stepped } from './pools.ts';
import { type Body, type Rod, rodAt } from './solid.ts';

/** The sender below the first of its holes; missing without one, or where it would miss the tank. */
export const senderOf = (v: TankPlan, body: Body): Sender | undefined => {
  const [at] = placesOf(v.sender);
  const rod = at === undefined ? undefined : rodAt(body, at);
  if (rod === undefined) return undefined;
  // A float on an arm shows its own level, as the lowest and the highest of its stroke.
  if (v.senderKind === 'arm')
    return {
      rod,
      lengthMm: v.senderPivot + v.senderArm * sinDeg(v.senderDown),
      emptyMm: 0,
      fullMm: v.senderPivot - v.senderArm * sinDeg(v.senderUp),
    };
  return {
    rod,
    lengthMm: v.senderLength ?? lengthToBuy(v, body, rod),
    emptyMm: v.senderEmpty,
    fullMm: v.senderFull,
  };
};

/**
 * The longest sender that goes in; with a reserve the longest of those that read empty while that is
 * still left.
 */
const lengthToBuy = (v: TankPlan, body: Body, rod: Rod): number => {
  const longest = longestMm(rod, v.senderFoot, v.senderStep);
  if (v.reserve === 0) return longest;
  const wanted = lengthForReserve(body, rod, v.senderEmpty, v.reserve);
  return Math.min(longest, wholeDown(wanted / v.senderStep) * v.senderStep);
};

/** The level at which the sender reads empty; missing without one. */
export const emptyLevelMm = (v: TankPlan, body: Body): number | undefined => {
  const sender = senderOf(v, body);
  return sender === undefined ? undefined : readingLevels(sender).emptyAt;
};

const UNDER_TOP = 'Below the underside of the top, plumb.';

/** How long a sender to buy, and what it shows. */
export const senderFigures = (v: TankPlan, tank: Stepped, usableL: number): ReportFigure[] => {
  const { body } = tank;
  const sender = senderOf(v, body);
  if (sender === undefined) return [];
  const { rod, lengthMm } = sender;
  const { emptyAt, fullAt } = readingLevels(sender);
  const at = (name: string, levelMm: number): ReportFigure[] => [
    { name: `sender reads ${name} at`, value: rod.highMm - levelMm, unit: 'mm', about: UNDER_TOP },
    {
      name: `left when the sender reads ${name}`,
      value: litresDrawnTo(tank, [{ at: placesOf(v.sender)[0] as Vec2, levelMm }]),
      unit: 'l',
      about: `Of ${figure(usableL)} l up to the fill limit.`,
    },
  ];
  return [
    ...(v.senderAt === 'reserve' && v.reserve > 0 ? placeFigures(v) : []),
    {
      name: 'depth below the sender',
      value: rod.highMm - rod.lowMm,
      unit: 'mm',
      about: 'Inside, plumb.',
    },
    ...(v.senderKind === 'arm' ? [] : [lengthFigure(lengthMm)]),
    { name: 'stroke of the sender', value: fullAt - emptyAt, unit: 'mm' },
    ...at('empty', emptyAt),
    ...at('full', fullAt),
    ...(v.reserve === 0 ? [] : [reserveFigure(v, body, sender)]),
  ];
};

const lengthFigure = (value: number): ReportFigure => ({
  name: 'length of the sender',
  value,
  unit: 'mm',
  about: 'To buy, below the underside of the top; the sheet and a ring on it come to that.',
});

/** How long a stick, or how deep the pivot of an arm, would read empty when the reserve is left. */
const reserveFigure = (v: TankPlan, body: Body, sender: Sender): ReportFigure => {
  const wanted = lengthForReserve(body, sender.rod, sender.emptyMm, v.reserve);
  const isArm = v.senderKind === 'arm';
  return {
    name: isArm ? 'depth of the pivot for the reserve' : 'length of a sender for the reserve',
    value: isArm ? wanted - (sender.lengthMm - v.senderPivot) : wanted,
    unit: 'mm',
    about: `Reads empty when ${v.reserve} l are left.`,
  };
};

/** Steps from empty to full at which a reading is given. */
const READINGS = 8;

/**
 * What the sender shows from empty to full: its float's level, its ohms, and what is in the tank then.
 * Ohms go by the stroke of a stick, and by the angle of an arm (common practice).
 */
export const readingTable = (v: TankPlan, tank: Stepped, usableL: number): ReportTable[] => {
  const sender = senderOf(v, tank.body);
  const hasOhms = v.ohmsEmpty !== v.ohmsFull;
  if (sender === undefined || (!hasOhms && v.senderKind !== 'arm')) return [];
  const { emptyAt, fullAt } = readingLevels(sender);
  const { highMm } = sender.rod;
  const levelOf = (share: number): number =>
    v.senderKind === 'arm'
      ? highMm -
        v.senderPivot +
        v.senderArm * sinDeg(share * (v.senderUp + v.senderDown) - v.senderDown)
      : emptyAt + share * (fullAt - emptyAt);
  return [
    {
      title: 'What the sender shows, from empty to full',
      columns: [
        { name: 'reading', unit: '%' },
        ...(hasOhms ? [{ name: 'resistance', unit: 'ohm' }] : []),
        { name: 'level below the top', unit: 'mm' },
        { name: 'volume', unit: 'l' },
        { name: 'of the usable volume', unit: '%' },
      ],
      rows: Array.from({ length: READINGS + 1 }, (_, i) => {
        const share = i / READINGS;
        const levelMm = levelOf(share);
        const held = litresDrawnTo(tank, [{ at: placesOf(v.sender)[0] as Vec2, levelMm }]);
        return [
          100 * share,
          ...(hasOhms ? [v.ohmsEmpty + share * (v.ohmsFull - v.ohmsEmpty)] : []),
          highMm - levelMm,
          held,
          (100 * held) / usableL,
        ];
      }),
    },
  ];
};

/** Where the sender stands in the plan, where that was looked for. */
const placeFigures = (v: TankPlan): ReportFigure[] =>
  placesOf(v.sender)
    .slice(0, 1)
    .flatMap((at) =>
      (['x', 'y'] as const).map((axis, i) => ({
        name: `place of the sender, ${axis}`,
        value: at[i] as number,
        unit: 'mm',
        about: 'By the axes of outline.',
      })),
    );
