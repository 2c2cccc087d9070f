import { FillRule, intersectD, type PathD } from 'clipper2-ts';
import type { Loop } from '../../src/geometry/loop.ts';
import type { FlatBend, FlatPattern } from '../../src/model/flat.ts';
import {
  between,
  type Box,
  boxRound,
  type Convex,
  type Flat,
  insetPieces,
  kept,
  type Place,
  type Vec,
} from './replay-solid-convex.ts';

/** A piece of the sheet, where it lies in the blank. */
export interface Metal {
  readonly name: string;
  /**
   * How far bent metal stands out over the chord between its tangent lines, (r + t) (1 - cos(A/2));
   * 0 where it is flat. The planner leaves it out, and so it may reach so far into something, on
   * its inside into square ends of tools.
   */
  readonly roundMm: number;
  /** All of it lies in there. */
  readonly box: Box;
  /** The bodies of it less so much all round, but never less than its middle. */
  readonly less: (mm: number) => readonly Convex[];
}

/** How a fold stands. */
export interface Stance {
  readonly deg: number;
  /** How much of the blank is bent: half of it on either side of the middle of the fold. */
  readonly bentMm: number;
}

export const FLAT: Stance = { deg: 0, bentMm: 0 };

/**
 * What a fold has been turned by to some angle: as large a share of its allowance is bent as of its
 * angle.
 */
export const bentTo = (bend: FlatBend, deg: number): Stance => ({
  deg,
  bentMm: (bend.allowanceMm * deg) / bend.angleDeg,
});

/**
 * Seen along a fold from one of its sides: from the middle of the bend over to the other, and from
 * the outside face inwards.
 */
export type Section = (over: number, height: number) => Flat;

/**
 * A point beyond a bend that stands so, as the near side sees it: turned about the axis of the
 * bend, which lies over the near tangent line. A point within the bend lies beyond a share of it.
 */
export const beyond = (
  { deg, bentMm }: Stance,
  insideRadiusMm: number,
  t: number,
  share = 1,
): Section => {
  const rad = (deg * share * Math.PI) / 180;
  const [c, s, axis] = [Math.cos(rad), Math.sin(rad), t + insideRadiusMm];
  return (over, height) => {
    const [e, h] = [over + bentMm * (0.5 - share), height - axis];
    return [e * c - h * s - bentMm / 2, e * s + h * c + axis];
  };
};

/**
 * Where a fold lies in the blank: a point in the middle of the bend, along it, and over to the
 * child.
 */
interface Line {
  readonly at: Flat;
  readonly along: Flat;
  readonly out: Flat;
}

export const lineOf = ({ parentTangent: [[ax, ay], [bx, by]], allowanceMm }: FlatBend): Line => {
  const length = Math.hypot(bx - ax, by - ay);
  const along: Flat = [(bx - ax) / length, (by - ay) / length];
  // The parent lies to the left of its tangent line.
  const out: Flat = [along[1], -along[0]];
  return { at: [ax + (out[0] * allowanceMm) / 2, ay + (out[1] * allowanceMm) / 2], along, out };
};

/** Along a fold, over to the side of the given sign (1 the child), and up from the outside face. */
const seen = (
  { at, along, out }: Line,
  sign: 1 | -1,
  isUp: boolean,
  t: number,
  [x, y, z]: Vec,
): Vec => {
  const [dx, dy] = [x - at[0], y - at[1]];
  return [dx * along[0] + dy * along[1], sign * (dx * out[0] + dy * out[1]), isUp ? z : t - z];
};

const unseen = (
  { at, along, out }: Line,
  sign: 1 | -1,
  isUp: boolean,
  t: number,
  [u, v, h]: Vec,
): Vec => [
  at[0] + along[0] * u + sign * out[0] * v,
  at[1] + along[1] * u + sign * out[1] * v,
  isUp ? h : t - h,
];

/**
 * Takes points of the blank beyond a fold to where they are, as the panel on this side of it lies
 * in the blank.
 */
export const overFold = (
  bend: FlatBend,
  t: number,
  isToChild: boolean,
  section: Section,
): Place => {
  const line = lineOf(bend);
  const [sign, isUp] = [isToChild ? 1 : -1, bend.direction === 'up'] as const;
  return (p) => {
    const [u, v, h] = seen(line, sign, isUp, t, p);
    const [v2, h2] = section(v, h);
    return unseen(line, sign, isUp, t, [u, v2, h2]);
  };
};

/**
 * Takes points of the blank on the near side of a fold to the machine: x over the fold, y up, z
 * along it, the middle of the fold at z = 0.
 */
export const ontoMachine = (
  bend: FlatBend,
  t: number,
  isParentClamped: boolean,
  section: Section,
): Place => {
  const line = lineOf(bend);
  const isUp = bend.direction === 'up';
  const [[px, py], [qx, qy]] = bend.centreLine;
  const sense = isParentClamped === isUp ? -1 : 1;
  const middle = seen(line, 1, isUp, t, [(px + qx) / 2, (py + qy) / 2, 0])[0];
  return (p) => {
    const [u, v, h] = seen(line, isParentClamped ? 1 : -1, isUp, t, p);
    const [x, y] = section(v, h);
    return [x, y, sense * (u - middle)];
  };
};

const CHORD_RAD = Math.PI / 12;

