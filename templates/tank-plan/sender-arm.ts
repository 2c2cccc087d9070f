import {
  advise,
  cosDeg,
  figure,
  isOver,
  NOISE_MM,
  orLess,
  orMore,
  refuse,
  sinDeg,
} from '../../src/template.ts';
import type { Finding, Vec2 } from '../../src/template.ts';
import { type BafflePlane, beyondBaffleMm } from './baffle-planes.ts';
import { placesOf } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { lengthForReserve, litresBelow, readingLevels, type Sender } from './levels.ts';
import { type Body, rodsOf } from './solid.ts';

/** Steps in which the swing of the float is looked through, degrees at most. */
const STEP_DEG = 2;

/** Where the float is in its swing: over which place of the plan, and how far below the top's underside. */
interface FloatAt {
  readonly place: Vec2;
  readonly belowMm: number;
}

const swing = (v: TankPlan, [x, y]: Vec2): FloatAt[] => {
  const whole = v.senderUp + v.senderDown;
  const count = Math.max(1, Math.ceil(whole / STEP_DEG));
  return Array.from({ length: count + 1 }, (_, i) => {
    const deg = (i * whole) / count - v.senderDown;
    const out = v.senderArm * cosDeg(deg);
    return {
      place: [x + out * cosDeg(v.senderTurn), y + out * sinDeg(v.senderTurn)],
      belowMm: v.senderPivot - v.senderArm * sinDeg(deg),
    };
  });
};

/**
 * Arms that do not swing free: whose float meets the floor, the top, a side or a baffle somewhere
 * between empty and full, its middle nearer to them than half its size.
 */
export const armFindings = (
  v: TankPlan,
  body: Body,
  baffles: readonly BafflePlane[],
): Finding[] => {
  const [at] = placesOf(v.sender);
  const rodOver = rodsOf(body);
  const own = at === undefined ? undefined : rodOver(at);
  if (at === undefined || own === undefined) return [];
  if (v.senderUp + v.senderDown < STEP_DEG) return [noSwing()];
  const half = v.senderFloat / 2;
  const floats = swing(v, at);
  const around = Array.from({ length: AROUND }, (_, i): Vec2 => {
    const deg = (360 * i) / AROUND;
    return [half * cosDeg(deg), half * sinDeg(deg)];
  });
  const isBaffled = floats.some(({ place }) =>
    baffles.some(({ frame }) => {
      const [from, to] = [beyondBaffleMm(frame, at), beyondBaffleMm(frame, place)];
      return from > 0 === to > 0 ? to > -half && to < half + v.thicknessMm : true;
    }),
  );
  if (isBaffled) return [fouled('a baffle')];
  let [low, high] = [Infinity, Infinity];
  for (const { place, belowMm } of floats) {
    const rods = around.map(([dx, dy]) => rodOver([place[0] + dx, place[1] + dy]));
    const z = own.highMm - belowMm;
    for (const rod of rods) {
      if (rod === undefined) return [fouled('a side')];
      low = Math.min(low, z - half - rod.lowMm - v.senderFoot);
      high = Math.min(high, rod.highMm - half - z);
    }
  }
  if (low < -NOISE_MM && high < -NOISE_MM) return [fouled('floor and top')];
  if (low < -NOISE_MM) return [outOfRoom('floor', -low, v.senderPivot + low)];
  return high < -NOISE_MM ? [outOfRoom('top', -high, v.senderPivot - high)] : [];
};

/** Places round the float at which floor and top are looked at. */
const AROUND = 12;

const noSwing = (): Finding =>
  refuse(
    'sender-arm-fouls',
    ['senderUp', 'senderDown'],
    'senderUp and senderDown leave the arm no swing',
    [],
    'give how far it hangs below the level and stands over it',
  );

const fouled = (what: string): Finding =>
  refuse(
    'sender-arm-fouls',
    ['senderArm', 'senderTurn', 'sender'],
    `the float of the sender meets ${what} between empty and full`,
    [],
    'turn the arm another way, take a shorter one, or move sender',
  );

const outOfRoom = (what: 'floor' | 'top', byMm: number, pivotMm: number): Finding =>
  refuse(
    'sender-arm-fouls',
    ['senderPivot', what === 'floor' ? 'senderDown' : 'senderUp'],
    `the float of the sender comes ${figure(byMm)} too near to the ${what} between empty and full${what === 'floor' ? ', senderFoot over it' : ''}`,
    pivotMm < 5
      ? []
      : [what === 'floor' ? orLess('senderPivot', pivotMm) : orMore('senderPivot', pivotMm)],
    `take a shorter arm, or less ${what === 'floor' ? 'senderDown' : 'senderUp'}`,
  );

/** A reserve that is missed by so much of the level is told, mm: an arm is set no closer. */
const SET_MM = 5;

/** An arm that reads empty with more or less left than was wanted. */
export const armReserve = (v: TankPlan, body: Body, sender: Sender): Finding[] => {
  const wanted = lengthForReserve(body, sender.rod, sender.emptyMm, v.reserve);
  const off = wanted - sender.lengthMm;
  if (!isOver(Math.abs(off), SET_MM)) return [];
  const left = litresBelow(body, readingLevels(sender).emptyAt);
  const pivot = v.senderPivot + off;
  return [
    advise(
      'reserve-missed',
      ['reserve', 'senderPivot'],
      `an arm at ${figure(v.senderPivot)} reads empty with ${figure(left)} l left, and reserve ${figure(v.reserve)} l was asked for`,
      pivot < 5 ? [] : [{ input: 'senderPivot', value: Number(pivot.toFixed(1)) }],
      'give another senderDown, or another arm',
    ),
  ];
};
