import { sinDeg } from '../geometry/degrees.ts';
import { loopExtents } from '../geometry/extents.ts';
import { rectangle } from '../geometry/loop.ts';
import { MIDDLE_OF_SHEET } from '../model/bend-rule.ts';
import type { Fold, Panel, Part } from '../model/part.ts';

/**
 * A strip as it is rolled: its only panel, a rectangle along x, as so many flats in a ring, upper
 * faces inside, each of which goes round by its turn, all alike if not said otherwise. The ring is closed but for the gap of its seam, which both ends give half of.
 * Nothing where the part is no such strip.
 */
export const rolledPart = (
  part: Part,
  flats: number,
  turnsDeg: readonly number[] = Array.from({ length: flats }, () => 360 / flats),
): Part | undefined => {
  const [strip] = part.panels;
  const box = strip === undefined ? undefined : loopExtents(strip.outline);
  if (
    strip === undefined ||
    box === undefined ||
    part.panels.length > 1 ||
    flats < 3 ||
    turnsDeg.length !== flats
  )
    return undefined;
  const [long, high] = [box.maxX - box.minX, box.maxY - box.minY];
  // Chords of one circle are as the sines of half their turns.
  const chords = turnsDeg.map((deg) => sinDeg(deg / 2));
  const upTo = (i: number): number => chords.slice(0, i).reduce((a, b) => a + b, 0);
  const scale = (long + part.cornerGapMm) / upTo(flats);
  const cut = (i: number): number =>
    box.minX + Math.min(long, Math.max(0, upTo(i) * scale - part.cornerGapMm / 2));
  const panels = Array.from({ length: flats }, (_, i): Panel => ({
    id: `${strip.id} ${i + 1}`,
    outline: rectangle(cut(i), box.minY, cut(i + 1) - cut(i), high),
    cutouts: [],
  }));
  const folds = panels.slice(1).map((panel, i): Fold => ({
    id: `R${i + 1}`,
    parent: { panel: (panels[i] as Panel).id, edge: RIGHT },
    child: { panel: panel.id, edge: LEFT },
    angleDeg: ((turnsDeg[i] as number) + (turnsDeg[i + 1] as number)) / 2,
    direction: 'up',
    insideRadiusMm: 0,
    rule: MIDDLE_OF_SHEET,
    midSurface: true,
  }));
  const { wishes: _, ...rest } = part;
  return { ...rest, root: (panels[0] as Panel).id, panels, folds };
};

/** Pieces of a rectangle's outline: bottom, right, top, left. */
const RIGHT = 1;
const LEFT = 3;
