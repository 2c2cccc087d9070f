import { cross3, dot3, along3, scale3, sub3, unit3, SAME_POINT_MM } from '../../src/template.ts';
import type { Pose, Vec2, Vec3, Vertex } from '../../src/template.ts';
import {
  foldShiftMm,
  inPlane,
  type PlacedPanel,
  point,
  seamShiftMm,
  type Sheet,
} from '../tank-plan/panels.ts';
import { type Bay, type Ruling, turnAtDeg, type WallFacet } from './surface.ts';

/** What is made of the sheet at a ruling: a bend, the edges of a weld, or a slight crease. */
export type Joint = 'fold' | 'seam' | 'crease';

/** The facets that are one blank, by their numbers in the bay, in their order round it. */
export type Chain = readonly number[];

/** A blank of walls: where it is cut off at both its ends, and how its rulings are made. */
export interface Strip {
  readonly bay: Bay;
  readonly chain: Chain;
  readonly sheet: Sheet;
  /** The stations at which its inside ends. */
  readonly nearMm: number;
  readonly farMm: number;
}

const facetOf = ({ facets }: Bay, i: number): WallFacet =>
  facets[(i + facets.length) % facets.length] as WallFacet;

/** What is made at the ruling at which a facet of a blank begins. */
export const jointAt = ({ bay, chain }: Pick<Strip, 'bay' | 'chain'>, i: number): Joint => {
  if (chain.indexOf(i) <= 0) return 'seam';
  return facetOf(bay, i - 1).side === facetOf(bay, i).side ? 'crease' : 'fold';
};

/** How far the sheet is turned at the ruling at which a facet begins. */
export const turnBefore = (bay: Bay, i: number): number =>
  turnAtDeg(facetOf(bay, i - 1), facetOf(bay, i));

/**
 * How far the line of a panel lies from where the insides meet, mm. A crease is drawn where the
 * middles of its two panels meet.
 */
const shiftMm = (joint: Joint, turn: number, sheet: Sheet): number => {
  if (joint === 'fold') return foldShiftMm(turn, sheet);
  if (joint === 'seam') return seamShiftMm(turn, sheet);
  return (-sheet.thicknessMm / 2) * Math.tan((turn * Math.PI) / 360);
};

/** The frame of a facet on its inside, as seen from there: x against the way round the sections. */
export const facetFrame = ({ entry, exit, plane }: WallFacet): Pose => {
  const [from, to] = entry.near === exit.near ? [exit.far, entry.far] : [exit.near, entry.near];
  const x = unit3(sub3(to, from));
  return { o: exit.near, x, y: cross3(plane.normal, x), z: plane.normal };
};

/** A line of a panel beside a ruling: from where it is beside the near end of that, along it. */
interface PanelLine {
  readonly from: Vec3;
  readonly way: Vec3;
}

const lineAt = (strip: Strip, i: number, which: 'entry' | 'exit'): PanelLine => {
  const facet = facetOf(strip.bay, i);
  const ruling: Ruling = facet[which];
  const way = unit3(sub3(ruling.far, ruling.near));
  const at = which === 'entry' ? i : (i + 1) % strip.bay.facets.length;
  const joint =
    which === 'entry' || strip.chain.at(-1) !== i ? jointAt(strip, at) : ('seam' as const);
  const shift = shiftMm(joint, turnBefore(strip.bay, at), strip.sheet);
  // Into the panel, seen from inside: to the left of the way at its entry, to the right at its exit.
  const into = scale3(cross3(way, facet.plane.normal), which === 'entry' ? -1 : 1);
  return { from: along3(ruling.near, into, shift), way };
};

/** Where a facet's own lines let an edge begin and end, mm along each from its `from`. */
interface Reach {
  readonly lowMm: number;
  readonly highMm: number;
}

