import { BoxGrid, spot } from '../../geometry/box-grid.ts';
import { withChords } from '../../geometry/chords.ts';
import type { Loop } from '../../geometry/loop.ts';
import { pieceOf, piecesOf } from '../../geometry/piece.ts';
import { NEARLY_PARALLEL_SINE } from '../../geometry/tolerance.ts';
import { along, cross, dot, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatVertex } from '../../model/flat.ts';

/**
 * A straight edge of a blank, as a tape hooks on it or a straightedge lies along it: all pieces of
 * the outline on one line with the metal on the same side, however many notches and bends lie
 * between them. Pieces of reliefs do not count.
 */
export interface StraightEdge {
  /** First and last point of the metal along it, the metal on its left. */
  readonly from: Vec2;
  readonly to: Vec2;
  /** Unit vector from the one to the other. */
  readonly way: Vec2;
  /** Metal along it in all, and the longest run of it without a gap, mm. */
  readonly metalMm: number;
  readonly runMm: number;
  /** All of the blank lies on its left: it is one of the outermost edges. */
  readonly isOuter: boolean;
  /** Panels whose edges lie in it, the longest first. */
  readonly panels: readonly string[];
}

/** Two pieces lie on one line when they are no farther apart than this, mm: a scriber's line is wider. */
const ON_LINE_MM = 0.01;
/** Shorter pieces than this, mm, are nothing to hook on. */
const LEAST_EDGE_MM = 1;

interface Group {
  readonly way: Vec2;
  readonly level: number;
  readonly runs: [from: number, to: number][];
  readonly panels: Map<string, number>;
}

export const straightEdges = (outline: Loop<FlatVertex>): StraightEdge[] => {
  // By the piece that each begins with.
  const groups = new Map<number, Group>();
  const ways = piecesOf(outline).map(({ from, to }) => unit(sub(to, from)));
  const byWay = new BoxGrid(ways.map(spot));
  outline.forEach(({ bulge, origin }, i) => {
    if (bulge !== 0 || origin.kind === 'relief') return;
    const { from, to } = pieceOf(outline, i);
    const way = ways[i] as Vec2;
    const [level, start, end] = [dot(from, leftOf(way)), dot(from, way), dot(to, way)];
    const known = byWay
      .near(spot(way), 2 * NEARLY_PARALLEL_SINE)
      .map((piece) => groups.get(piece))
      .find(
        (g) =>
          g !== undefined &&
          Math.abs(cross(g.way, way)) < NEARLY_PARALLEL_SINE &&
          dot(g.way, way) > 0 &&
          Math.abs(g.level - level) < ON_LINE_MM,
      );
    const group = known ?? { way, level, runs: [], panels: new Map<string, number>() };
    if (known === undefined) groups.set(i, group);
    group.runs.push([start, end]);
    if (origin.kind !== 'strip')
      group.panels.set(origin.panel, (group.panels.get(origin.panel) ?? 0) + end - start);
  });
  const rim = withChords(outline, ON_LINE_MM).map(({ x, y }): Vec2 => [x, y]);
  return [...groups.values()]
    .map((group) => edgeOf(group, rim))
    .filter((e) => e.metalMm >= LEAST_EDGE_MM && e.panels.length > 0);
};

const edgeOf = ({ way, level, runs, panels }: Group, rim: readonly Vec2[]): StraightEdge => {
  const joined: [number, number][] = [];
  for (const [from, to] of runs.toSorted((a, b) => a[0] - b[0])) {
    const last = joined.at(-1);
    if (last !== undefined && from - last[1] < ON_LINE_MM) last[1] = Math.max(last[1], to);
    else joined.push([from, to]);
  }
  const lengths = joined.map(([from, to]) => to - from);
  const out = leftOf(way);
  const at = (share: number): Vec2 => along([out[0] * level, out[1] * level], way, share);
  return {
    from: at((joined[0] as [number, number])[0]),
    to: at((joined.at(-1) as [number, number])[1]),
    way,
    metalMm: lengths.reduce((sum, l) => sum + l, 0),
    runMm: Math.max(...lengths),
    isOuter: rim.every((p) => dot(p, out) > level - ON_LINE_MM),
    panels: [...panels].toSorted((a, b) => b[1] - a[1]).map(([panel]) => panel),
  };
};
