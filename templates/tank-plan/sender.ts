import {
  advise,
  figure,
  isOver,
  NOISE_MM,
  refuse,
  wholeDown,
  wholeUp,
} from '../../src/template.ts';
import type { Finding, ReportFigure, Vec2, Vec3 } from '../../src/template.ts';
import { placesOf } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { lengthForReserve, litresBelow, longestMm, readingLevels, type Sender } from './levels.ts';
import { litresDrawnTo, type Stepped } from './pools.ts';
import { type Body, type Rod, rodAt } from './solid.ts';

/** The sender below the first of its holes; missing without one, or where it would miss the tank. */
const senderOf = (v: TankPlan, body: Body): Sender | undefined => {
  const [at] = placesOf(v.sender);
  const rod = at === undefined ? undefined : rodAt(body, at);
  if (rod === undefined) return undefined;
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
    {
      name: 'length of the sender',
      value: lengthMm,
      unit: 'mm',
      about: 'To buy, below the underside of the top; the sheet and a ring on it come to that.',
    },
    { name: 'stroke of the sender', value: fullAt - emptyAt, unit: 'mm' },
    ...at('empty', emptyAt),
    ...at('full', fullAt),
    ...(v.reserve === 0
      ? []
      : [
          {
            name: 'length of a sender for the reserve',
            value: lengthForReserve(body, rod, v.senderEmpty, v.reserve),
            unit: 'mm',
            about: `Reads empty when ${v.reserve} l are left.`,
          },
        ]),
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

/** Findings on a sender that does not fit, or cannot show what it was asked for. */
export const senderFindings = (v: TankPlan, body: Body): Finding[] => {
  const sender = senderOf(v, body);
  if (sender === undefined) return [];
  const { rod, lengthMm } = sender;
  const room = rod.highMm - rod.lowMm - v.senderFoot;
  if (lengthMm > room + NOISE_MM || lengthMm <= v.senderEmpty + v.senderFull)
    return [tooLong(v, sender, room)];
  return v.reserve === 0 ? [] : reserveMissed(v, body, sender, room);
};

const tooLong = (v: TankPlan, { lengthMm }: Sender, room: number): Finding => {
  const least = v.senderEmpty + v.senderFull;
  const given = v.senderLength === undefined ? 'senderStep' : 'senderLength';
  return refuse(
    'sender-not-fitting',
    ['sender', given],
    lengthMm > room
      ? `senderLength ${figure(lengthMm)} is more than the ${figure(room)} that are free below sender, senderFoot over the floor`
      : `a sender of ${figure(lengthMm)} has no stroke: senderEmpty and senderFull take ${figure(least)} of it`,
    lengthMm > room && room > least
      ? [{ input: 'senderLength', atMost: Math.floor(room * 100) / 100 }]
      : [],
    'move sender to where the tank is deeper',
  );
};

/** A reserve that a sender at this place reads empty too late or too soon for. */
const reserveMissed = (v: TankPlan, body: Body, sender: Sender, room: number): Finding[] => {
  const wanted = lengthForReserve(body, sender.rod, v.senderEmpty, v.reserve);
  const { emptyAt } = readingLevels(sender);
  if (wanted > room) {
    const leastL = litresBelow(body, sender.rod.highMm - room + v.senderEmpty);
    return [
      advise(
        'reserve-not-reached',
        ['reserve', 'sender'],
        `reserve ${figure(v.reserve)} l lies deeper than a sender there can reach: it would have to be ${figure(wanted)} long, and ${figure(room)} are free`,
        [{ input: 'reserve', atLeast: wholeUp(leastL) }],
        `move sender to where the floor lies ${figure(wanted - room)} or more deeper, towards corner ${lowestCorner(body)}`,
      ),
    ];
  }
  if (!isOver(Math.abs(wanted - sender.lengthMm), v.senderStep)) return [];
  const left = litresBelow(body, emptyAt);
  return [
    advise(
      'reserve-missed',
      ['reserve', 'senderLength'],
      `a sender of ${figure(sender.lengthMm)} reads empty with ${figure(left)} l left, and reserve ${figure(v.reserve)} l was asked for`,
      [{ input: 'senderLength', value: Number(wanted.toFixed(1)) }],
    ),
  ];
};

/** The corner of the plan at which the floor lies lowest, counted from 1. */
const lowestCorner = (body: Body): number => {
  // The facet of a side ends with its foot and its head at its first corner, and its head at the next.
  const feet = body.flatMap(({ name, points }) =>
    name.startsWith('side') ? [(points.at(-3) as Vec3)[2]] : [],
  );
  return feet.indexOf(Math.min(...feet)) + 1;
};
