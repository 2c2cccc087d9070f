import { rigidPointsOf, missingOf, reached } from './rigid-points.ts';
import { choose, type Chosen, type Task } from './choose.ts';
import { contradictionsOf } from './contradictions.ts';
import { insideOf } from './flips.ts';
import { framePoints } from './frame.ts';
import {
  at,
  brokenCount,
  costOf,
  foundMm,
  keeps,
  nameOf,
  type Network,
  networkOf,
  offsetMm,
  sidedOf,
} from './network.ts';
import { precisionOf } from './precision.ts';
import { suspectOf } from './suspect.ts';
import {
  type Distance,
  type LoosePoint,
  type Mirror,
  type Side,
  type Survey,
  type SurveyOptions,
  TAPE_MM,
  type WeakPoint,
} from './survey.ts';

/** A point that moves by more than this for every mm of the tape is too uncertain to drill by. */
const WEAK = 10;
const MOST_WEAK = 1000;

/**
 * Plane coordinates of named points from tape distances, by least squares with equal weights. There
 * is at least one distance; each is over 0 mm and joins two different points. Statements about
 * points without distances are ignored. `Survey` describes the frame and the results.
 */
export function solveDistances(
  distances: readonly Distance[],
  { sides = [], toleranceMm = TAPE_MM }: SurveyOptions = {},
): Survey {
  if (
    distances.length === 0 ||
    distances.some((d) => d.from === d.to || !(d.mm > 0) || d.mm === Infinity)
  ) {
    throw new RangeError(
      'distances must be over 0 mm, between two different points, and at least one',
    );
  }
  const net = networkOf(distances);
  const rigid = rigidPointsOf(net);
  const pinned = new Set(rigid.map((p) => nameOf(net, p)));
  const heeded = sides.filter((s) => [s.from, s.to, s.point].every((name) => pinned.has(name)));
  const task: Task = { net, rigid, sides: heeded.map((s) => sidedOf(net, s)), toleranceMm };
  const chosen = choose(task);
  const inside = insideOf(net, rigid);
  const precision = precisionOf(inside, chosen.figure, rigid);
  return {
    points: rigid.map((p) => ({
      name: nameOf(net, p),
      x: at(chosen.figure, p)[0],
      y: at(chosen.figure, p)[1],
    })),
    residuals: residualsOf(net, chosen),
    rmsMm: Math.sqrt(costOf(inside, chosen.figure) / inside.ties.length),
    redundancy: inside.ties.length - (2 * rigid.length - 3),
    suspect: suspectOf({ ...task, net: inside }, chosen, precision),
    loose: looseOf(net, rigid),
    missing: missingOf(net),
    weak: rigid
      .map((p): WeakPoint => ({
        name: nameOf(net, p),
        mmPerMm: Math.min(precision.mmPerMm(p), MOST_WEAK),
      }))
      .filter((w) => w.mmPerMm > WEAK),
    mirrors: mirrorsOf(task, chosen),
    contradictions: contradictionsOf(net, toleranceMm),
    unkept: heeded.filter((s) => !keeps(chosen.figure, sidedOf(net, s))),
    otherFigure: chosen.otherFigure,
  };
}

const residualsOf = (net: Network, { figure }: Chosen): Survey['residuals'] =>
  net.ties.map((tie) => {
    const found = foundMm(figure, tie);
    return {
      from: nameOf(net, tie.a),
      to: nameOf(net, tie.b),
      measuredMm: tie.mm,
      foundMm: found,
      residualMm: found - tie.mm,
    };
  });

function looseOf(net: Network, rigid: readonly number[]): LoosePoint[] {
  const together = reached(net, rigid[0] as number);
  return [...net.names.keys()]
    .filter((p) => !rigid.includes(p))
    .map((p) => ({ name: nameOf(net, p), why: together.has(p) ? 'swings' : 'apart' }));
}

/**
 * Mirror images that fit as well: the whole figure may always be turned over; then come the parts
 * of it that may.
 */
function mirrorsOf(task: Task, { figure, flips }: Chosen): Mirror[] {
  const { net, rigid, sides } = task;
  const mirror = (
    points: readonly number[],
    from: number,
    to: number,
    shown: number,
    why: Mirror['why'],
    whole: boolean,
  ): Mirror => {
    const side: Side = offsetMm(figure, from, to, shown) > 0 ? 'left' : 'right';
    const [a, b, c] = [from, to, shown].map((p) => nameOf(net, p)) as [string, string, string];
    const otherwise = `${a}-${b}-${c}: ${side === 'left' ? 'right' : 'left'}`;
    return {
      points: points.map((p) => nameOf(net, p)),
      from: a,
      to: b,
      side,
      why,
      whole,
      otherwise,
    };
  };
  const { first, second, third } = framePoints(figure, rigid);
  const isStated = 2 * brokenCount(figure, sides) < sides.length;
  const whole =
    third === undefined
      ? []
      : [mirror(rigid, first, second, third, isStated ? 'stated' : 'default', true)];
  return [
    ...whole,
    ...flips.map((f) => mirror(f.points, f.from, f.to, f.points[0] as number, f.why, false)),
  ];
}
