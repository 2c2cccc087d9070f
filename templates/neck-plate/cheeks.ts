import { cosDeg, type Fold, type Panel, type Part, polygon, sinDeg } from '../../src/template.ts';
import { boxOf, hatOf } from './sizes.ts';
import type { NeckPlate } from './inputs.ts';

/**
 * The cheeks that close the box at both sides, folded down from the face. Their feet lie on the
 * panel; at the walls they are trimmed as neighbours are.
 */
export const cheeksOf = (
  v: NeckPlate,
): { readonly panels: readonly Panel[]; readonly foldsOf: (part: Part) => readonly Fold[] } => {
  const { crownMm } = hatOf(v);
  const { lowMm } = boxOf(v);
  const high = lowMm + crownMm * sinDeg(v.lean);
  // Down is not square to a face that leans.
  const down = (mm: number): readonly [out: number, back: number] => [
    mm * cosDeg(v.lean),
    -mm * sinDeg(v.lean),
  ];
  const [[x1, y1], [x2, y2]] = [down(lowMm), down(high)];
  return {
    panels: [
      {
        id: 'cheek left',
        outline: polygon([0, 0, 'face'], [0, crownMm], [-x2, crownMm + y2, 'foot'], [-x1, y1]),
        cutouts: [],
      },
      {
        id: 'cheek right',
        outline: polygon([0, crownMm, 'face'], [0, 0], [x1, y1, 'foot'], [x2, crownMm + y2]),
        cutouts: [],
      },
    ],
    foldsOf: (part) => {
      const crown = part.panels.find(({ id }) => id === 'crown')?.outline ?? [];
      const edge = (name: string): number => crown.findIndex((vertex) => vertex.edge === name);
      return (['left', 'right'] as const).map((side, i): Fold => ({
        id: i === 0 ? 'E' : 'F',
        parent: { panel: 'crown', edge: edge(side) },
        child: { panel: `cheek ${side}`, edge: 0 },
        angleDeg: 90,
        direction: 'down',
        insideRadiusMm: v.insideRadiusMm,
      }));
    },
  };
};
