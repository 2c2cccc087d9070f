import { type AtLeast, boundOf } from './at-least.ts';
import { bitCount } from '../machines/bits.ts';
import {
  changeCost,
  helpCost,
  type Orientation,
  orientationOf,
  startCost,
  strokeCost,
  toolsCost,
} from './cost.ts';
import { makeHeap } from './heap.ts';
import type { Lattice } from './lattice.ts';
import type { Placement } from '../machines/placed-part.ts';

/** A stroke and the side that is clamped for it. */
export interface Move {
  readonly stroke: number;
  readonly placement: Placement;
}

/** A state in a search backwards from the finished part; the moves after it are settled. */
interface Node {
  readonly made: number;
  /** Number of the orientation of the next stroke; -1 after the last one. */
  readonly orientation: number;
  /** Number of the set-up of the tools for the next stroke; -1 after the last one. */
  readonly setUp: number;
  readonly cost: number;
  readonly move: Move | undefined;
  readonly after: Node | undefined;
}

/** More states than this take too long to search, mostly because of the geometry they need. */
const MOST_NODES = 300_000;

/**
 * The cheapest order by the stated cost. The search runs backwards from the finished part and takes
 * the state that can cost least first. Its bound is never too high (A*), so the first order found
 * is the cheapest. `undefined` when there is none; `'not decided'` when there are too many states
 * to search.
 */
export function cheapestOrder(lattice: Lattice): readonly Move[] | undefined | 'not decided' {
  const expand = expander(lattice);
  const best = new Map<number, number>();
  const open = makeHeap<Node>();
  const offer = (node: Node): void => {
    const known = best.get(expand.keyOf(node));
    if (known !== undefined && known <= node.cost) return;
    best.set(expand.keyOf(node), node.cost);
    open.push(node.cost + expand.atLeast(node.made, node.orientation), node);
  };
  offer(finished(lattice));
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    if (node.made === 0) return movesFrom(node);
    if (node.cost > (best.get(expand.keyOf(node)) as number)) continue;
    if (best.size > MOST_NODES) return 'not decided';
    expand.before(node).forEach(offer);
  }
  return undefined;
}

/**
 * The number of states with the same number of folds that are kept where not all can be searched.
 */
const BEAM = 100;

/**
 * A cheap order, for a part that is known to have one. It is the same search, but keeps only the
 * cheapest few states with the same number of folds. States that nothing leads to are known, so it
 * never ends in one.
 */
export function cheapOrder(lattice: Lattice): readonly Move[] {
  const expand = expander(lattice);
  const layers = new Map<number, Map<number, Node>>([
    [bitCount(lattice.full), new Map([[0, finished(lattice)]])],
  ]);
  for (let folds = bitCount(lattice.full); folds > 0; folds--) {
    const kept = [...(layers.get(folds)?.values() ?? [])]
      .toSorted((a, b) => a.cost - b.cost)
      .slice(0, BEAM);
    for (const node of kept.flatMap(expand.before)) {
      const layer = layers.get(bitCount(node.made)) ?? new Map<number, Node>();
      layers.set(bitCount(node.made), layer);
      const known = layer.get(expand.keyOf(node));
      if (known === undefined || node.cost < known.cost) layer.set(expand.keyOf(node), node);
    }
  }
  const [best] = [...(layers.get(0)?.values() ?? [])].toSorted((a, b) => a.cost - b.cost);
  return best === undefined ? [] : movesFrom(best);
}

const finished = ({ full }: Lattice): Node => ({
  made: full,
  orientation: -1,
  setUp: -1,
  cost: 0,
  move: undefined,
  after: undefined,
});

interface Expander {
  readonly atLeast: AtLeast;
  readonly keyOf: (node: Node) => number;
  /** The states one stroke before a state, among those that can be made. */
  readonly before: (node: Node) => Node[];
}

/** The most set-ups of tools that are told apart in a key. */
const MOST_SET_UPS = 4096;

