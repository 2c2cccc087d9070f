import { atLeast, atMost, figure } from '../figures.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { pieceOf } from '../geometry/piece.ts';
import { distance } from '../geometry/vec2.ts';
import { type Finding, stop } from '../model/finding.ts';
import { baysOf, MOST_BAFFLES } from './tank-baffles.ts';
import { bendReachMm, outsideFlangeMm, type Tank, tankSizes, type TankSizes } from './tank-sizes.ts';
import { depthAtMm, floorMm, profileOutline, slopeDeg } from './tank-volume.ts';
import { cornerInput, cornerMm } from './free-corners.ts';

/** Steeper floors leave ends that no weld reaches into. */
const STEEPEST_DEG = 60;

/** What cannot be cut, folded or put together, each with the figure that could. */
export const impossibleTank = (v: Tank, s: TankSizes): Finding[] => {
  const figures = [...wedge(v, s), ...inside(v, s)];
  if (figures.length > 0) return figures;
  const used = bends(v, s);
  return used.length > 0 ? used : [...ends(v, s), ...top(v, s), ...bays(v, s)];
};

function wedge(v: Tank, { cavity }: TankSizes): Finding[] {
  const shallow = v.heightShallow ?? v.height;
  if (shallow > v.height) return [stop('shallow-end-deeper', `heightShallow ${figure(shallow)} is more than height ${figure(v.height)}, which is the deep end: give at most ${figure(v.height)}.`)];
  if (slopeDeg({ ...cavity, lengthMm: v.length, deepMm: v.height, shallowMm: shallow }) <= STEEPEST_DEG + 1e-9) return [];
  const least = v.height - v.length * Math.tan((STEEPEST_DEG * Math.PI) / 180);
  return [stop('floor-too-steep', `The floor rises by ${figure(v.height - shallow)} over a length of ${figure(v.length)}, more than ${STEEPEST_DEG} degrees: give heightShallow ${atLeast(least)} or more.`)];
}

/** Room inside for the gaps and something beside them. */
function inside(v: Tank, { cavity: c }: TankSizes): Finding[] {
  const least = 2 * v.cornerGapMm + 2 * v.thicknessMm;
  const sizes = [['length', v.length, c.lengthMm], ['width', v.width, c.widthMm], ['height', v.height, c.deepMm], ['heightShallow', v.heightShallow ?? v.height, c.shallowMm]] as const;
  return sizes
    .filter(([input, , left]) => left < least && (input !== 'heightShallow' || v.heightShallow !== undefined))
    .map(([input, given, left]) => stop('tank-too-small', `${input} ${figure(given)} leaves nothing inside the tank: give ${atLeast(given + least - left)} or more.`));
}

/** An end, or the floor, that is shorter than its bends and a thickness to fold it by. */
interface AllBend {
  readonly rule: 'end-all-bend' | 'floor-all-bend';
  readonly input: 'height' | 'heightShallow' | 'length';
  /** What the bends take for each millimetre of radius. */
  readonly perRadius: number;
  /** What they may take. */
  readonly roomMm: number;
}

const allBends = (v: Tank, s: TankSizes): AllBend[] => {
  const { cavity: c, deepBendDeg, shallowBendDeg } = s;
  const [deep, shallow] = [bendReachMm({ ...v, insideRadiusMm: 1 }, deepBendDeg), bendReachMm({ ...v, insideRadiusMm: 1 }, shallowBendDeg)];
  const found: AllBend[] = [
    { rule: 'end-all-bend', input: 'height', perRadius: deep, roomMm: c.deepMm - v.thicknessMm - v.cornerGapMm },
    { rule: 'floor-all-bend', input: 'length', perRadius: deep + shallow, roomMm: floorMm(c) - v.thicknessMm },
  ];
  if (v.heightShallow !== undefined) found.push({ rule: 'end-all-bend', input: 'heightShallow', perRadius: shallow, roomMm: c.shallowMm - v.thicknessMm - v.cornerGapMm });
  return found.filter(({ perRadius, roomMm }) => v.insideRadiusMm * perRadius > roomMm + NOISE_MM);
};

