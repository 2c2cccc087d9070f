import {
  cosDeg,
  cross3,
  dot3,
  figure,
  just,
  note,
  orLess,
  orTry,
  refuse,
  scale3,
  sinDeg,
  sub3,
  unit3,
  along3,
  NOISE_MM,
} from '../../src/template.ts';
import type { Finding, Vec3 } from '../../src/template.ts';
import { type Facet, foldAngleDeg } from '../duct-transition/surface.ts';
import { facetFrom, outwardOf } from './chains.ts';
import type { DuctEnds } from './ends.ts';
import { type DuctBetween, LEAST_LAP_MM } from './inputs.ts';
import { bendHalfMm, widestMm } from './limits.ts';

/** Chains of facets that lap each other, or what is in the way. */
export interface Lapped {
  readonly chains: readonly (readonly Facet[])[];
  readonly findings: readonly Finding[];
}

/** Whether the seams of a duct are lapped; those along a fold, or round a wall apart, are not. */
export const isLapped = ({ seam, seamPlace, blanks }: DuctBetween): boolean =>
  seam === 'lapped' && seamPlace === 'flat' && blanks !== 'apart';

/** The walls at the ends of chains, each so that it lies on the first wall of the next chain. */
export const lappedChains = (
  v: DuctBetween,
  ends: DuctEnds,
  chains: readonly (readonly Facet[])[],
): Lapped => {
  const seams = chains.map((chain, i): Seam => ({
    chain,
    next: chains[(i + 1) % chains.length] as readonly Facet[],
  }));
  const made = seams.map((seam) => lapOf(v, ends, seam, v.lap));
  const short = seams.flatMap((seam, i) =>
    made[i] === undefined ? [{ seam: i + 1, most: widestLapMm(v, ends, seam) }] : [],
  );
  const worst = short.toSorted((a, b) => a.most - b.most)[0];
  return worst === undefined
    ? { chains: made.flatMap((chain) => (chain === undefined ? [] : [chain])), findings: [] }
    : { chains, findings: [noRoom(v, worst.seam, worst.most)] };
};

/** A chain whose last wall laps the first wall of the next one, which is its other half. */
interface Seam {
  readonly chain: readonly Facet[];
  readonly next: readonly Facet[];
}

/** A line from the near end to the far one. */
interface Ruling {
  readonly near: Vec3;
  readonly far: Vec3;
}

const entryOf = ({ points }: Facet): Ruling => ({
  near: points[0] as Vec3,
  far: points[1] as Vec3,
});

const exitOf = ({ points, edges }: Facet): Ruling => {
  const i = edges.indexOf('exit');
  return { near: points[(i + 1) % points.length] as Vec3, far: points[i] as Vec3 };
};

/** A line moved by a vector, from the plane of the near end to that of the far one. */
const moved = ({ near, far }: Ruling, by: Vec3, { near: low, far: high }: DuctEnds): Ruling => {
  const [start, way] = [along3(near, by, 1), sub3(far, near)];
  const at = ({ pose: { o, z } }: DuctEnds['near']): Vec3 =>
    along3(start, way, dot3(z, sub3(o, start)) / dot3(z, way));
  return { near: at(low), far: at(high) };
};

/** Square to a line within a plane, away from another line there. */
const beyond = (line: Ruling, from: Ruling, normal: Vec3): Vec3 => {
  const side = unit3(cross3(sub3(line.far, line.near), normal));
  const away = dot3(side, sub3(line.near, from.near)) + dot3(side, sub3(line.far, from.far));
  return away < 0 ? scale3(side, -1) : side;
};

/** How far both ends of a line lie from another one, the nearer of them: less than 0 behind it. */
const clearMm = (of: Ruling, from: Ruling, side: Vec3): number =>
  Math.min(dot3(side, sub3(of.near, from.near)), dot3(side, sub3(of.far, from.near)));

/** The last wall of a chain as it lies on another one, and the wall before it, ending where that does. */
interface Lying {
  readonly joined: Facet;
  readonly lying: Facet;
  /** The fold between both, and the free edge. */
  readonly fold: Ruling;
  readonly edge: Ruling;
  /** Square to that edge, out of the wall. */
  readonly past: Vec3;
}

/**
 * The last wall moved out of its plane by a thickness and the gap, and longer by the lap; the wall
 * before it ends where it meets the moved plane. All corners are where planes cut, so that both
 * walls lie flat on each other. `undefined` where there is no room for both folds.
 */