function expander(lattice: Lattice): Expander {
  const { net, strokes } = lattice;
  const { orientations, numbers } = numberOrientations(lattice);
  const costs = strokes.map((s) =>
    ([0, 1] as const).map((placement) =>
      FLAGS.map(([isTipped, isSmallGrip]) =>
        strokeCost(net, s, placement, { isTipped, isSmallGrip }),
      ),
    ),
  );
  const ownCost = (stroke: number, made: number, placement: Placement): number =>
    costs[stroke]?.[placement]?.[
      (lattice.isTipped(stroke, made, placement) ? 1 : 0) +
        (lattice.isSmallGrip(stroke, made, placement) ? 2 : 0)
    ] as number;
  const helps = strokes.map(helpCost);
  const setUps = numbering();
  const costAfter = (orientation: number, setUp: number, after: Node): number =>
    after.orientation < 0
      ? 0
      : toolsCost(setUps.nameOf(setUp), setUps.nameOf(after.setUp)) +
        changeCost(
          orientations[orientation] as Orientation,
          orientations[after.orientation] as Orientation,
        );
  const before = (after: Node): Node[] => {
    const nodes: Node[] = [];
    // Strokes of the same folds go by the help that they need, the least first. All else together
    // costs less than any more help, so that those with more of it are not looked at.
    const least = new Map<number, number>();
    strokes.forEach(({ bits }, stroke) => {
      const made = after.made ^ bits;
      if ((after.made & bits) !== bits || (least.get(bits) ?? Infinity) < (helps[stroke] ?? 0))
        return;
      if (!lattice.isOpen(stroke, made) || !lattice.canBeMade(made)) return;
      least.set(bits, helps[stroke] ?? 0);
      for (const placement of [0, 1] as const) {
        if (!lattice.isClear(stroke, made, placement)) continue;
        const orientation = numbers[stroke]?.[placement] as number;
        const setUp = setUps.numberOf(strokes[stroke]?.setUp(made, placement) ?? '');
        const start = made === 0 ? startCost(orientations[orientation] as Orientation) : 0;
        const cost =
          after.cost +
          costAfter(orientation, setUp, after) +
          ownCost(stroke, made, placement) +
          start;
        nodes.push({ made, orientation, setUp, cost, move: { stroke, placement }, after });
      }
    });
    return nodes;
  };
  return {
    atLeast: boundOf(lattice, orientations, numbers),
    keyOf: ({ made, orientation, setUp }) =>
      (made * (orientations.length + 1) + orientation + 1) * MOST_SET_UPS + setUp + 1,
    before,
  };
}

/** Whether a stroke tips the part and has a small grip, as bits of their number. */
const FLAGS = [
  [false, false],
  [true, false],
  [false, true],
  [true, true],
] as const;

/** Numbers for names, in the order in which they are first asked for. */
const numbering = () => {
  const numbers = new Map<string, number>();
  const names: string[] = [];
  return {
    nameOf: (number: number): string => names[number] ?? '',
    numberOf: (name: string): number => {
      const known = numbers.get(name);
      if (known !== undefined) return known;
      const number = names.push(name) - 1;
      numbers.set(name, number);
      return number;
    },
  };
};

const movesFrom = (node: Node): Move[] => {
  const moves: Move[] = [];
  for (let at: Node | undefined = node; at?.move !== undefined; at = at.after) moves.push(at.move);
  return moves;
};

/** Numbers the orientations; equal ones get one number. */
const numberOrientations = ({
  net,
  strokes,
}: Lattice): {
  readonly orientations: readonly Orientation[];
  readonly numbers: readonly (readonly number[])[];
} => {
  const orientations: Orientation[] = [];
  const numberOf = (orientation: Orientation): number => {
    const known = orientations.findIndex((l) => changeCost(l, orientation) === 0);
    return known < 0 ? orientations.push(orientation) - 1 : known;
  };
  return {
    numbers: strokes.map((s) => [
      numberOf(orientationOf(net, s, 0)),
      numberOf(orientationOf(net, s, 1)),
    ]),
    orientations,
  };
};
