import { rolledBody } from '../../fold/rolled-body.ts';
import { pieceOf } from '../../geometry/piece.ts';
import { posePoint } from '../../geometry/pose.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import {
  along3,
  cross3,
  dot3,
  length3,
  scale3,
  sub3,
  unit3,
  type Vec3,
} from '../../geometry/vec3.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Part } from '../../model/part.ts';
import { boxOf } from '../../paper/draw/view-direction.ts';
import type { LengthPlace } from '../../paper/draw/lettered-view.ts';
import type { MadePart } from '../made-part.ts';
import { SEEN_SQUARE } from './lettered-lengths.ts';
import { seatedPoses } from '../pack/space-dimensions.ts';

/** A part with more corners than this is round, and has no two that an input is told by. */
const MOST_CORNERS = 260;
/** Outside and inside of a side are two thicknesses apart at most, in both ends together. */
const THICKNESSES = 2.01;
/** Two corners that are moved apart by an input are so by this share of its change at least. */
const FOLLOWING_SHARE = 0.02;

/**
 * The pairs of corners of a piece that are as far apart as a length says, and go on being so when it
 * is changed: for measures that a family states in no other way. `changed` is the piece made with the
 * length longer by `byMm`.
 */
export const cornerLengths = (
  one: MadePart,
  changed: MadePart,
  lengthMm: number,
  byMm: number,
): LengthPlace[] => {
  const [before, after] = [cornersOf(one), cornersOf(changed)];
  if (before.length !== after.length || before.length > MOST_CORNERS) return [];
  const slack = THICKNESSES * (one.part?.thicknessMm ?? 0);
  const found: { readonly place: LengthPlace; readonly off: number }[] = [];
  for (let i = 0; i < before.length; i++)
    for (let j = i + 1; j < before.length; j++) {
      const [p, q] = [before[i] as Vec3, before[j] as Vec3];
      const d = length3(sub3(q, p));
      const off = Math.abs(d - lengthMm);
      if (off > slack) continue;
      const grown = length3(sub3(after[j] as Vec3, after[i] as Vec3)) - d;
      if (Math.abs(grown - byMm) > FOLLOWING_SHARE * byMm) continue;
      found.push({ place: { from: p, to: q, aside: asides(before, p, unit3(sub3(q, p))) }, off });
    }
  if (found.length === 0)
    return (
      [
        acrossBox(before, after, lengthMm, byMm, slack),
        acrossEnds(lowerFaces(before), lowerFaces(after), lengthMm, byMm, slack),
      ].find((places) => places.length > 0) ?? []
    );
  const least = Math.min(...found.map(({ off }) => off));
  return found.filter(({ off }) => off < least + NEAREST_MM).map(({ place }) => place);
};

/** Pairs that miss the length by more than the best one, mm, are the other face of the sheet. */
const NEAREST_MM = 0.05;

/** Along the edges of the level box round a piece, where that is as long as asked for and follows. */
const acrossBox = (
  before: readonly Vec3[],
  after: readonly Vec3[],
  lengthMm: number,
  byMm: number,
  slack: number,
): LengthPlace[] => {
  const [[low, high], [low2, high2]] = [boxOf(before), boxOf(after)];
  return ([0, 1, 2] as const).flatMap((axis): LengthPlace[] => {
    const d = high[axis] - low[axis];
    const grown = high2[axis] - low2[axis] - d;
    if (Math.abs(d - lengthMm) > slack || Math.abs(grown - byMm) > FOLLOWING_SHARE * byMm)
      return [];
    const others = ([0, 1, 2] as const).filter((k) => k !== axis);
    return [0, 1, 2, 3].map((corner) => {
      const at = (end: Vec3): Vec3 =>
        [0, 1, 2].map((k) => {
          if (k === axis) return end[k] as number;
          const isHigh = ((corner >> others.indexOf(k as 0 | 1 | 2)) & 1) === 1;
          return (isHigh ? high : low)[k] as number;
        }) as unknown as Vec3;
      return { from: at(low), to: at(high), aside: AXES.flatMap(bothWays) };
    });
  });
};

/**
 * Square to an end of a piece that three of its corners span and none lies beyond: from one end of a
 * duct to the other, however the piece lies.
 */
