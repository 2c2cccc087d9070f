import { assemble, rectangle } from '../../src/template.ts';
import type { GivenFold, Part } from '../../src/template.ts';
import { panelHoles } from './holes.ts';
import { pastTangentMm, type TankSizes } from './sizes.ts';
import type { Tank } from './inputs.ts';
import { floorMm } from './volume.ts';
import { wrapWishes } from './wishes.ts';

/**
 * Floor, deep end and shallow end in one blank. All its panels are rectangles and both folds run
 * across the width, so box and wedge fold alike, and the sides are plain plates that fit the bends.
 * It is drawn as seen from inside, the deep end below. Both ends stop a weld gap below the top
 * sheet.
 */
export const tankWrap = (v: Tank, s: TankSizes): Part => {
  const { cavity: c, beyondMm, deepBendDeg, shallowBendDeg } = s;
  const width = c.widthMm + 2 * beyondMm;
  const past = pastTangentMm(v, deepBendDeg);
  const panel = (id: 'floor' | 'deep' | 'shallow', lengthMm: number) => ({
    id,
    outline: rectangle(0, 0, width, lengthMm),
    cutouts: panelHoles(v, s, id),
  });
  const fold = (id: string, edge: string, child: string, angleDeg: number): GivenFold => ({
    id,
    parent: { panel: 'floor', edge },
    child: { panel: child, edge: 'bottom' },
    angleDeg,
    direction: 'up',
    insideRadiusMm: v.insideRadiusMm,
  });
  return assemble(
    // The wrap is worked out from the inside of the tank, whichever faces were measured.
    { ...v, measure: 'inside' },
    {
      root: 'floor',
      panels: [
        panel('floor', floorMm(c) - past),
        panel('deep', c.deepMm - v.cornerGapMm - past),
        panel('shallow', c.shallowMm - v.cornerGapMm),
      ],
      folds: [
        fold('A', 'bottom', 'deep', deepBendDeg),
        fold('B', 'top', 'shallow', shallowBendDeg),
      ],
      wishes: wrapWishes(v),
    },
  );
};
