import { loopExtents } from '../geometry/extents.ts';
import { rectangle } from '../geometry/loop.ts';
import type { Fold, Panel, Part } from '../model/part.ts';

/**
 * A strip as it is rolled: its only panel, a rectangle along x, as so many flats in a ring, upper
 * faces inside. The ring is closed but for the gap of its seam, which both ends give half of.
 * Nothing where the part is no such strip.
 */
export const rolledPart = (part: Part, flats: number): Part | undefined => {
  const [strip] = part.panels;
  const box = strip === undefined ? undefined : loopExtents(strip.outline);
  if (strip === undefined || box === undefined || part.panels.length > 1 || flats < 3)
    return undefined;
  const [long, high] = [box.maxX - box.minX, box.maxY - box.minY];
  const chord = (long + part.cornerGapMm) / flats;
  const cut = (i: number): number =>
    box.minX + Math.min(long, Math.max(0, i * chord - part.cornerGapMm / 2));
  const panels = Array.from({ length: flats }, (_, i): Panel => ({
    id: `${strip.id} ${i + 1}`,
    outline: rectangle(cut(i), box.minY, cut(i + 1) - cut(i), high),
    cutouts: [],
  }));
  const folds = panels.slice(1).map((panel, i): Fold => ({
    id: `R${i + 1}`,
    parent: { panel: (panels[i] as Panel).id, edge: RIGHT },
    child: { panel: panel.id, edge: LEFT },
    angleDeg: 360 / flats,
    direction: 'up',
    insideRadiusMm: 0,
    rule: { id: 'k', k: 0.5 },
    midSurface: true,
  }));
  const { wishes: _, ...rest } = part;
  return { ...rest, root: (panels[0] as Panel).id, panels, folds };
};

/** Pieces of a rectangle's outline: bottom, right, top, left. */
const RIGHT = 1;
const LEFT = 3;