const acrossEnds = (
  before: readonly Vec3[],
  after: readonly Vec3[],
  lengthMm: number,
  byMm: number,
  slack: number,
): LengthPlace[] => {
  for (let i = 0; i < before.length; i++)
    for (let j = i + 1; j < before.length; j++)
      for (let k = j + 1; k < before.length; k++) {
        const end = endAt(before, [i, j, k]);
        if (end === undefined || Math.abs(end.longMm - lengthMm) > slack) continue;
        const next = endAt(after, [i, j, k]);
        const grown = (next?.longMm ?? 0) - end.longMm;
        if (Math.abs(grown - byMm) > FOLLOWING_SHARE * byMm) continue;
        return end.corners.map((from) => ({
          from,
          to: along3(from, end.way, end.longMm),
          aside: asides(before, from, end.way),
        }));
      }
  return [];
};

/** Corners so near to the plane of an end lie in it, mm. */
const IN_END_MM = 0.05;

interface End {
  /** Square to it, into the piece. */
  readonly way: Vec3;
  /** How far the piece goes from it. */
  readonly longMm: number;
  readonly corners: readonly Vec3[];
}

const endAt = (
  points: readonly Vec3[],
  three: readonly [number, number, number],
): End | undefined => {
  const [o, p, q] = three.map((at) => points[at]) as [Vec3, Vec3, Vec3];
  const out = cross3(sub3(p, o), sub3(q, o));
  if (length3(out) < 1) return undefined;
  const way = unit3(out);
  const heights = points.map((each) => dot3(sub3(each, o), way));
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  if (low < -IN_END_MM && high > IN_END_MM) return undefined;
  return {
    way: high > IN_END_MM ? way : scale3(way, -1),
    longMm: high - low,
    corners: points.filter((_, i) => Math.abs(heights[i] as number) < IN_END_MM),
  };
};

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

const bothWays = (v: Vec3): Vec3[] => [v, [-v[0], -v[1], -v[2]]];

/** Of corners through the sheet those of one face. */
const lowerFaces = (corners: readonly Vec3[]): readonly Vec3[] =>
  corners.filter((_, i) => i % 2 === 0);

/** Corner by corner, of both faces of the sheet. */
const cornersOf = ({ part, flat, stopped }: MadePart): Vec3[] => {
  if (stopped || part === undefined || flat === undefined) return [];
  const poses = seatedPoses(part, flat);
  return panelCorners(part, flat).flatMap(({ id, corners }) => {
    const pose = poses.get(id);
    return pose === undefined
      ? []
      : corners.flatMap(([x, y]) => [0, part.thicknessMm].map((z) => posePoint(pose, [x, y, z])));
  });
};

interface PanelCorners {
  readonly id: string;
  readonly corners: readonly Vec2[];
}

/** A rolled wall has corners at the ends of some of its lines: enough to see how wide it is. */
const ROUND_PLACES = 8;

const panelCorners = (part: Part, flat: FlatPattern): PanelCorners[] => {
  const body = rolledBody(part, flat);
  const own = new Set(part.panels.map(({ id }) => id));
  const strips = body.part.panels.filter(({ id }) => !own.has(id));
  const every = Math.max(1, Math.floor(strips.length / ROUND_PLACES));
  return body.part.panels.flatMap(({ id, outline }, i): PanelCorners[] => {
    if (own.has(id)) return [{ id, corners: outline.map(({ x, y }): Vec2 => [x, y]) }];
    if (i % every !== 0) return [];
    const lines = outline.flatMap(({ edge }, at) =>
      edge?.startsWith('roll ') === true ? [pieceOf(outline, at)] : [],
    );
    return [{ id, corners: lines.flatMap(({ from, to }) => [from, to]) }];
  });
};

/** Directions from a corner to others that are square to a way, each to both sides. */
const asides = (corners: readonly Vec3[], from: Vec3, way: Vec3): Vec3[] => {
  const found: Vec3[] = [];
  for (const each of [...AXES, ...corners.map((c) => sub3(c, from))]) {
    const long = length3(each);
    if (long < 1) continue;
    const out = unit3(each);
    if (Math.abs(dot3(out, way)) > SEEN_SQUARE) continue;
    if (found.some((f) => Math.abs(dot3(f, out)) > 1 - SEEN_SQUARE)) continue;
    found.push(...bothWays(out));
    if (found.length >= MOST_WAYS) break;
  }
  return found;
};

const MOST_WAYS = 8;