function bends(v: Tank, s: TankSizes): Finding[] {
  return allBends(v, s).map(({ rule, input, perRadius, roomMm }) => {
    const given = v[input] ?? v.height;
    const least = leastThatFits(given, (value) => !allBends({ ...v, [input]: value }, tankSizes({ ...v, [input]: value })).some((b) => b.input === input));
    const mend = `radius at most ${atMost(roomMm / perRadius)}`;
    return stop(rule, `${input} ${figure(given)} is used up by the bends of the wrap: give ${least === undefined ? '' : `${atLeast(least)} or more, or `}${mend}.`);
  });
}

/** The slope of the floor changes with every size, and its bends with it: looked for up to ten times the size. */
function leastThatFits(given: number, fits: (value: number) => boolean): number | undefined {
  let [low, high] = [given, 10 * given];
  if (!fits(high)) return undefined;
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (fits(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Flanges of the plates at the sides: deep enough for their bends, on edges that leave metal between them. */
function ends(v: Tank, s: TankSizes): Finding[] {
  if (v.ends === 'flush') return [];
  const setback = v.insideRadiusMm + v.thicknessMm;
  const lacking = setback + v.thicknessMm - outsideFlangeMm(v);
  if (lacking > NOISE_MM) return [stop('flange-too-narrow', `endFlange ${figure(v.endFlange)} is all bend: give ${atLeast(v.endFlange + lacking)} or more.`)];
  const { outline, edges } = profileOutline(s.cavity, v.cornerGapMm);
  const needed = 2 * (2 * setback + Math.max(v.thicknessMm, v.leastSlotMm) + v.cornerGapMm);
  const short = edges.map((edge) => {
    const { from, to } = pieceOf(outline, edge);
    return needed - distance(from, to);
  });
  const worst = Math.max(...short);
  return worst > NOISE_MM ? [stop('end-too-small', `An edge of the plates at the sides is ${atLeast(worst)} too short for its flange: make the tank that much longer and deeper, or give ends flush.`)] : [];
}

/** The top has to lie on the walls, and to cover the corners of the inside when its own are rounded. */
function top(v: Tank, { topSetbackMm }: TankSizes): Finding[] {
  const lap = v.thicknessMm - topSetbackMm;
  if (lap <= NOISE_MM) return [stop('top-falls-in', `With topSetback ${figure(topSetbackMm)} the top sheet does not reach the walls, which are ${figure(v.thicknessMm)} thick: give at most ${atMost(v.thicknessMm / 2)}.`)];
  // An arc of radius R stays R (1 - 1 / sqrt 2) inside its corner on both axes, a chamfer half its size.
  const largest = lap / (v.cornerChamferMm > 0 ? 0.5 : 1 - Math.SQRT1_2);
  return cornerMm(v) > largest + NOISE_MM ? [stop('top-corner-open', `${cornerInput(v)} ${figure(cornerMm(v))} leaves the corners of the tank open at the top: give at most ${atMost(largest)}, or a smaller topSetback.`)] : [];
}

function bays(v: Tank, { cavity: c }: TankSizes): Finding[] {
  const { count, bayMm, stationsMm, thicknessMm } = baysOf(v, c);
  if (count === 0) return [];
  if (count > MOST_BAFFLES) return [stop('too-many-baffles', `longestBay ${figure(v.longestBay)} takes ${count} baffles: give ${atLeast((c.lengthMm - MOST_BAFFLES * thicknessMm) / (MOST_BAFFLES + 1))} or more for ${MOST_BAFFLES}.`)];
  const room = v.flange + v.clearance;
  if (bayMm < room) return [stop('bay-too-short', `A bay of ${figure(bayMm)} is shorter than a flange: give a longer longestBay, or flange ${atMost(Math.max(0, bayMm - v.clearance))} or less.`)];
  const last = depthAtMm(c, (stationsMm.at(-1) ?? 0) + thicknessMm);
  return last > 2 * v.clearance + thicknessMm ? [] : [stop('baffle-too-small', `The tank is only ${figure(last)} deep at its last baffle: give a longer longestBay.`)];
}
