import type { FlatBend, FlatPattern } from '../../src/model/flat.ts';
import type { AskedMeasure, Place as Spot } from '../../src/contract/asked.ts';
import { foldedPlaces, type Place } from './witness.ts';

/** What went wrong when a blank was cut and folded. */
export interface Misfold {
  readonly thickness: number;
  readonly k: number;
  readonly radius: number;
  /** Errors by fold: how far its line was off, to the left of its direction, and its angle. */
  readonly lands: ReadonlyMap<string, number>;
  readonly angle: ReadonlyMap<string, number>;
  /**
   * How far the point at the end of a measure was cut off its place, on the blank, for the first
   * and the second end.
   */
  readonly cut: readonly [readonly [number, number], readonly [number, number]];
}

type Vec = readonly [number, number, number];

const sub = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const norm = (a: Vec): number => Math.hypot(...a);

/**
 * The same blank, folded with these errors: the metal of a bend is as long as its neutral line,
 * about the line at which it is folded.
 */
const misfolded = (flat: FlatPattern, off: Misfold): FlatPattern => ({
  ...flat,
  thicknessMm: flat.thicknessMm + off.thickness,
  bends: flat.bends.map((bend) => {
    const {
      parentTangent: [[ax, ay], [bx, by]],
      allowanceMm: before,
      angleDeg,
    } = bend;
    const turned = angleDeg + (off.angle.get(bend.id) ?? 0);
    const insideRadiusMm = bend.insideRadiusMm + off.radius;
    const rad = (turned * Math.PI) / 180;
    // Allowance by the rule: K t' + r', times A.
    const allowanceMm =
      rad * (insideRadiusMm + (bend.kFactor + off.k) * (flat.thicknessMm + off.thickness));
    const l = Math.hypot(bx - ax, by - ay);
    const out = [(by - ay) / l, -(bx - ax) / l] as const;
    const shift = (before - allowanceMm) / 2 + (off.lands.get(bend.id) ?? 0);
    const moved = ([x, y]: readonly [number, number]): [number, number] => [
      x + out[0] * shift,
      y + out[1] * shift,
    ];
    return {
      ...bend,
      angleDeg: turned,
      insideRadiusMm,
      allowanceMm,
      parentTangent: [moved([ax, ay]), moved([bx, by])],
    };
  }),
});

/**
 * A measure of a badly folded blank, in space: between centres of holes, cut edges and mould lines.
 * A mould line is the line in which two faces meet, or past square the line that the bend's face
 * reaches farthest to.
 */
export const measuredMisfold = (
  flat: FlatPattern,
  root: string,
  measure: 'outside' | 'inside',
  m: AskedMeasure,
  off: Misfold,
): number => {
  const bad = misfolded(flat, off);
  const places = foldedPlaces(bad, root);
  const height = m.heightMm === undefined || m.heightMm === 0 ? 0 : bad.thicknessMm;
  const [a, b] = m.between.map((spot, i) =>
    inSpace(bad, places, measure, spot, off.cut[i] as readonly [number, number], height),
  );
  if (a === undefined || b === undefined) throw new Error(m.name);
  return a.dir !== undefined ? fromLine(b.at, a) : fromLine(a.at, b);
};

interface Found {
  readonly at: Vec;
  readonly dir?: Vec;
}

const fromLine = (p: Vec, { at, dir }: Found): number =>
  dir === undefined ? norm(sub(p, at)) : norm(cross(sub(p, at), dir)) / norm(dir);

const inSpace = (
  flat: FlatPattern,
  places: ReadonlyMap<string, Place>,
  measure: 'outside' | 'inside',
  spot: Spot,
  cut: readonly [number, number],
  height: number,
): Found => {
  const panelOf = (name: string): Place => places.get(name) as Place;
  switch (spot.kind) {
    case 'centre': {
      const hole = flat.cutouts[spot.of];
      if (hole?.kind !== 'round') throw new Error('only round holes are measured');
      return {
        at: panelOf(spot.panel)([hole.centre[0] + cut[0], hole.centre[1] + cut[1], height]),
      };
    }
    case 'edge': {
      const [[ax, ay], [bx, by]] = [spot.from, spot.to];
      const l = Math.hypot(bx - ax, by - ay);
      // Errors of an edge count only square to it.
      const n = [-(by - ay) / l, (bx - ax) / l] as const;
      const [at, end] = [
        [ax, ay],
        [bx, by],
      ].map(([x, y]) =>
        panelOf(spot.panel)([(x as number) + n[0] * cut[0], (y as number) + n[1] * cut[0], 0]),
      ) as unknown as [Vec, Vec];
      return { at, dir: sub(end, at) };
    }
    case 'mould': {
      const bend = flat.bends.find((b) => b.id === spot.fold);
      if (bend === undefined) throw new Error(spot.fold);
      const z = (bend.direction === 'up') === (measure === 'outside') ? 0 : flat.thicknessMm;
      if (bend.angleDeg > 90)
        return farthestOnPanel(
          flat,
          bend,
          panelOf(bend.parent),
          panelOf(spot.panel),
          spot.panel === bend.parent,
          measure,
        );
      return meetOnPanel(panelOf(spot.panel), panelOf(bend.parent), panelOf(bend.child), z);
    }
    default:
      throw new Error(`${spot.kind} is not measured`);
  }
};

/** The radius of the measured face beyond the axis of the bend, seen from the panel. */
const farthestOnPanel = (
  { thicknessMm: t }: FlatPattern,
  bend: FlatBend,
  parent: Place,
  on: Place,
  isParent: boolean,
  measure: 'outside' | 'inside',
): Found => {
  const {
    parentTangent: [[ax, ay], [bx, by]],
    insideRadiusMm: r,
  } = bend;
  const l = Math.hypot(bx - ax, by - ay);
  const axis = parent([ax, ay, bend.direction === 'up' ? t + r : -r]);
  const dir = sub(parent([bx, by, 0]), parent([ax, ay, 0]));
  const side = isParent ? 1 : -1;
  const out = sub(on([(side * (by - ay)) / l, (-side * (bx - ax)) / l, 0]), on([0, 0, 0]));
  const up = sub(on([0, 0, 1]), on([0, 0, 0]));
  const level = dot(up, sub(axis, on([0, 0, 0])));
  const reach = r + (measure === 'outside' ? t : 0);
  return {
    at: [0, 1, 2].map(
      (i) => (axis[i] as number) - (up[i] as number) * level + (out[i] as number) * reach,
    ) as unknown as Vec,
    dir,
  };
};

/**
 * The line in which two faces meet, given by a point of it moved to the lower face of the panel on
 * which it is measured.
 */
const meetOnPanel = (on: Place, one: Place, other: Place, z: number): Found => {
  const plane = (place: Place): { at: Vec; n: Vec } => {
    const at = place([0, 0, z]);
    return { at, n: sub(place([0, 0, z + 1]), at) };
  };
  const [p, q] = [plane(one), plane(other)];
  const dir = cross(p.n, q.n);
  const [cp, cq] = [dot(p.n, p.at), dot(q.n, q.at)];
  const [u, v] = [cross(q.n, dir), cross(dir, p.n)];
  const at = [0, 1, 2].map(
    (i) => (cp * (u[i] as number) + cq * (v[i] as number)) / dot(dir, dir),
  ) as unknown as Vec;
  const up = sub(on([0, 0, 1]), on([0, 0, 0]));
  const level = dot(up, sub(at, on([0, 0, 0])));
  return { at: [at[0] - up[0] * level, at[1] - up[1] * level, at[2] - up[2] * level], dir };
};
