import {
  along,
  clip,
  distance,
  dot,
  dot3,
  leftOf,
  length3,
  motionBetween,
  moveLoop,
  sub,
  sub3,
  tidyLoop,
  unit,
  vertexAt,
  SAME_POINT_MM,
} from '../../src/template.ts';
import type { Loop, Motion2, Vec2, Vec3, Vertex } from '../../src/template.ts';
import type { Facet, FacetEdge } from './surface.ts';

/** A vertex of a laid facet, with the kind of the edge that starts here. */
export interface LaidVertex extends Vertex {
  readonly edge: FacetEdge | 'seam';
}

/** A facet as it lies in the development, seen from inside the duct. */
export interface LaidFacet {
  readonly facet: Facet;
  readonly outline: Loop<LaidVertex>;
}

/**
 * The facets of a chain laid side by side in the plane; the edge at the first end of the facet at
 * `root`, or at the other where it has none there, lies level at the bottom.
 */
export const layFacets = (chain: readonly Facet[], root: number): LaidFacet[] => {
  const laid: LaidFacet[] = [];
  for (const facet of chain) {
    const before = laid.at(-1);
    const [from, to] = before === undefined ? firstEdge(facet) : endsOf(before, 'exit');
    // The line runs the other way round on the next facet.
    laid.push({ facet, outline: layOn(facet, to, from) });
  }
  const level = toLevel(laid[root] as LaidFacet);
  return laid.map(({ facet, outline }) => ({ facet, outline: moveLoop(level, outline) }));
};

const firstEdge = ({ points, edges }: Facet): readonly [Vec2, Vec2] => {
  const i = edges.indexOf('entry');
  return [
    [0, length3(sub3(points[(i + 1) % points.length] as Vec3, points[i] as Vec3))],
    [0, 0],
  ];
};

/** Start and end of an edge of a laid facet. */
export const endsOf = ({ outline }: LaidFacet, edge: LaidVertex['edge']): readonly [Vec2, Vec2] => {
  const i = outline.findIndex((v) => v.edge === edge);
  const [a, b] = [vertexAt(outline, i), vertexAt(outline, i + 1)];
  return [
    [a.x, a.y],
    [b.x, b.y],
  ];
};

/** A facet of true size, with its `entry` running from one point of the plane to another. */
const layOn = ({ points, edges }: Facet, from: Vec2, to: Vec2): LaidVertex[] => {
  const i = edges.indexOf('entry');
  const turned = points.map((_, k) => points[(i + k) % points.length]) as [Vec3, Vec3, ...Vec3[]];
  const [a, b, ...others] = turned;
  const edge = sub3(b, a);
  const dir = unit(sub(to, from));
  const tips = others.map((c): Vec2 => {
    const side = sub3(c, a);
    const foot = dot3(side, edge) / length3(edge);
    const height = Math.sqrt(Math.max(0, dot3(side, side) - foot * foot));
    return along(along(from, dir, foot), leftOf(dir), height);
  });
  return [from, to, ...tips].map(([x, y], k) => ({
    x,
    y,
    bulge: 0,
    edge: edges[(i + k) % edges.length] as FacetEdge,
  }));
};

const toLevel = (facet: LaidFacet): Motion2 => {
  const level = (['base', 'rim'] as const).find((edge) => facet.facet.edges.includes(edge));
  const [from, to] = endsOf(facet, level ?? 'entry');
  return motionBetween(from, unit(sub(to, from)), [0, 0], [1, 0]);
};

/**
 * The facets with the two edges at the ends of the chain moved in by `byMm`, so that a weld has its
 * gap. A line parallel to the edge cuts the facets one after the other, as far as it reaches.
 */
export const cutSeams = (laid: readonly LaidFacet[], byMm: number): LaidFacet[] => {
  if (byMm === 0) return [...laid];
  const fromStart = cutSeam(laid, endsOf(laid[0] as LaidFacet, 'entry'), byMm);
  const end = endsOf(laid.at(-1) as LaidFacet, 'exit');
  return cutSeam(fromStart.toReversed(), end, byMm).toReversed();
};

const cutSeam = (
  facets: readonly LaidFacet[],
  [from, to]: readonly [Vec2, Vec2],
  byMm: number,
): LaidFacet[] => {
  const inward = leftOf(unit(sub(to, from)));
  const level = dot(inward, from) + byMm;
  const cut: LaidFacet[] = [];
  for (const { facet, outline } of facets) {
    const [kept = []] = clip(outline, inward, level, ([x, y]): LaidVertex => ({
      x,
      y,
      bulge: 0,
      edge: 'seam',
    }));
    if (kept === outline) break;
    cut.push({ facet, outline: tidyLoop(kept) });
  }
  return [...cut, ...facets.slice(cut.length)];
};

/** Whether every facet still meets the next along one whole line. */
export const isJoined = (laid: readonly LaidFacet[]): boolean =>
  laid.slice(1).every((after, i) => {
    const before = laid[i] as LaidFacet;
    if (!has(before, 'exit') || !has(after, 'entry')) return false;
    const [[a, b], [c, d]] = [endsOf(before, 'exit'), endsOf(after, 'entry')];
    return distance(a, d) < SAME_POINT_MM && distance(b, c) < SAME_POINT_MM;
  });

const has = ({ outline }: LaidFacet, edge: FacetEdge): boolean =>
  outline.some((v) => v.edge === edge);

/**
 * The widest gap of a seam, mm and at most `upToMm`, that leaves every facet joined to the next;
 * found by halving.
 */
export const widestSeamGapMm = (laid: readonly LaidFacet[], upToMm: number): number => {
  let [fits, fails] = [0, upToMm];
  for (let halvings = 0; halvings < 30; halvings++) {
    const gap = (fits + fails) / 2;
    if (isJoined(cutSeams(laid, gap / 2))) fits = gap;
    else fails = gap;
  }
  return fits;
};
