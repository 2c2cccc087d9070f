import type { Loop } from '../geometry/loop.ts';
import { pieceOf, piecesOf } from '../geometry/piece.ts';
import { distance, middle, sub, type Vec2 } from '../geometry/vec2.ts';
import type { Asked } from './asked.ts';
import { centroidOf } from './centroid.ts';
import type { Contour, Sheet } from './contours.ts';
import { distancesFrom, fromPiece, markersOf } from './near.ts';

/** How the blank lies in a file: mirrored in its y axis or not, then turned, enlarged and shifted. */
export interface Alignment {
  readonly mirrored: boolean;
  /** Cosine and sine of the turn, times the scale. */
  readonly a: number;
  readonly b: number;
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

export const AS_MADE: Alignment = { mirrored: false, a: 1, b: 0, x: 0, y: 0, scale: 1 };

export const placed = ({ mirrored, a, b, x, y }: Alignment, [px, py]: Vec2): Vec2 => {
  const u = mirrored ? -px : px;
  return [a * u - b * py + x, b * u + a * py + y];
};

export const placedVector = ({ mirrored, a, b }: Alignment, [px, py]: Vec2): Vec2 => {
  const u = mirrored ? -px : px;
  return [a * u - b * py, b * u + a * py];
};

/** Lines nearer than this to where they were made count as found, mm. */
const FOUND_MM = 0.01;

/** What is looked for: points of the outline, middles of holes and of fold lines. */
interface Features {
  readonly outline: readonly Vec2[];
  readonly holes: readonly Vec2[];
  readonly folds: readonly Vec2[];
}

/**
 * How the blank lies in the file. As it was made, if everything lies there; else the placing that explains most of what
 * the file holds: one that only shifts and turns it is harmless, one that enlarges or mirrors it is an accident.
 */
export const align = (asked: Asked, outline: Contour, sheet: Sheet): Alignment => {
  const made = loopOf(asked.cut.outline);
  const features: Features = {
    outline: markersOf(made),
    holes: asked.cut.holes.map((h) => centroidOf(loopOf(h))),
    folds: asked.bends.map((b) => middle(...b.centreLine)),
  };
  const all = features.outline.length + features.holes.length + features.folds.length;
  let best = { to: AS_MADE, score: found(features, outline.loop, sheet, AS_MADE, 0) };
  if (best.score === all) return AS_MADE;
  // A placing that explains only a little more than lying as made does hides an edit.
  const threshold = Math.min(all, best.score + Math.max(2, all / 20));
  for (const to of candidates(made, outline.loop, features, sheet)) {
    const score = found(features, outline.loop, sheet, to, Math.min(all, Math.max(threshold, best.score + 1)));
    if (score === all && !to.mirrored) return to;
    if (score > best.score && score >= threshold) best = { to, score };
  }
  return best.to;
};

export const loopOf = (vertices: readonly (readonly [number, number, number])[]): Loop => vertices.map(([x, y, bulge]) => ({ x, y, bulge }));

/** How much of what is looked for lies where a placing says; given up as soon as `least` is out of reach. */
const found = (features: Features, outline: Loop, sheet: Sheet, to: Alignment, least: number): number => {
  const near = FOUND_MM * Math.max(1, to.scale);
  let reachable = features.outline.length + features.holes.length + features.folds.length;
  const count = (points: readonly Vec2[], far: (p: Vec2) => number): void => {
    for (const p of points) {
      if (reachable < least) return;
      if (!(far(placed(to, p)) < near)) reachable -= 1;
    }
  };
  count(features.outline, distancesFrom(outline, near / 2));
  count(features.holes, (p) => Math.min(Infinity, ...sheet.holes.map((h) => distance(h.circle?.centre ?? centroidOf(h.loop), p))));
  count(features.folds, (p) => Math.min(Infinity, ...sheet.folds.map((f) => fromPiece(p, { from: f.from, to: f.to, bulge: 0 }))));
  return reachable;
};

/** Placings that lay one of the longest pieces of the blank's outline, or two of its middles, onto those of the file. */
function* candidates(made: Loop, outline: Loop, features: Features, sheet: Sheet): Generator<Alignment> {
  const pieces = piecesOf(made).sort((p, q) => distance(q.from, q.to) - distance(p.from, p.to)).slice(0, MOST_PIECES);
  for (const p of pieces) {
    for (let i = 0; i < outline.length; i++) {
      const q = pieceOf(outline, i);
      if (Math.abs(p.bulge - q.bulge) > 1e-4) continue;
      yield onto([p.from, p.to], [q.from, q.to], false);
      // Mirrored, an outline that still runs counter-clockwise is gone round the other way.
      yield onto([p.from, p.to], [q.to, q.from], true);
    }
  }
  const [from, others] = [centroidOf(made), centroidOf(outline)];
  for (const hole of features.holes.slice(0, MOST_PIECES)) {
    for (const h of sheet.holes) {
      const at = h.circle?.centre ?? centroidOf(h.loop);
      if (distance(from, hole) < 1 || distance(others, at) < 1e-3) continue;
      yield onto([from, hole], [others, at], false);
      yield onto([from, hole], [others, at], true);
    }
  }
}

const MOST_PIECES = 3;

/** The placing that takes two points to two others. */
const onto = ([p, q]: readonly [Vec2, Vec2], [u, v]: readonly [Vec2, Vec2], mirrored: boolean): Alignment => {
  const [d, e] = [sub(q, p), sub(v, u)];
  const [dx, dy] = [mirrored ? -d[0] : d[0], d[1]];
  const size = dx * dx + dy * dy || 1;
  const [a, b] = [(e[0] * dx + e[1] * dy) / size, (e[1] * dx - e[0] * dy) / size];
  const [px, py] = [mirrored ? -p[0] : p[0], p[1]];
  return { mirrored, a, b, x: u[0] - a * px + b * py, y: u[1] - b * px - a * py, scale: Math.hypot(a, b) };
};
