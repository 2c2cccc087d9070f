import { distance, type Vec2 } from '../geometry/vec2.ts';
import type { Panel } from '../model/part.ts';
import type { LengthWish } from '../model/wish.ts';
import { wish } from './wishes.ts';

/** Place asked for a hole, under the name that it has as a cut-out. */
export interface AskedPlace {
  readonly from: string;
  readonly at: Vec2;
}

/** Distances of holes from the next one that was asked for, on each panel. */
export const spacingWishes = (
  input: string,
  places: readonly AskedPlace[],
  panels: readonly Panel[],
): LengthWish[] =>
  panels.flatMap(({ id, cutouts }) => {
    const cut = new Set(cutouts.map((c) => c.from));
    const own = places.filter(({ from }) => cut.has(from));
    return own.slice(1).map(({ from, at }, i) => {
      const before = own[i] as AskedPlace;
      return wish(
        `${input}, ${before.from} to ${from}`,
        distance(before.at, at),
        { kind: 'hole', panel: id, from: before.from },
        { kind: 'hole', panel: id, from },
      );
    });
  });
