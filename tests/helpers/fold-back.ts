import { expect } from 'vitest';
import { movePoint } from '../../src/geometry/motion2.ts';
import type { FlatPanel, FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import { foldedPlaces, idealPlaces } from './witness.ts';

/**
 * Folds the blank up by the witness and compares every corner of every panel, on both faces, with
 * its place by the mould lines. It is for parts whose bends are all at most 90 degrees.
 */
export const expectFoldsBack = (part: Part, flat: FlatPattern): void => {
  const root = flat.panels.find((p) => p.id === part.root) as FlatPanel;
  const ideal = idealPlaces(part, ([x, y, z]) => [...movePoint(root.placement, [x, y]), z]);
  const folded = foldedPlaces(flat, part.root);
  for (const panel of flat.panels) {
    for (const v of panel.region) {
      for (const z of [0, part.thicknessMm]) {
        const wanted = ideal.get(panel.id)?.([v.x, v.y, z]) ?? [];
        const found = folded.get(panel.id)?.([...movePoint(panel.placement, [v.x, v.y]), z]) ?? [];
        expect(Math.hypot(...wanted.map((w, i) => w - (found[i] ?? NaN)))).toBeLessThan(1e-8);
      }
    }
  }
};
