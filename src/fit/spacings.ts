import { distance } from '../geometry/vec2.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Asked, AskedMeasure } from '../contract/asked.ts';
import { boltHoles } from './bolt-holes.ts';

/**
 * Asked as well how far each bolt hole is from the next one on its panel: that is what another part
 * has to match.
 */
export const withSpacings = (asked: Asked, flat: FlatPattern): Asked => {
  const holes = boltHoles(flat);
  const known = new Set(asked.measures.map((m) => m.name));
  const spacings = holes.flatMap((hole, i): AskedMeasure[] => {
    const next = holes.slice(i + 1).find((h) => h.panel === hole.panel && h.meets === hole.meets);
    if (next === undefined) return [];
    const name = `${named(hole.name)} to ${named(next.name)}`;
    const between = [hole, next].map(({ panel, of }) => ({ kind: 'centre' as const, panel, of }));
    return known.has(name)
      ? []
      : [{ name, askedMm: distance(hole.at, next.at), between, heightMm: 0 }];
  });
  return { ...asked, measures: [...asked.measures, ...spacings] };
};

/** As the proof names a hole. */
const named = (from: string): string => (/^hole\b/.test(from) ? from : `hole ${from}`);
