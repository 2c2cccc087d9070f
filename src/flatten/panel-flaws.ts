import { figure } from '../text/figures.ts';
import { edgeNames, type Loop, type Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { isLength, isPlace, LARGEST_MM } from './length-limits.ts';
import type { Cutout, Panel } from '../model/part.ts';
import { type Finding, stop } from '../model/finding.ts';

/** What is wrong with a panel by itself: its outline, its holes. */
export const panelFlaws = ({ id, outline, cutouts }: Panel): Finding[] => {
  const flaw = loopFlaw(outline) ?? directionFlaw(outline);
  return [
    ...(flaw === undefined ? [] : [stop('panel-outline', `The outline of panel '${id}' ${flaw}`)]),
    ...cutouts.flatMap((cutout, i) => {
      const wrong = cutoutFlaw(cutout);
      return wrong === undefined
        ? []
        : [
            stop(
              'hole-outline',
              `Hole ${cutout.from} (${i + 1} of ${cutouts.length}) in panel '${id}' ${wrong}`,
            ),
          ];
    }),
  ];
};

const cutoutFlaw = (cutout: Cutout): string | undefined => {
  if (cutout.kind === 'loop') return loopFlaw(cutout.loop);
  const {
    centre: [x, y],
    diameterMm,
  } = cutout;
  if (!isPlace(x) || !isPlace(y))
    return `has its centre at ${x}, ${y}: give two numbers, in mm, none beyond ${LARGEST_MM}.`;
  return isLength(diameterMm) && diameterMm > 0
    ? undefined
    : `has a diameterMm of ${diameterMm}: give more than 0.`;
};

/**
 * What keeps vertices from being one closed curve, worded to continue a sentence that begins with
 * its name. Points are counted from 0, as edges are.
 */
const loopFlaw = (loop: Loop): string | undefined => {
  const isArc = ({ bulge }: Vertex): boolean => bulge !== 0;
  if (loop.length < 2 || (loop.length === 2 && !loop.some(isArc))) {
    return `has ${loop.length} ${loop.length === 1 ? 'point' : 'points'}: give three at least, or two with an arc (bulge) between them.`;
  }
  const bad = loop.findIndex(({ x, y, bulge }) => !isPlace(x) || !isPlace(y) || !isPlace(bulge));
  if (bad >= 0) {
    const { x, y, bulge } = loop[bad] as Vertex;
    return `has point ${bad} at ${x}, ${y} with bulge ${bulge}: give three numbers, in mm, none beyond ${LARGEST_MM}.`;
  }
  const double = loop.findIndex((v, i) => {
    const next = loop[(i + 1) % loop.length] as Vertex;
    return Math.hypot(next.x - v.x, next.y - v.y) < NOISE_MM;
  });
  if (double >= 0)
    return `has points ${double} and ${(double + 1) % loop.length} in one place, ${where([(loop[double] as Vertex).x, (loop[double] as Vertex).y])}: leave one out.`;
  const straight = loop.findIndex(
    (v, i) => v.bulge !== 0 && rise(v, loop[(i + 1) % loop.length] as Vertex) < LEAST_RISE_MM,
  );
  if (straight >= 0)
    return `has an arc on edge ${straight} of bulge ${(loop[straight] as Vertex).bulge}, which is as good as straight: give bulge 0.`;
  const crossing = selfCrossing(loop);
  return (
    crossing &&
    `meets itself at ${where(crossing.at)}, where edges ${crossing.first} and ${crossing.second} run into each other: give its points in their order round it.`
  );
};

/**
 * The centre of an arc that rises less than this over its chord is so far away that no crossing
 * with the arc can be worked out.
 */
const LEAST_RISE_MM = 10 * NOISE_MM;

/** How far an arc rises over its chord: half the chord times the bulge. */
const rise = (from: Vertex, to: Vertex): number =>
  (Math.hypot(to.x - from.x, to.y - from.y) * Math.abs(from.bulge)) / 2;

/** The metal lies on the left, so the order of points says which side it is on. */
const directionFlaw = (loop: Loop): string | undefined =>
  signedArea(loop) > 0
    ? undefined
    : `runs clockwise: give its points the other way round, so that the metal is on the left. Edge i becomes edge ${loop.length - 2} - i, the last one keeps its number, arcs change the sign of their bulge${edgeNames(loop).length > 0 ? ', and a name goes to the point where its edge now begins' : ''}.`;

const where = ([x, y]: readonly [number, number]): string => `${figure(x)}, ${figure(y)}`;
