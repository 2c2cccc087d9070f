import { setbackMm } from '../bending/setback.ts';
import { atLeast, atMost, figure } from '../figures.ts';
import { dot, sub, unit } from '../geometry/vec2.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import type { CommonValues } from '../input/common.ts';
import { type Finding, stop } from '../model/finding.ts';
import { type BaffleAsk, goneMm, leastCutMm, type Plate, type PlateCorner, type PlateSide, sideAt } from './baffle-plate.ts';
import { BAFFLE_SIDES, type BaffleSection, cornerAt, cornerDeg, edgeMm, sectionCorners, tangentMm } from './baffle-section.ts';

/** What cannot be cut or folded, each with the figure that could. */
export const impossibleBaffle = (v: CommonValues, ask: BaffleAsk, plate: Plate): Finding[] => {
  const radii = radiiThatMeet(ask.section);
  if (radii.length > 0) return radii;
  const edges = shortEdges(v, ask, plate);
  return edges.length > 0 ? edges : [...cuts(v, plate, 'limber', 0), ...cuts(v, plate, 'vent', 2), ...flanges(v, ask, plate)];
};

/** The rounded corners at both ends of a side have to fit on it. */
function radiiThatMeet(s: BaffleSection): Finding[] {
  const corners = sectionCorners(s);
  return BAFFLE_SIDES.flatMap((side, i) => {
    const ends = [i, (i + 1) % 4].map((c) => ({ radiusMm: c < 2 ? s.floorRadiusMm : s.roofRadiusMm, reach: tangentMm(1, cornerDeg(corners, c)) }));
    const taken = ends.reduce((sum, e) => sum + e.radiusMm * e.reach, 0);
    if (taken <= edgeMm(corners, i) + NOISE_MM) return [];
    const largest = edgeMm(corners, i) / ends.reduce((sum, e) => sum + e.reach, 0);
    const given = [...new Set(ends.map((e) => figure(e.radiusMm)))].join(' and ');
    return [stop('tank-radius-too-big', `Corner radius ${given} of the tank does not fit its ${side} of ${figure(edgeMm(corners, i))}: give at most ${atMost(largest)}.`)];
  });
}

/** Along an edge: what the bends at its ends take where the corner stays, and room for a relief at either end. */
const leastLeftMm = (v: CommonValues, { made, sides }: Plate, i: number): number => {
  const notch = Math.max(v.thicknessMm, v.leastSlotMm) + v.cornerGapMm;
  const end = (corner: number, neighbour: number): number =>
    notch + (goneMm(made[corner] as PlateCorner) > 0 ? 0 : sideAt(sides, neighbour).setbackMm / Math.sin((made[corner] as PlateCorner).angleDeg * (Math.PI / 180)));
  return end(i, i - 1) + end((i + 1) % 4, i + 1);
};

function shortEdges(v: CommonValues, ask: BaffleAsk, plate: Plate): Finding[] {
  const whole = sectionCorners(ask.section);
  return BAFFLE_SIDES.flatMap((side, i) => {
    const dir = unit(sub(cornerAt(whole, i + 1), cornerAt(whole, i)));
    // A clearance wider than the section turns the edge round.
    const length = dot(sub(cornerAt(plate.corners, i + 1), cornerAt(plate.corners, i)), dir);
    const ends = [i, (i + 1) % 4].map((c) => plate.made[c] as PlateCorner);
    const gone = ends.reduce((sum, c) => sum + goneMm(c), 0);
    const left = leastLeftMm(v, plate, i);
    if (length - gone >= left - NOISE_MM) return [];
    const shortest = [i, (i + 1) % 4].reduce((sum, c, e) => sum + (ends[e]?.cutMm === 0 ? goneMm(plate.made[c] as PlateCorner) : leastCutMm(v, plate.made, plate.sides, c)), 0);
    if (ends.some((c) => c.cutMm > 0) && shortest + left <= length + NOISE_MM) return [cutsMeet(i, ends, length, length - left)];
    return [stop('baffle-too-small', `The ${side} edge of the baffle is ${figure(Math.max(0, length))} long and leaves nothing between its corners: make the tank ${atLeast(shortest + left - length)} larger there, or the clearance smaller.`)];
  });
}

/** The cuts at both ends of a side together may take no more than `most`. */
function cutsMeet(i: number, ends: readonly PlateCorner[], length: number, most: number): Finding {
  const names = ends.flatMap((c, e) => (c.cutMm === 0 ? [] : [(i + e) % 4 < 2 ? 'limber' : 'vent']));
  const uncut = ends.reduce((sum, c) => sum + (c.cutMm === 0 ? goneMm(c) : 0), 0);
  const [first, second] = names;
  const mend = first === second ? `${first} at most ${atMost(most / 2)}` : `${names.join(' and ')}${second === undefined ? '' : ' together'} at most ${atMost(most - uncut)}`;
  return stop('corner-cuts-meet', `The corner cuts leave too little of the ${BAFFLE_SIDES[i]} edge of ${figure(length)}: give ${mend}.`);
}

function cuts(v: CommonValues, { made, sides }: Plate, input: 'limber' | 'vent', first: number): Finding[] {
  const pair = [first, first + 1];
  const cut = (made[first] as PlateCorner).cutMm;
  const least = Math.max(...pair.map((i) => leastCutMm(v, made, sides, i)));
  if (cut > 0) {
    return cut >= least - NOISE_MM ? [] : [stop('corner-cut-too-short', `${input} ${figure(cut)} does not clear the rounded corner of the tank or the bends beside it: give ${atLeast(least)} or more.`)];
  }
  const meetsRound = pair.some((i) => (made[i] as PlateCorner).roundMm > 0 && (sideAt(sides, i).hasFlange || sideAt(sides, i - 1).hasFlange));
  return meetsRound ? [stop('flange-round-corner', `A flange cannot run round the tank's rounded corner: give ${input} ${atLeast(least)} or more.`)] : [];
}

/** The flange over its outside mould line, whichever way it was measured. */
export const outsideFlangeMm = (v: CommonValues, ask: BaffleAsk, side: PlateSide): number =>
  ask.flangeMm + (v.measure === 'inside' ? side.setbackMm - setbackMm(side.bendDeg, v.insideRadiusMm, v.thicknessMm, 'inside') : 0);

function flanges(v: CommonValues, ask: BaffleAsk, { sides }: Plate): Finding[] {
  const short = sides.filter((s) => s.hasFlange).map((s) => s.setbackMm + v.thicknessMm - outsideFlangeMm(v, ask, s));
  const lacking = Math.max(0, ...short);
  return lacking > NOISE_MM ? [stop('flange-too-narrow', `flange ${figure(ask.flangeMm)} is all bend: give ${atLeast(ask.flangeMm + lacking)} or more.`)] : [];
}
