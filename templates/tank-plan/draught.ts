import { LITRES_PER_MM3 } from '../../src/template.ts';
import type { ReportFigure, Vec2 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import {
  heldBelow,
  leftBehind,
  type Linked,
  litresBelow,
  pairLevel,
  pairLitres,
} from './levels.ts';
import { otherTank } from './other-hand.ts';
import type { Planes } from './planes.ts';
import { litresDrawnTo, pickupEnds } from './pools.ts';
import { emptyLevelMm } from './sender.ts';
import { type Body, reachMm, volumeMm3 } from './solid.ts';

/** What the heights of a report are measured from. */
export const ZERO = 'Over the level from which floor and top are measured.';

/** Volumes of one tank, and down to where it can be drawn. */
export interface Draught {
  readonly body: Body;
  readonly planes: Planes;
  readonly grossL: number;
  readonly usableL: number;
  /** Level at which drawing stops, that of the pick-up's end; the lowest point without one. */
  readonly drawnToMm: number;
  readonly linkMm: number | undefined;
  /** Where the link pipe leaves it, in plan. */
  readonly linkAt: Vec2;
}

export const litres = (name: string, value: number, about: string): ReportFigure => ({
  name,
  value,
  unit: 'l',
  about,
});

/** The height of the pick-up's end. */
export const pickupEndMm = (v: TankPlan, body: Body): number | undefined => {
  const ends = pickupEnds(v, body).map(({ levelMm }) => levelMm);
  return ends.length === 0 ? undefined : Math.min(...ends);
};

/** What is left when the tank is drawn to a level, by pick-ups that reach no lower than they end. */
const leftAt = (v: TankPlan, d: Draught, levelMm: number): number => {
  const ends = pickupEnds(v, d.body);
  return ends.length === 0
    ? litresBelow(d.body, levelMm)
    : litresDrawnTo(
        d,
        ends.map((end) => ({ ...end, levelMm: Math.max(end.levelMm, levelMm) })),
      );
};

/** The tank with the one that it shares its level with, and how much that one takes. */
export const pairOf = (
  v: TankPlan,
  d: Draught,
): (Linked & { readonly bothL: number }) | undefined => {
  const { other } = v;
  const { body, usableL, linkMm } = d;
  if (linkMm === undefined || (!v.pair && other === undefined)) return undefined;
  const drawn = (level: number): number => litresBelow(body, level);
  const drawnFrom = (level: number): number => leftAt(v, d, level);
  const filledL = (grossL: number): number => usableL + (grossL * v.fillLimit) / 100;
  if (other !== undefined)
    return {
      drawn: drawnFrom,
      other: (level) => heldBelow(other, level),
      kept: (level) => heldBelow(other, level),
      pipeMm: linkMm,
      bothL: filledL(other.at(-1)?.litres ?? 0),
    };
  const unlike = otherTank(v);
  return unlike === undefined
    ? {
        drawn: drawnFrom,
        other: drawn,
        kept: (level) => litresDrawnTo(d, [{ at: d.linkAt, levelMm: level }]),
        pipeMm: linkMm,
        bothL: 2 * usableL,
      }
    : {
        drawn: drawnFrom,
        other: (level) => litresBelow(unlike.body, level),
        kept: (level) => litresDrawnTo(unlike, [{ at: unlike.linkAt, levelMm: level }]),
        // What the higher of the two holes keeps back does not run over.
        pipeMm: Math.max(linkMm, unlike.linkMm ?? linkMm),
        bothL: filledL(volumeMm3(unlike.body) * LITRES_PER_MM3),
      };
};

export const drawn = (v: TankPlan, d: Draught): ReportFigure[] => {
  const { body, usableL, drawnToMm, linkMm } = d;
  const left = Math.min(usableL, leftAt(v, d, drawnToMm));
  const pair = pairOf(v, d);
  const emptyAt = emptyLevelMm(v, body);
  const drawableL =
    pair === undefined ? usableL - left : Math.max(0, pair.bothL - pairLitres(pair, drawnToMm));
  return [
    ...(v.pickup.length === 0 ? [] : [litres('left below the pick-up', left, 'Standing level.')]),
    ...(linkMm === undefined
      ? []
      : [
          { name: 'lower edge of the link pipe', value: linkMm, unit: 'mm', about: ZERO },
          litres('volume below the link pipe', litresBelow(body, linkMm), 'In one tank.'),
        ]),
    ...(pair === undefined
      ? []
      : [
          litres(
            'usable volume of the pair',
            pair.bothL,
            'Both filled to the limit; they share their level through the pipe.',
          ),
          litres(
            'left in the other tank',
            Math.min(pair.bothL - usableL, leftBehind(pair, drawnToMm)),
            'Kept by the tank that is not drawn from, below the pipe or the pick-up, whichever is higher.',
          ),
        ]),
    ...(pair === undefined || emptyAt === undefined
      ? []
      : [
          litres(
            'left in the pair when the sender reads empty',
            pairLitres(pair, emptyAt),
            'In both, the other one as far down as the pipe.',
          ),
        ]),
    ...(pair === undefined || v.reserve === 0
      ? []
      : [
          {
            name: 'level of the reserve in the pair',
            value: pairLevel(pair, v.reserve, reachMm(body)),
            unit: 'mm',
            about: `Where this tank stands when ${v.reserve} l are left in both.`,
          },
        ]),
    litres(
      'drawable volume',
      drawableL,
      'From the fill limit down to the pick-up; all of it where none is given.',
    ),
    ...range(v, drawableL),
  ];
};

const range = (v: TankPlan, drawableL: number): ReportFigure[] => {
  if (v.consumption === undefined) return [];
  const { litres: used, per } = v.consumption;
  const about = `On the drawable volume, at ${used} l ${per === 'hour' ? 'an hour' : 'for 100 km'}.`;
  return [
    per === 'hour'
      ? { name: 'running time', value: drawableL / used, unit: 'h', about }
      : { name: 'range', value: (100 * drawableL) / used, unit: 'km', about },
  ];
};