/** Corners of a loop that was moved to the drawing; arcs in chords. */
const pathOf = (loop: Loop, [c, s, x, y]: readonly [number, number, number, number]): PathD =>
  loop.flatMap((v, i) => {
    const w = loop[(i + 1) % loop.length] as Loop[number];
    const sweep = 4 * Math.atan(v.bulge);
    const count = v.bulge === 0 ? 1 : Math.ceil(Math.abs(sweep) / CHORD_RAD);
    // The middle of the arc lies so far left of its chord, in halves of it, as the cotangent of
    // half its sweep says.
    const cot = v.bulge === 0 ? 0 : 1 / Math.tan(sweep / 2);
    const [mx, my] = [
      (v.x + w.x) / 2 - ((w.y - v.y) / 2) * cot,
      (v.y + w.y) / 2 + ((w.x - v.x) / 2) * cot,
    ];
    return Array.from({ length: count }, (_, k) => {
      const [a, b] = [Math.cos((k * sweep) / count), Math.sin((k * sweep) / count)];
      const [px, py] =
        k === 0
          ? [v.x, v.y]
          : [mx + a * (v.x - mx) - b * (v.y - my), my + b * (v.x - mx) + a * (v.y - my)];
      return { x: c * px - s * py + x, y: s * px + c * py + y };
    });
  });

/** What is left of the thickness where more than half of it would go, mm. */
const LEAST_MM = 0.02;

const skinOf = (mm: number, t: number): number => Math.min(mm, (t - LEAST_MM) / 2);

/** The flat metal of a panel. */
export const panelMetal = (flat: FlatPattern, id: string): Metal => {
  const {
    region,
    placement: { c, s, x, y },
  } = flat.panels.find((p) => p.id === id) as FlatPattern['panels'][number];
  const path = pathOf(region, [c, s, x, y]);
  const t = flat.thicknessMm;
  return metalOf(id, 0, (mm) =>
    insetPieces(path, mm).map((piece) => slab(piece, (p) => p, skinOf(mm, t), t)),
  );
};

/** Slivers that cutting leaves are no metal. */
const LEAST_AREA_MM2 = 1e-4;

const areaOf = (piece: readonly Flat[]): number =>
  piece.reduce(
    (sum, [x, y], i) =>
      sum +
      (x * (piece[(i + 1) % piece.length] as Flat)[1] -
        y * (piece[(i + 1) % piece.length] as Flat)[0]) /
        2,
    0,
  );

const slab = (piece: readonly Flat[], place: Place, skin: number, t: number): Convex =>
  between(
    piece.map(([x, y]) => place([x, y, skin])),
    piece.map(([x, y]) => place([x, y, t - skin])),
  );

/** Remembers what it was asked before. */
export const remembered = <T>(find: (mm: number) => T): ((mm: number) => T) => {
  const known = new Map<number, T>();
  return (mm) => {
    const found = known.get(mm) ?? find(mm);
    known.set(mm, found);
    return found;
  };
};

/** A bend is cut into slices of no more than this. */
const SLICE_DEG = 15;

/**
 * The metal of a bend, bent as it stands, as the parent sees it: what the outline of the blank
 * leaves between the tangent lines.
 */
export const bendMetal = (flat: FlatPattern, bend: FlatBend, { deg, bentMm }: Stance): Metal => {
  const { thicknessMm: t, outline } = flat;
  const [line, isUp, half] = [lineOf(bend), bend.direction === 'up', bend.allowanceMm / 2];
  const strip = intersectD(
    [[...bend.parentTangent, ...bend.childTangent.toReversed()].map(([x, y]) => ({ x, y }))],
    [pathOf(outline, [1, 0, 0, 0])],
    FillRule.NonZero,
    6,
  );
  const count = Math.max(1, Math.ceil(deg / SLICE_DEG));
  const cuts = [
    -half,
    ...Array.from({ length: count + 1 }, (_, k) => bentMm * (k / count - 0.5)),
    half,
  ];
  const over = (p: Flat): number => seen(line, 1, isUp, t, [...p, 0])[1];
  const slices = (piece: readonly Flat[]): (readonly Flat[])[] =>
    cuts.slice(1).map((to, k) =>
      kept(
        kept(piece, (p) => over(p) - (cuts[k] as number)),
        (p) => to - over(p),
      ),
    );
  const bent: Place = (p) => {
    const [u, v, h] = seen(line, 1, isUp, t, p);
    const share = bentMm === 0 ? Number(v > 0) : Math.min(1, Math.max(0, v / bentMm + 0.5));
    const [v2, h2] = beyond({ deg, bentMm }, bend.insideRadiusMm, t, share)(v, h);
    return unseen(line, 1, isUp, t, [u, v2, h2]);
  };
  const less = (mm: number): Convex[] =>
    strip
      .flatMap((piece) => insetPieces(piece, mm))
      .flatMap(slices)
      .filter((piece) => areaOf(piece) > LEAST_AREA_MM2)
      .map((piece) => slab(piece, bent, skinOf(mm, t), t));
  return metalOf(
    `bend ${bend.id}`,
    (bend.insideRadiusMm + t) * (1 - Math.cos((deg * Math.PI) / 360)),
    less,
  );
};

const metalOf = (
  name: string,
  roundMm: number,
  bodies: (mm: number) => readonly Convex[],
): Metal => {
  const less = remembered(bodies);
  return { name, roundMm, box: boxRound(less(0).flatMap((body) => [body.low, body.high])), less };
};
