import type { ReadTab } from './read-tab.ts';
import { footOf, isOnMetal, type Site } from './tab-site.ts';

/** Teeth along an edge, all figures known. */
export interface Layout extends Pick<ReadTab, 'count' | 'widthMm' | 'fromMm' | 'pitchMm'> {
  readonly clearanceMm: number;
  readonly reliefMm: number;
}

/**
 * Where the teeth stand along the edge, in the way of its outline: each in the middle of its share
 * of the edge, or as from and pitch say.
 */
export const placesOf = (
  { edgeMm, isBackwards }: Site,
  layout: Layout,
): (readonly [number, number])[] => {
  const { count, widthMm, fromMm, pitchMm } = layout;
  const pitch =
    pitchMm ??
    (fromMm === undefined ? edgeMm / count : count === 1 ? 0 : (edgeMm - 2 * fromMm) / (count - 1));
  const first = fromMm ?? (edgeMm - (count - 1) * pitch) / 2;
  return Array.from({ length: count }, (_, i) => {
    const middle = first + i * pitch;
    const along = isBackwards ? edgeMm - middle : middle;
    return [along - widthMm / 2, along + widthMm / 2] as const;
  });
};

export type Flaw = 'narrow' | 'crowded' | 'foot' | 'slot';

/** What keeps teeth from being made so; all keep a thickness from what is beside them. */
export const flawOf = (site: Site, layout: Layout, movedMm = 0): Flaw | undefined => {
  const { reliefMm, widthMm, clearanceMm } = layout;
  const { one, other } = site;
  if (widthMm < leastWidth(reliefMm)) return 'narrow';
  const places = placesOf(site, layout);
  const sorted = places.toSorted((a, b) => a[0] - b[0]);
  const apart = 2 * reliefMm + one.thicknessMm;
  const isCrowded = sorted.some(([from], i) => i > 0 && from - (sorted[i - 1]?.[1] ?? 0) < apart);
  if (isCrowded) return 'crowded';
  const stand = places.every(([from, to]) =>
    isOnMetal(one, footOf(site, { from, to }, reliefMm, one.thicknessMm)),
  );
  if (!stand) return 'foot';
  const lie = places.every(([from, to]) =>
    isOnMetal(other, site.slot(from, to, clearanceMm).round(reliefMm, other.thicknessMm, movedMm)),
  );
  return lie ? undefined : 'slot';
};

/** Both reliefs of a side of its slot, and as much between them. */
export const leastWidth = (reliefMm: number): number => 3 * reliefMm;
