import { assemble, distance, mirrorPart, pieceOf, rectangle } from '../../src/template.ts';
import type { Fold, Panel, Part } from '../../src/template.ts';
import { panelHoles } from './holes.ts';
import { outsideFlangeMm, type TankSizes } from './sizes.ts';
import type { Tank } from './inputs.ts';
import { profileOutline } from './volume.ts';
import { endWishes } from './wishes.ts';

/** In the order of the edges of a long section. */
const EDGES = ['floor', 'shallow', 'roof', 'deep'] as const;

/**
 * A plate that closes a side: it stands inside the wrap and under the top, a weld gap from them all
 * round, its corners at the floor rounded to the bends of the wrap. Flush, it is flat and its
 * outside is level with the wrap's edges; flanged, its flanges point out of the tank and end there.
 * Drawn as seen from outside.
 */
export const tankEnd = (v: Tank, s: TankSizes, side: 'left' | 'right'): Part => {
  const { outline, edges } = profileOutline(s.cavity, v.cornerGapMm);
  const plate: Panel = { id: side, outline, cutouts: panelHoles(v, s, side) };
  const flanges =
    v.ends === 'flush'
      ? []
      : EDGES.map((name, i) => flange(v, plate, name, edges[i] ?? 0, 'ABCD'.charAt(i)));
  // Flanges lie with their outside against the wrap.
  const part = assemble(
    { ...v, measure: 'outside' },
    {
      root: side,
      panels: [plate, ...flanges.map((f) => f.panel)],
      folds: flanges.map((f) => f.fold),
      wishes: endWishes(v, side),
    },
  );
  return side === 'right' ? part : mirrorPart(part);
};

const flange = (
  v: Tank,
  plate: Panel,
  name: string,
  edge: number,
  id: string,
): { readonly panel: Panel; readonly fold: Fold } => {
  const { from, to } = pieceOf(plate.outline, edge);
  const panel: Panel = {
    id: `${name} flange`,
    outline: rectangle(0, 0, distance(from, to), outsideFlangeMm(v)),
    cutouts: [],
  };
  const fold: Fold = {
    id,
    parent: { panel: plate.id, edge },
    child: { panel: panel.id, edge: 0 },
    angleDeg: 90,
    direction: 'up',
    insideRadiusMm: v.insideRadiusMm,
  };
  return { panel, fold };
};
