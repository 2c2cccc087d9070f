import type { FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import { foldedPlaces } from './witness.ts';

type Point = readonly [x: number, y: number, z: number];
type Both<T> = Readonly<Record<'A' | 'B', T>>;

/**
 * A strap as it stands: x along its folds from the left edge of foot A, y from the inside of side A
 * to side B, z up from the underside of foot A.
 */
export interface Strapped {
  /** Corners of the flat metal, each on the face that is meant. */
  readonly crownInside: readonly Point[];
  readonly sideInside: Both<readonly Point[]>;
  readonly under: Both<readonly Point[]>;
  /** Middles of the bolt holes, on the underside of the feet. */
  readonly bolt: Both<Point>;
  /** Takes a point of the flat blank (z over its lower face) on a panel to where it stands. */
  readonly stand: (panel: string, at: Point) => Point;
}

/** Folds the blank by the witness, and seats it on its foot A. */
export const strapStands = (part: Part, flat: FlatPattern): Strapped => {
  const places = foldedPlaces(flat, part.root);
  const raw = (panel: string, at: Point): Point => places.get(panel)?.(at) ?? [NaN, NaN, NaN];
  const corners = (panel: string): (readonly [number, number])[] => {
    const found = flat.panels.find((p) => p.id === panel);
    if (found === undefined) throw new Error(`no ${panel}`);
    const { c, s, x, y } = found.placement;
    return found.region.map((v) => [x + c * v.x - s * v.y, y + s * v.x + c * v.y]);
  };
  const face = (panel: string, z: number): Point[] =>
    corners(panel).map(([x, y]) => raw(panel, [x, y, z]));
  // Feet and crown are drawn one over the other, so x of the drawing runs along the folds of foot A.
  const foot = flat.panels.find((p) => p.id === 'foot A')?.placement;
  if (foot === undefined) throw new Error('no foot A');
  const [home, right, up] = (
    [
      [0, 0],
      [1, 0],
      [0, 1],
    ] as const
  ).map(([x, y]) =>
    raw('foot A', [foot.x + foot.c * x - foot.s * y, foot.y + foot.s * x + foot.c * y, 0]),
  ) as [Point, Point, Point];
  const over = raw('foot A', [foot.x, foot.y, 1]);
  const way = (p: Point): Point => [p[0] - home[0], p[1] - home[1], p[2] - home[2]];
  const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const axes = [way(right), way(up), way(over)] as const;
  const seated = (p: Point): Point => {
    const d = way(p);
    return [dot(d, axes[0]), dot(d, axes[1]), dot(d, axes[2])];
  };
  // The inside of side A is its lower face, as it lies in the drawing.
  const inside = seated(face('side A', 0)[0] as Point)[1];
  // The other hand is drawn on the other side of its origin.
  const left = Math.min(...face('foot A', 0).map((p) => seated(p)[0]));
  const place = (p: Point): Point => {
    const [x, y, z] = seated(p);
    return [x - left, y - inside, z];
  };
  const all = (panel: string, z: number): Point[] => face(panel, z).map(place);
  return {
    crownInside: all('crown', 0),
    sideInside: { A: all('side A', 0), B: all('side B', 0) },
    under: { A: all('foot A', 0), B: all('foot B', 0) },
    bolt: { A: place(middle(flat, 'foot A', raw)), B: place(middle(flat, 'foot B', raw)) },
    stand: (panel, at) => place(raw(panel, at)),
  };
};

/** The middle of a foot's hole: of a slot, that of its corners. */
const middle = (
  flat: FlatPattern,
  panel: string,
  raw: (panel: string, at: Point) => Point,
): Point => {
  const hole = flat.cutouts.find((c) => c.panel === panel && c.from.startsWith('boltHole'));
  if (hole === undefined) throw new Error(`no hole in ${panel}`);
  if (hole.kind === 'round') return raw(panel, [...hole.centre, 0]);
  const [xs, ys] = [hole.loop.map((v) => v.x), hole.loop.map((v) => v.y)];
  const mean = (all: readonly number[]): number => all.reduce((sum, n) => sum + n, 0) / all.length;
  return raw(panel, [mean(xs), mean(ys), 0]);
};
