import { advise, figure, isOver, NOISE_MM, refuse, wholeUp } from '../../src/template.ts';
import type { Finding, Vec3 } from '../../src/template.ts';
import type { BafflePlane } from './baffle-planes.ts';
import type { TankPlan } from './inputs.ts';
import { lengthForReserve, litresBelow, readingLevels, type Sender } from './levels.ts';
import { armFindings, armReserve } from './sender-arm.ts';
import { senderOf } from './sender.ts';
import type { Body } from './solid.ts';

/** Findings on a sender that does not fit, or cannot show what it was asked for. */
export const senderFindings = (
  v: TankPlan,
  body: Body,
  baffles: readonly BafflePlane[],
): Finding[] => {
  const sender = senderOf(v, body);
  if (sender === undefined) return [];
  if (v.senderKind === 'arm') {
    const fouled = armFindings(v, body, baffles);
    return fouled.length > 0 || v.reserve === 0 ? fouled : armReserve(v, body, sender);
  }
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
