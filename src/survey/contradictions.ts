import { nameOf, type Network, type Tie } from './network.ts';
import { type Contradiction, LIMIT } from './survey.ts';

interface Way {
  readonly mm: number;
  readonly points: readonly number[];
}

/**
 * Distances that exceed the length of a way round through other points by more than the readings
 * may be off: the triangle inequality, along any chain. The errors of the readings in the chain add
 * as their squares do.
 */
export function contradictionsOf(net: Network, toleranceMm: number): Contradiction[] {
  return net.ties.flatMap((tie) => {
    const way = shortestWay(net, tie);
    if (way === undefined || tie.mm - way.mm <= LIMIT * toleranceMm * Math.sqrt(way.points.length))
      return [];
    const names = way.points.map((p) => nameOf(net, p));
    return [
      {
        from: nameOf(net, tie.a),
        to: nameOf(net, tie.b),
        measuredMm: tie.mm,
        way: names,
        wayMm: way.mm,
      },
    ];
  });
}

/** The shortest way between the ends of a tie over the other ties, by Dijkstra's method. */
function shortestWay({ ties }: Network, tie: Tie): Way | undefined {
  const open = new Map<number, Way>([[tie.a, { mm: 0, points: [tie.a] }]]);
  const done = new Set<number>();
  for (;;) {
    const next = [...open].filter(([p]) => !done.has(p)).toSorted((p, q) => p[1].mm - q[1].mm)[0];
    if (next === undefined || next[0] === tie.b) return next?.[1];
    const [here, way] = next;
    done.add(here);
    for (const { a, b, mm } of ties.filter((t) => t !== tie && (t.a === here || t.b === here))) {
      const there = a === here ? b : a;
      const reach = way.mm + mm;
      if (reach < (open.get(there)?.mm ?? Infinity))
        open.set(there, { mm: reach, points: [...way.points, there] });
    }
  }
}
