import { atLeast, atMost, figure } from '../figures.ts';
import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { type Finding, stop } from '../model/finding.ts';
import { cheekStretch, leastCheekMm } from './heel-rest-cheeks.ts';
import { given, type OutsideHeelRest, outsideHeelRest } from './heel-rest-outside.ts';
import { footDeg, type Section, sectionOf } from './heel-rest-section.ts';
import {
  cheekSides, flangeOf, hasRiser, type HeelRest, hemRadiusMm, highEnd, lipAt, lowEnd, notchMm, type Place, setback90Mm, setbackOf, stopEnd, wedgeDeg,
} from './heel-rest-sizes.ts';
import { impossibleTeardrop } from './teardrop.ts';

const PLACES = ['front', 'rear'] as const;

/** Steeper than this a heel rest is a wall; sheet is hardly folded further over than this without a tool for hems. */
const STEEPEST_DEG = 60;
const SHARPEST_DEG = 150;
/** No longer treads are offered: `treadDepth` ends there. */
const DEEPEST_MM = 1500;
/** A riser under a lifted tread that is turned less than this from it is none. */
const BLUNTEST_DEG = 10;

/** What cannot be folded, each with the figure that could. Later ones mean nothing while an earlier one stands. */
export function impossibleHeelRest(v: OutsideHeelRest): Finding[] {
  const first = [...angles(v), ...sharedEdge(v), ...flanges(v)];
  if (first.length > 0) return first;
  const section = sectionOf(v);
  const second = [...tread(v, section), ...stopHeight(v, section), ...risers(v, section)];
  return second.length > 0 ? second : cheeks(v, section);
}

function angles(v: OutsideHeelRest): Finding[] {
  const w = wedgeDeg(v);
  if (w > STEEPEST_DEG) {
    return [stop('wedge-too-steep', `The tread is turned ${figure(w)} degrees from the floor: bring floorAngle ${figure(v.floorAngle)} and treadAngle ${figure(v.treadAngle)} within ${STEEPEST_DEG} of each other.`)];
  }
  if (w === 0 && v.lift === 0) {
    return [stop('no-wedge', `floorAngle and treadAngle are both ${figure(v.floorAngle)}, so the tread would lie on the floor: give lift ${atLeast(leastLiftMm(v))} or more, or angles that differ.`)];
  }
  const most = SHARPEST_DEG - w;
  if (v.riserAngle > most) {
    return [stop('riser-angle', `riserAngle ${figure(v.riserAngle)} folds the riser more than ${SHARPEST_DEG} degrees from the tread: give ${atMost(most)} or less.`)];
  }
  const least = BLUNTEST_DEG + w;
  return v.lift > 0 && v.riserAngle < least
    ? [stop('riser-angle', `riserAngle ${figure(v.riserAngle)} leaves the riser at the low end in line with the tread: give ${atLeast(least)} or more, or lift 0.`)]
    : [];
}

/** Flange, riser and stop each take the whole of an edge; only one folded double goes on into another of them. */
function sharedEdge(v: HeelRest): Finding[] {
  const place = stopEnd(v);
  if (lipAt(v, place) !== 'single') return [];
  const other = place === 'front' ? 'rear' : 'front';
  if (hasRiser(v, place)) {
    const mend = hasRiser(v, other) ? '' : `, or lipPlace ${other}`;
    return [stop('stop-and-riser', `The stop wants the ${place} edge of the tread, from which the riser is folded: give lipFold double${mend}.`)];
  }
  if (flangeOf(v, place) === 0) return [];
  const input = place === 'front' ? 'flangeFront' : 'flangeRear';
  return [stop('stop-and-flange', `The stop wants the ${place} edge of the tread, which runs out into the floor flange: give lipFold double, or ${input} 0.`)];
}

/** The bend a flange hangs on: at the foot of a riser or of a doubled stop, or between tread and floor. */
const flangeAngle = (v: HeelRest, place: Place): number => {
  const slope = place === highEnd(v) ? wedgeDeg(v) : -wedgeDeg(v);
  return hasRiser(v, place) || lipAt(v, place) === 'double' ? footDeg(v, place, slope) : wedgeDeg(v);
};

function flanges(v: OutsideHeelRest): Finding[] {
  const findings: Finding[] = [];
  for (const place of PLACES) {
    const flange = flangeOf(v, place);
    const least = setbackOf(v, flangeAngle(v, place), v.insideRadiusMm) + v.thicknessMm;
    if (flange === 0 || flange >= least) continue;
    const input = place === 'front' ? 'flangeFront' : 'flangeRear';
    findings.push(stop('flange-too-narrow', `${input} ${figure(given(v, input, flange))} is all bend: give ${atLeast(given(v, input, least))} or more, or 0 for none.`));
  }
  const least = setback90Mm(v) + v.thicknessMm;
  if (cheekSides(v).length > 0 && v.cheekFlange > 0 && v.cheekFlange < least) {
    findings.push(stop('flange-too-narrow', `cheekFlange ${figure(given(v, 'cheekFlange', v.cheekFlange))} is all bend: give ${atLeast(given(v, 'cheekFlange', least))} or more, or 0 for none.`));
  }
  return findings;
}

