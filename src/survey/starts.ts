import { distance, type Vec2 } from '../geometry/vec2.ts';
import { type Figure, type Network, neighboursOf, type Tie } from './network.ts';
import { numbers } from './numbers.ts';
import { EXACT_MM } from '../geometry/tolerance.ts';

/** A figure under construction; points that are not placed yet are absent. */
interface Draft {
  readonly places: ReadonlyMap<number, Vec2>;
  /** Squared misfit of the ties between placed points, mm2. */
  readonly cost: number;
}

const WIDEST = 48;
const KEPT = 12;
const RANDOM = 24;

/**
 * Figures to start from, best first. The two ends of the first tie are laid down, then every point
 * at the intersections of the circles about two neighbours that already have a place. Where two
 * places are possible both are followed, as long as they belong to the best drafts so far. The
 * result has at most `most` figures.
 */
export function constructedStarts(net: Network, most = KEPT): Figure[] {
  const [first] = net.ties as [Tie];
  let drafts: Draft[] = [
    {
      places: new Map([
        [first.a, [0, 0]],
        [first.b, [first.mm, 0]],
      ]),
      cost: 0,
    },
  ];
  for (let placed = 2; placed < net.names.length; placed += 1) {
    const next = nextPoint(net, drafts[0]?.places ?? new Map<number, Vec2>());
    drafts = drafts
      .flatMap((draft) => extended(net, draft, next))
      .toSorted((p, q) => p.cost - q.cost)
      .slice(0, WIDEST);
  }
  return drafts.slice(0, most).map(({ places }) => net.names.map((_, i) => places.get(i) as Vec2));
}

/** Figures scattered over a square the size of the survey, the same ones every time. */
export function scatteredStarts(net: Network): Figure[] {
  const next = numbers(7);
  const sizeMm = Math.max(...net.ties.map((t) => t.mm));
  return Array.from({ length: RANDOM }, () =>
    net.names.map((): Vec2 => [next() * sizeMm, next() * sizeMm]),
  );
}

/** The point with most neighbours in place; among equals, the one named first. */
function nextPoint(net: Network, places: ReadonlyMap<number, Vec2>): number {
  let best = -1;
  let most = -1;
  for (const point of net.names.keys()) {
    if (places.has(point)) continue;
    const count = neighboursOf(net.ties, point).filter((n) => places.has(n)).length;
    if (count > most) [best, most] = [point, count];
  }
  return best;
}

function extended(net: Network, draft: Draft, point: number): Draft[] {
  const circles = net.ties.flatMap(({ a, b, mm }) => {
    const other = a === point ? b : b === point ? a : undefined;
    const centre = other === undefined ? undefined : draft.places.get(other);
    return centre === undefined ? [] : [{ centre, mm }];
  });
  return candidates(circles, draft).map((place) => {
    const misfit = circles.reduce(
      (sum, { centre, mm }) => sum + (distance(place, centre) - mm) ** 2,
      0,
    );
    return { places: new Map(draft.places).set(point, place), cost: draft.cost + misfit };
  });
}

interface Circle {
  readonly centre: Vec2;
  readonly mm: number;
}

function candidates(circles: readonly Circle[], { places }: Draft): Vec2[] {
  const [one] = circles;
  if (one === undefined) return [[0, -1000 * (1 + places.size)]];
  const pairs = circles
    .slice(0, 3)
    .flatMap((p, i, all) => all.slice(i + 1).map((q) => [p, q] as const));
  const met = pairs.flatMap(([p, q]) => intersections(p, q));
  if (met.length === 0)
    return [0.3, 1.9, 3.4, 5].map((turn) => [
      one.centre[0] + one.mm * Math.cos(turn),
      one.centre[1] + one.mm * Math.sin(turn),
    ]);
  // The first point off the line is placed on one side only: the other side is the mirror image of
  // the whole.
  const inLine = [...places.values()].every(([, y]) => y === 0);
  return inLine ? met.filter(([, y]) => y >= 0) : met;
}

/**
 * Circles that only touch, or miss, still give two places at this share of the height, so that a
 * figure can flip over.
 */
const LEAST_HEIGHT_SHARE = 1e-3;

/**
 * Places where two circles meet, or, where they do not, the nearest places just beside the line
 * between the centres. With the base c, the foot lies (c^2 + r^2 - s^2) / 2c from the first centre
 * (law of cosines).
 */
function intersections({ centre: p, mm: r }: Circle, { centre: q, mm: s }: Circle): Vec2[] {
  const base = distance(p, q);
  if (base < EXACT_MM) return [];
  const foot = Math.max(-r, Math.min(r, (base * base + r * r - s * s) / (2 * base)));
  const height = Math.max(Math.sqrt(Math.max(r * r - foot * foot, 0)), base * LEAST_HEIGHT_SHARE);
  const [ux, uy] = [(q[0] - p[0]) / base, (q[1] - p[1]) / base];
  return [1, -1].map((side): Vec2 => [
    p[0] + foot * ux - side * height * uy,
    p[1] + foot * uy + side * height * ux,
  ]);
}
