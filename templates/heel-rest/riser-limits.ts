import {
  cosDeg,
  figure,
  type Finding,
  isOver,
  isUnder,
  just,
  type Mend,
  NOISE_MM,
  orLess,
  orMore,
  orTry,
  refuse,
  sinDeg,
  within,
} from '../../src/template.ts';
import { leastCheekMm } from './cheeks.ts';
import { given, type OutsideHeelRest, outsideHeelRest } from './outside.ts';
import { type Section, sectionOf } from './section.ts';
import { cheekSides, highEnd, lipAt, lowEnd, type Place, wedgeDeg, PLACES } from './sizes.ts';
import { footDeg } from './legs.ts';

/** Finding on a riser that its bends take up whole. */
export function risers(v: OutsideHeelRest, section: Section): Finding[] {
  for (const place of [lowEnd(v), highEnd(v)]) {
    const { legs, standing } = section.ends[place];
    const leg = standing === undefined ? undefined : legs[standing.index];
    if (leg === undefined || leg.flatMm >= v.thicknessMm - NOISE_MM) continue;
    const rise =
      (v.thicknessMm - leg.flatMm) *
      sinDeg(footDeg(v, place, place === highEnd(v) ? wedgeDeg(v) : -wedgeDeg(v)));
    // On a wedge the height of a riser follows from treadDepth, under a lifted tread from lift, and
    // on a doubled stop from lipHeight.
    const mends = riserMends(v, place, rise);
    const inputs = [
      ...mends.map(({ input }) => input),
      ...(v.lift > 0 ? ['lift'] : ['treadDepth']),
    ];
    const named = [...new Set(inputs)].map(
      (input) =>
        `${input} ${figure(input === 'lipHeight' ? v.lipHeight : given(v, input as 'lift' | 'treadDepth', v[input as 'lift' | 'treadDepth']))}`,
    );
    return [
      orTry(
        refuse('riser-too-low', inputs, `The ${leg.id} is all bend (${named.join(', ')})`, mends),
        'floorAngle',
        'treadAngle',
        'radius',
      ),
    ];
  }
  return [];
}

/**
 * Mends for a riser; `rise` is how much higher the end of the tread would have to stand over the
 * floor.
 */
function riserMends(v: OutsideHeelRest, place: Place, rise: number): Mend[] {
  const mends: Mend[] = [];
  if (lipAt(v, place) === 'double')
    mends.push(orMore('lipHeight', v.lipHeight + rise / sinDeg(v.riserAngle)));
  const deep = v.treadDepth + rise / sinDeg(wedgeDeg(v));
  if (v.lift === 0 && place === highEnd(v) && deep <= DEEPEST_MM)
    mends.push(orMore('treadDepth', given(v, 'treadDepth', deep)));
  if (v.riserAngle >= BLUNTEST_DEG + wedgeDeg(v)) mends.push(orMore('lift', leastLiftMm(v)));
  return mends;
}

/**
 * The least lift at which both risers, and the cheeks, have a flat: a riser grows with the lift by
 * the sine of its angle.
 */
function leastLiftMm(v: OutsideHeelRest): number {
  const trial = outsideHeelRest({ ...v.asked, lift: 1 });
  const { ends } = sectionOf(trial);
  const needs = PLACES.map((place) => {
    const { legs, standing } = ends[place];
    return (
      trial.lift +
      (v.thicknessMm - (legs[standing?.index ?? 0]?.flatMm ?? 0)) * sinDeg(v.riserAngle)
    );
  });
  return given(
    trial,
    'lift',
    Math.max(...needs, cheekSides(v).length > 0 ? leastCheekMm(v) * cosDeg(wedgeDeg(v)) : 0),
  );
}

/**
 * Greatest angles: a heel rest that is steeper is a wall, and sheet is hardly folded further over
 * without a tool for hems.
 */
const STEEPEST_DEG = 60;

const SHARPEST_DEG = 150;

/** Longest tread that is offered: `treadDepth` ends there. */
const DEEPEST_MM = 1500;

/** Least angle of a riser under a lifted tread; with less it is not a riser. */
const BLUNTEST_DEG = 10;

export function angles(v: OutsideHeelRest): Finding[] {
  const w = wedgeDeg(v);
  if (isOver(w, STEEPEST_DEG)) {
    const beside = (input: 'floorAngle' | 'treadAngle', angle: number): Mend =>
      within(
        input,
        Math.max(-STEEPEST_DEG, angle - STEEPEST_DEG),
        Math.min(STEEPEST_DEG, angle + STEEPEST_DEG),
      );
    const what = `floorAngle ${figure(v.floorAngle)} and treadAngle ${figure(v.treadAngle)} turn the tread ${figure(w)} degrees from the floor, more than ${STEEPEST_DEG}`;
    return [
      refuse('wedge-too-steep', ['floorAngle', 'treadAngle'], what, [
        beside('treadAngle', v.floorAngle),
        beside('floorAngle', v.treadAngle),
      ]),
    ];
  }
  if (w === 0 && v.lift === 0) {
    return [
      refuse(
        'no-wedge',
        ['floorAngle', 'treadAngle'],
        `floorAngle and treadAngle are both ${figure(v.floorAngle)}, so the tread would lie on the floor`,
        [orMore('lift', leastLiftMm(v))],
        'give angles that differ',
      ),
    ];
  }
  const most = SHARPEST_DEG - w;
  if (isOver(v.riserAngle, most)) {
    return [
      refuse(
        'riser-angle',
        ['riserAngle'],
        `riserAngle ${figure(v.riserAngle)} folds the riser more than ${SHARPEST_DEG} degrees from the tread`,
        [orLess('riserAngle', most)],
      ),
    ];
  }
  const least = BLUNTEST_DEG + w;
  return v.lift > 0 && isUnder(v.riserAngle, least)
    ? [
        refuse(
          'riser-angle',
          ['riserAngle', 'lift'],
          `riserAngle ${figure(v.riserAngle)} leaves the riser at the low end in line with the tread`,
          [orMore('riserAngle', least), just('lift', 0)],
        ),
      ]
    : [];
}