function tread(v: OutsideHeelRest, section: Section): Finding[] {
  const findings: Finding[] = [];
  const deep = 2 * notchMm(v);
  if (section.treadFlatMm < deep - NOISE_MM) {
    findings.push(stop('tread-too-short', `treadDepth ${figure(given(v, 'treadDepth', v.treadDepth))} leaves no tread between the bends: give ${atLeast(given(v, 'treadDepth', v.treadDepth + deep - section.treadFlatMm))} or more.`));
  }
  const sides = cheekSides(v).length;
  // The bend of a cheek, and the relief at its end, which reaches as far again.
  const wide = 2 * notchMm(v) + sides * (setback90Mm(v) + v.insideRadiusMm + v.thicknessMm + notchMm(v));
  if (v.width < wide) {
    findings.push(stop('tread-too-narrow', `width ${figure(given(v, 'width', v.width))} leaves no tread between the cheeks: give ${atLeast(given(v, 'width', wide))} or more.`));
  }
  return findings;
}

function stopHeight(v: OutsideHeelRest, section: Section): Finding[] {
  const { legs } = section.ends[stopEnd(v)];
  const leg = legs.find(({ id }) => id === 'stop');
  if (leg === undefined) return [];
  if (leg.flatMm < v.thicknessMm - NOISE_MM) {
    const least = v.lipHeight - leg.flatMm + v.thicknessMm;
    return [stop('stop-too-low', `lipHeight ${figure(v.lipHeight)} is all bend: give ${atLeast(least)} or more, or 0 for no stop.`)];
  }
  if (!legs.some(({ id }) => id === 'hem')) return [];
  const least = setbackOf(v, 180, hemRadiusMm(v)) + v.thicknessMm;
  // Folded away from the heel, it hangs down outside the stop's own bend.
  const most = v.lipHeight - v.insideRadiusMm;
  const teardrop = v.hemShape === 'teardrop' ? impossibleTeardrop({ radiusMm: hemRadiusMm(v), thicknessMm: v.thicknessMm, depthMm: v.hem }, 'hem', given(v, 'hem', v.hem)) : [];
  if (teardrop.length > 0) return teardrop;
  return v.hem < least || v.hem > most
    ? [stop('hem-does-not-fit', `hem ${figure(given(v, 'hem', given(v, 'hem', v.hem)))} is all bend or reaches down to the bend of the stop: give ${atLeast(given(v, 'hem', least))} to ${atMost(given(v, 'hem', most))}, or 0 for none.`)]
    : [];
}

function risers(v: OutsideHeelRest, section: Section): Finding[] {
  for (const place of [lowEnd(v), highEnd(v)]) {
    const { legs, standing } = section.ends[place];
    const leg = standing === undefined ? undefined : legs[standing.index];
    if (leg === undefined || leg.flatMm >= v.thicknessMm - NOISE_MM) continue;
    const rise = (v.thicknessMm - leg.flatMm) * sinDeg(footDeg(v, place, place === highEnd(v) ? wedgeDeg(v) : -wedgeDeg(v)));
    return [stop('riser-too-low', `The ${leg.id} is all bend: give ${riserMends(v, place, rise).join(', or ')}.`)];
  }
  return [];
}

/** `rise`: by how much higher the end of the tread would have to stand over the floor. */
function riserMends(v: OutsideHeelRest, place: Place, rise: number): string[] {
  const mends: string[] = [];
  if (lipAt(v, place) === 'double') mends.push(`lipHeight ${atLeast(v.lipHeight + rise / sinDeg(v.riserAngle))} or more`);
  const deep = v.treadDepth + rise / sinDeg(wedgeDeg(v));
  if (v.lift === 0 && place === highEnd(v) && deep <= DEEPEST_MM) mends.push(`treadDepth ${atLeast(given(v, 'treadDepth', deep))} or more`);
  if (v.riserAngle >= BLUNTEST_DEG + wedgeDeg(v)) mends.push(`lift ${atLeast(leastLiftMm(v))} or more`);
  return mends;
}

/** The least lift to be asked for under which both risers, and the cheeks, have a flat: a riser grows with it as its sine says. */
function leastLiftMm(v: OutsideHeelRest): number {
  const trial = outsideHeelRest({ ...v.asked, lift: 1 });
  const { ends } = sectionOf(trial);
  const needs = PLACES.map((place) => {
    const { legs, standing } = ends[place];
    return trial.lift + (v.thicknessMm - (legs[standing?.index ?? 0]?.flatMm ?? 0)) * sinDeg(v.riserAngle);
  });
  return given(trial, 'lift', Math.max(...needs, cheekSides(v).length > 0 ? leastCheekMm(v) * cosDeg(wedgeDeg(v)) : 0));
}

function cheeks(v: OutsideHeelRest, section: Section): Finding[] {
  if (cheekSides(v).length === 0) return [];
  const w = wedgeDeg(v);
  const least = leastCheekMm(v) * cosDeg(w);
  if (v.lift > 0) {
    return section.lowRiseMm < least - NOISE_MM
      ? [stop('cheeks-too-low', `Under a lift of ${figure(given(v, 'lift', v.lift))} the cheeks are all bend: give lift ${atLeast(given(v, 'lift', least))} or more, lift 0, or cheeks none.`)]
      : [];
  }
  const [from, to] = cheekStretch(v, section);
  const short = from + section.ends[highEnd(v)].setbackMm + 3 * notchMm(v) - to;
  return short > NOISE_MM
    ? [stop('no-room-for-cheeks', `The wedge is too low for cheeks: give treadDepth ${atLeast(given(v, 'treadDepth', v.treadDepth + short))} or more, angles further apart, or cheeks none.`)]
    : [];
}