const lyingOf = (
  v: DuctBetween,
  ends: DuctEnds,
  chain: readonly Facet[],
  lapMm: number,
): Lying | undefined => {
  const [before, last] = chain.slice(-2) as [Facet, Facet];
  const normal = outwardOf(last);
  const off = scale3(normal, (v.lapSide === 'outside' ? 1 : -1) * (v.thicknessMm + v.cornerGapMm));
  const [seam, start, corner] = [exitOf(last), entryOf(before), entryOf(last)];
  const past = beyond(seam, corner, normal);
  const edge = moved(seam, along3(off, past, lapMm), ends);
  const ahead = beyond(corner, start, outwardOf(before));
  const rise = dot3(normal, ahead);
  if (Math.abs(rise) < sinDeg(LEAST_FOLD_DEG)) return undefined;
  const fold = moved(corner, scale3(ahead, dot3(normal, off) / rise), ends);
  const wall = (facet: Facet, from: Ruling, to: Ruling): Facet => ({
    ...facet,
    ...facetFrom([from.near, to.near], [from.far, to.far]),
  });
  const [joined, lying] = [wall(before, start, fold), wall(last, fold, edge)];
  const isClear =
    dot3(ahead, sub3(fold.near, start.near)) > -NOISE_MM &&
    dot3(ahead, sub3(fold.far, start.far)) > -NOISE_MM &&
    clearMm(seam, fold, beyond(seam, corner, normal)) >=
      bendHalfMm(v, foldAngleDeg(before, last)) &&
    widestMm(joined) > bendsMm(v, chain);
  return isClear ? { joined, lying, fold, edge, past } : undefined;
};

/** A wall that is folded less is moved along the one before it, not out of its plane, degrees. */
const LEAST_FOLD_DEG = 1;

/** The chain with its lap; `undefined` where that reaches a fold of the wall that it lies on. */
const lapOf = (
  v: DuctBetween,
  ends: DuctEnds,
  { chain, next }: Seam,
  lapMm: number,
): readonly Facet[] | undefined => {
  if (Math.min(chain.length, next.length) < 2) return undefined;
  const own = lyingOf(v, ends, chain, lapMm);
  // Of a blank of two walls the first ends at the fold of the last one.
  const under = next.length === 2 ? lyingOf(v, ends, next, lapMm)?.joined : next[0];
  if (own === undefined || under === undefined) return undefined;
  const isClear = clearMm(exitOf(under), own.edge, own.past) >= roomMm(v, next);
  return isClear ? [...chain.slice(0, -2), own.joined, own.lying] : undefined;
};

/** What the bends on both sides of the wall before the last one take. */
const bendsMm = (v: DuctBetween, chain: readonly Facet[]): number => {
  const walls = chain.slice(-3);
  return walls
    .slice(1)
    .reduce((sum, wall, i) => sum + bendHalfMm(v, foldAngleDeg(walls[i] as Facet, wall)), 0);
};

/**
 * How far the edge of a lap keeps off the next fold of the wall that it lies on: half of the bend,
 * and where that wall turns to the side of the lap what the next one takes of its height. Its inner
 * face stands at y cot A - t / (2 sin A) at a height y over the middle of the sheet.
 */
const roomMm = (v: DuctBetween, [wall, after]: readonly Facet[]): number => {
  if (wall === undefined || after === undefined) return 0;
  const angle = foldAngleDeg(wall, after);
  const half = bendHalfMm(v, angle);
  if (angle < 0 !== (v.lapSide === 'outside')) return half;
  const high = 1.5 * v.thicknessMm + v.cornerGapMm;
  const turn = Math.abs(angle);
  return half + Math.max(0, (v.thicknessMm / 2 - high * cosDeg(turn)) / sinDeg(turn));
};

/** The widest lap that a seam has room for, mm, found by halving; 0 where it has none for any. */
const widestLapMm = (v: DuctBetween, ends: DuctEnds, seam: Seam): number => {
  let [fits, fails] = [0, v.lap];
  for (let halvings = 0; halvings < 30; halvings++) {
    const lap = (fits + fails) / 2;
    if (lapOf(v, ends, seam, lap) === undefined) fails = lap;
    else fits = lap;
  }
  return fits;
};

const noRoom = (v: DuctBetween, seam: number, mostMm: number): Finding =>
  orTry(
    refuse(
      'lap-without-room',
      ['lap', 'seamSide'],
      mostMm < LEAST_LAP_MM
        ? `the wall with seam ${seam} is too narrow at one of its ends to lie on the next one with a lap`
        : `lap ${figure(v.lap)} at seam ${seam} reaches the next fold, ${figure(mostMm)} being left`,
      [...(mostMm < LEAST_LAP_MM ? [] : [orLess('lap', mostMm)]), just('seam', 'butt')],
      'put the seams on a side whose wall is wide at both openings',
    ),
    ...(['top', 'right', 'bottom', 'left'] as const)
      .filter((side) => side !== v.seamSide)
      .map((side) => just('seamSide', side)),
  );

/** How lapped seams are folded and closed. */
export const lapNotes = (v: DuctBetween, chains: readonly (readonly Facet[])[]): Finding[] => {
  if (!isLapped(v)) return [];
  const pairs = chains.map((chain, i) => {
    const under = chains[(i + 1) % chains.length]?.[0]?.id as string;
    return `${chain.at(-1)?.id as string} ${v.lapSide} ${under}`;
  });
  return [
    note(
      'lapped-seams',
      `Seams are lapped by ${figure(v.lap)} mm: ${pairs.join(', ')}. The wall that laps is folded by as much aside as the other is thick, so that both lie flat. Scribe a line ${figure(v.lap)} mm from the free edge of the covered one, close the seam up to it, and weld along the edge that can be reached.`,
    ),
  ];
};
