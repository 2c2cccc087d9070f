import type { Assembly } from '../../src/assembly/assembly.ts';
import { foldBlank } from './folded-solid.ts';
import { loadSolids } from './solid.ts';

/** What stands farther apart is not looked at, mm. */
const NEAR_MM = 2;

/**
 * How near the folded blanks of an assembly come to each other by the kernel, mm, by their names;
 * missing where they are far apart.
 */
export const nearestPieces = async ({ pieces }: Assembly): Promise<ReadonlyMap<string, number>> => {
  const withSolids = await loadSolids();
  const found = new Map<string, number>();
  withSolids((solids) => {
    const all = pieces.flatMap(({ id, part, flat, pose }) => {
      const made = foldBlank(solids, part, flat);
      return [...made.panels.values(), ...made.bends.values()].map((s) => {
        const solid = solids.move(s, pose);
        return { id, solid, box: solids.box(solid) };
      });
    });
    const areNear = (a: (typeof all)[number]['box'], b: typeof a): boolean =>
      ([0, 1, 2] as const).every(
        (i) => a.low[i] < b.high[i] + NEAR_MM && b.low[i] < a.high[i] + NEAR_MM,
      );
    for (const [i, one] of all.entries())
      for (const other of all.slice(i + 1))
        if (one.id !== other.id && areNear(one.box, other.box)) {
          const pair = `${one.id} ${other.id}`;
          const mm = solids.distance(one.solid, other.solid);
          found.set(pair, Math.min(found.get(pair) ?? Infinity, mm));
        }
  });
  return found;
};
