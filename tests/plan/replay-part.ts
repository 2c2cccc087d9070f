import type { CasePart } from './cases.ts';

export type Point3 = readonly [number, number, number];

/** A panel piece in space. */
export interface Posed {
  readonly panel: string;
  readonly corners: readonly Point3[];
}

/** The part on the machine: x from the clamped side over the fold, y up, z along the fold. */
export interface Laid {
  readonly still: readonly Posed[];
  readonly moving: readonly Posed[];
  /** Stretches of the fold lines along z. */
  readonly lines: readonly (readonly [number, number])[];
}

const add = (a: Point3, b: Point3, k = 1): Point3 => [
  a[0] + k * b[0],
  a[1] + k * b[1],
  a[2] + k * b[2],
];
const dot = (a: Point3, b: Point3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Point3, b: Point3): Point3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Rodrigues' formula, about a line. */
const turn = (p: Point3, at: Point3, axis: Point3, deg: number): Point3 => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const v = add(p, at, -1);
  const along = dot(axis, v) * (1 - c);
  const w = cross(axis, v);
  return add(at, [
    c * v[0] + s * w[0] + along * axis[0],
    c * v[1] + s * w[1] + along * axis[1],
    c * v[2] + s * w[2] + along * axis[2],
  ]);
};

type Bend = CasePart['bends'][number];

/** The axis about which the child turns up by a positive angle. */
const axisOf = (part: CasePart, bend: Bend): { at: Point3; axis: Point3; out: Point3 } => {
  const [[ax, ay], [bx, by]] = bend.line as [readonly [number, number], readonly [number, number]];
  const length = Math.hypot(bx - ax, by - ay);
  const axis: Point3 = [(bx - ax) / length, (by - ay) / length, 0];
  const corners = part.panels.find((p) => p.id === bend.child)?.pieces.flat() ?? [];
  const mean = corners.reduce((sum, [x, y]) => sum + (axis[0] * (y - ay) - axis[1] * (x - ax)), 0);
  const sign = mean > 0 ? 1 : -1;
  return {
    at: [(ax + bx) / 2, (ay + by) / 2, 0],
    axis: [sign * axis[0], sign * axis[1], 0],
    out: [-sign * axis[1], sign * axis[0], 0],
  };
};

/**
 * Lays the part on the machine with the bends of `angles` turned. Every point is turned about the
 * lines of the blank, from its own panel down to the root, and then seen from the clamped panel.
 */
export const lay = (
  part: CasePart,
  angles: ReadonlyMap<string, number>,
  stroke: readonly string[],
  clamped: 'parent' | 'child',
): Laid => {
  const into = new Map(part.bends.map((b) => [b.child, b]));
  const pose = (panel: string, p: Point3): Point3 => {
    const bend = into.get(panel);
    if (bend === undefined) return p;
    const { at, axis } = axisOf(part, bend);
    return pose(bend.parent, turn(p, at, axis, angles.get(bend.id) ?? 0));
  };
  const first = part.bends.find((b) => b.id === stroke[0]) as Bend;
  const { at, out } = axisOf(part, first);
  const home = clamped === 'parent' ? first.parent : first.child;
  const o = pose(home, at);
  const over: Point3 = clamped === 'parent' ? out : [-out[0], -out[1], 0];
  const x = add(pose(home, add(at, over)), o, -1);
  const y = add(pose(home, add(at, [0, 0, first.angle_deg > 0 ? 1 : -1])), o, -1);
  const z = cross(x, y);
  const seen = (panel: string, p: Point3): Point3 => {
    const v = add(pose(panel, p), o, -1);
    return [dot(v, x), dot(v, y), dot(v, z)];
  };
  const side = sidesOf(part, stroke, home);
  const posed = part.panels.flatMap((p) =>
    p.pieces.map((piece): Posed => ({
      panel: p.id,
      corners: piece.map(([u, v]) => seen(p.id, [u, v, 0])),
    })),
  );
  return {
    still: posed.filter((p) => side.get(p.panel) === 0),
    moving: posed.filter((p) => side.get(p.panel) === 1),
    lines: stroke.map((id) => {
      const bend = part.bends.find((b) => b.id === id) as Bend;
      const ends = bend.line.map(
        ([u, v]) => seen(side.get(bend.parent) === 0 ? bend.parent : bend.child, [u, v, 0])[2],
      );
      return [Math.min(...ends), Math.max(...ends)] as const;
    }),
  };
};

/** 0 for what stays with the clamped panel, 1 for what swings. */
const sidesOf = (
  part: CasePart,
  stroke: readonly string[],
  home: string,
): ReadonlyMap<string, number> => {
  const side = new Map([[home, 0]]);
  for (let size = 0; size < side.size;) {
    size = side.size;
    for (const { id, parent, child } of part.bends) {
      const over = stroke.includes(id) ? 1 : 0;
      const [a, b] = [side.get(parent), side.get(child)];
      if (a !== undefined && b === undefined) side.set(child, a ^ over);
      if (b !== undefined && a === undefined) side.set(parent, b ^ over);
    }
  }
  return side;
};

/** Points all over a piece, no further apart than `apart` in the directions of `seen`. */
export const samples = (
  { corners }: Posed,
  apart: number,
  seen: (v: Point3) => number,
): Point3[] => {
  const points: Point3[] = [];
  const a = corners[0] as Point3;
  for (let i = 1; i + 1 < corners.length; i++) {
    const [u, v] = [add(corners[i] as Point3, a, -1), add(corners[i + 1] as Point3, a, -1)];
    const n = Math.max(1, Math.ceil(Math.max(seen(u), seen(v), seen(add(u, v, -1))) / apart));
    for (let j = 0; j <= n; j++)
      for (let k = 0; j + k <= n; k++) points.push(add(add(a, u, j / n), v, k / n));
  }
  return points;
};

/**
 * Whether two flat pieces cross by more than `slack` mm: an edge of one, that much shorter all
 * round, pierces the other.
 */
export const cross3d = (a: Posed, b: Posed, slack: number): boolean =>
  pierces(a, b, slack) || pierces(b, a, slack);

const pierces = (a: Posed, b: Posed, slack: number): boolean => {
  const [o, p] = b.corners as [Point3, Point3];
  const normal = b.corners.reduce<Point3>(
    (n, c, i) =>
      add(n, cross(add(c, o, -1), add(b.corners[(i + 1) % b.corners.length] as Point3, o, -1))),
    [0, 0, 0],
  );
  const size = Math.hypot(...normal);
  if (size === 0 || p === undefined) return false;
  const n: Point3 = [normal[0] / size, normal[1] / size, normal[2] / size];
  return a.corners.some((from, i) => {
    const to = a.corners[(i + 1) % a.corners.length] as Point3;
    const [s, e] = [dot(n, add(from, o, -1)), dot(n, add(to, o, -1))];
    if (Math.min(s, e) > -slack || Math.max(s, e) < slack) return false;
    const hit = add(from, add(to, from, -1), s / (s - e));
    return b.corners.every((c, k) => {
      const edge = add(b.corners[(k + 1) % b.corners.length] as Point3, c, -1);
      return dot(n, cross(edge, add(hit, c, -1))) / Math.hypot(...edge) > slack;
    });
  });
};