const ownReach = (strip: Strip, i: number, which: 'entry' | 'exit'): Reach => {
  const line = lineAt(strip, i, which);
  const other = lineAt(strip, i, which === 'entry' ? 'exit' : 'entry');
  const at = (stationMm: number): number => (stationMm - line.from[0]) / line.way[0];
  const [low, high] = [at(strip.nearMm), at(strip.farMm)];
  // The lines of a triangle may meet before its tip is cut off; its edges end there.
  const { plane } = facetOf(strip.bay, i);
  const across = cross3(plane.normal, other.way);
  const closing = dot3(across, line.way);
  const meets = dot3(across, sub3(other.from, line.from)) / closing;
  if (!Number.isFinite(meets)) return { lowMm: low, highMm: high };
  const middle = (low + high) / 2;
  return meets < middle
    ? { lowMm: Math.max(low, meets), highMm: high }
    : { lowMm: low, highMm: Math.min(high, meets) };
};

const reachOf = (strip: Strip, i: number, which: 'entry' | 'exit'): Reach => {
  const own = ownReach(strip, i, which);
  const at = which === 'entry' ? i : (i + 1) % strip.bay.facets.length;
  const isEnd = which === 'entry' ? strip.chain[0] === i : strip.chain.at(-1) === i;
  if (isEnd || jointAt(strip, at) === 'seam') return own;
  const n = strip.bay.facets.length;
  const beside =
    which === 'entry'
      ? ownReach(strip, (i + n - 1) % n, 'exit')
      : ownReach(strip, (i + 1) % n, 'entry');
  return {
    lowMm: Math.max(own.lowMm, beside.lowMm),
    highMm: Math.min(own.highMm, beside.highMm),
  };
};

/**
 * A facet as a panel, as seen from inside the tank: its edges `base` at the near section, `entry`,
 * `rim` at the far one and `exit`. Two panels that are folded end alike where their lines lie
 * beside each other. At the tip of a triangle there may be no `base` or no `rim`.
 */
export const wallPanel = (strip: Strip, i: number): PlacedPanel => {
  const facet = facetOf(strip.bay, i);
  const frame = facetFrame(facet);
  const ends = (which: 'entry' | 'exit'): readonly [low: Vec2, high: Vec2] => {
    const { from, way } = lineAt(strip, i, which);
    const { lowMm, highMm } = reachOf(strip, i, which);
    return [inPlane(frame, along3(from, way, lowMm)), inPlane(frame, along3(from, way, highMm))];
  };
  const [[a, b], [d, c]] = [ends('entry'), ends('exit')];
  const all: readonly (readonly [Vec2, string])[] = [
    [d, 'base'],
    [a, 'entry'],
    [b, 'rim'],
    [c, 'exit'],
  ];
  const outline = all.flatMap(([at, edge], k): Vertex[] => {
    const [next] = all[(k + 1) % all.length] as readonly [Vec2, string];
    const isNone = Math.hypot(next[0] - at[0], next[1] - at[1]) < SAME_POINT_MM;
    return isNone ? [] : [{ x: at[0], y: at[1], bulge: 0, edge }];
  });
  return {
    name: facetName(strip.bay, i),
    outline,
    pose: { ...frame, o: point(frame, [0, 0], -strip.sheet.thicknessMm) },
  };
};

/** `wall 2`, or `wall 2 a` and `wall 2 b` where it is creased. */
export const facetName = (bay: Bay, i: number): string => {
  const { side } = facetOf(bay, i);
  const isCreased = bay.facets.filter((facet) => facet.side === side).length > 1;
  const half = facetOf(bay, i - 1).side === side ? 'b' : 'a';
  return isCreased ? `wall ${side + 1} ${half}` : `wall ${side + 1}`;
};

/** The station at which the inside of a blank ends that stays the gap off a plane across the stations. */
export const endMm = (
  bay: Bay,
  chain: Chain,
  sheet: Sheet,
  atMm: number,
  gapMm: number,
  end: 'near' | 'far',
): number => {
  const way = end === 'near' ? 1 : -1;
  // A wall that is cut square and leans comes nearest with its outside.
  const lean = chain.map((i) => way * facetOf(bay, i).plane.normal[0]);
  return atMm + way * (gapMm + sheet.thicknessMm * Math.max(0, ...lean));
};
