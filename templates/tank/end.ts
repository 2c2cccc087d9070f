import { assemble, lengthOfEdge, mirrorPart, rectangle } from '../../src/template.ts';
import type { GivenFold, Panel, Part } from '../../src/template.ts';
import { panelHoles } from './holes.ts';
import { outsideFlangeMm, type TankSizes } from './sizes.ts';
import { PROFILE_EDGES, profileOutline } from './volume.ts';
import { endWishes } from './wishes.ts';
import type { Tank } from './inputs.ts';

/**
 * A plate that closes a side. It stands inside the wrap and under the top, a weld gap from them all
 * round, with its corners at the floor rounded to the bends of the wrap. A flush plate is flat, and
 * its outside is level with the wrap's edges; the flanges of a flanged one point out of the tank
 * and end there. It is drawn as seen from outside.
 */
export const tankEnd = (v: Tank, s: TankSizes, side: 'left' | 'right'): Part => {
  const outline = profileOutline(s.cavity, v.cornerGapMm);
  const plate: Panel = { id: side, outline, cutouts: panelHoles(v, s, side) };
  const flanges =
    v.ends === 'flush'
      ? []
      : PROFILE_EDGES.map((name, i) => flange(v, plate, name, 'ABCD'.charAt(i)));
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
  id: string,
): { readonly panel: Panel; readonly fold: GivenFold } => {
  const panel: Panel = {
    id: `${name} flange`,
    outline: rectangle(0, 0, lengthOfEdge(plate.outline, name), outsideFlangeMm(v)),
    cutouts: [],
  };
  const fold: GivenFold = {
    id,
    parent: { panel: plate.id, edge: name },
    child: { panel: panel.id, edge: 'bottom' },
    angleDeg: 90,
    direction: 'up',
    insideRadiusMm: v.insideRadiusMm,
  };
  return { panel, fold };
};
