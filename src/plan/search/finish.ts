import { changeCost, orientationOf, startCost, strokeCost, toolsCost } from './cost.ts';
import type { Move } from './cheapest.ts';
import { makeHeap } from './heap.ts';
import type { DeadEnd, Lattice } from './lattice.ts';
import type { Stroke } from './stroke.ts';

/** How a part that is half folded is finished, or the strokes that cannot be made on the way. */
export interface Finish {
  /** `undefined` where no order of what is left works. */
  readonly moves: readonly Move[] | undefined;
  readonly deadEnds: readonly DeadEnd[];
}

interface Node {
  readonly made: number;
  readonly cost: number;
  readonly move: Move | undefined;
  readonly before: Node | undefined;
}

/**
 * The cheapest order from a state to the finished part, by the cost of whole orders, searched
 * forwards: how the state was come by does not matter. Throws `BudgetSpent` as the lattice does.
 */
export function finishFrom(lattice: Lattice, start: number): Finish {
  const open = makeHeap<Node>();
  const best = new Map<string, number>();
  const deadEnds = new Map<string, DeadEnd>();
  open.push(0, { made: start, cost: 0, move: undefined, before: undefined });
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    if (node.made === lattice.full) return { moves: movesTo(node), deadEnds: [] };
    if (node.cost > (best.get(keyOf(node)) ?? Infinity)) continue;
    for (const next of nextOf(lattice, node, deadEnds)) {
      if (next.cost >= (best.get(keyOf(next)) ?? Infinity)) continue;
      best.set(keyOf(next), next.cost);
      open.push(next.cost, next);
    }
  }
  return { moves: undefined, deadEnds: [...deadEnds.values()] };
}

const keyOf = ({ made, move }: Node): string =>
  `${made} ${move?.stroke ?? ''} ${move?.placement ?? ''}`;

function nextOf(lattice: Lattice, before: Node, deadEnds: Map<string, DeadEnd>): Node[] {
  const { made } = before;
  return lattice.strokes.flatMap(({ bits, isInLine }, stroke): Node[] => {
    if ((made & bits) !== 0 || !isInLine(made)) return [];
    if (!lattice.isOpen(stroke, made)) {
      deadEnds.set(`${made} ${stroke}`, { made, stroke });
      return [];
    }
    return ([0, 1] as const)
      .filter((placement) => lattice.isClear(stroke, made, placement))
      .map((placement): Node => {
        const move = { stroke, placement };
        const cost = before.cost + costOf(lattice, before, move);
        return { made: made | bits, cost, move, before };
      });
  });
}

function costOf(lattice: Lattice, { made, move: last, before }: Node, move: Move): number {
  const { net, strokes } = lattice;
  const [stroke, { placement }] = [strokes[move.stroke] as Stroke, move];
  const orientation = orientationOf(net, stroke, placement);
  const own = strokeCost(net, stroke, placement, {
    isTipped: lattice.isTipped(move.stroke, made, placement),
    isSmallGrip: lattice.isSmallGrip(move.stroke, made, placement),
  });
  if (last === undefined || before === undefined) return own + startCost(orientation);
  const earlier = strokes[last.stroke] as Stroke;
  return (
    own +
    changeCost(orientationOf(net, earlier, last.placement), orientation) +
    toolsCost(earlier.setUp(before.made, last.placement), stroke.setUp(made, placement))
  );
}

const movesTo = (node: Node): Move[] => {
  const moves: Move[] = [];
  for (let at: Node | undefined = node; at?.move !== undefined; at = at.before)
    moves.unshift(at.move);
  return moves;
};
