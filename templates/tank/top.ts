import { assemble, rectangle, roundFreeCorners } from '../../src/template.ts';
import type { Finding, Part } from '../../src/template.ts';
import { panelHoles } from './holes.ts';
import type { TankSizes } from './sizes.ts';
import type { Tank } from './inputs.ts';
import { topWishes } from './wishes.ts';

/** The top sheet's two sides, mm: across the tank and along it. */
export const topSizeMm = (
  v: Tank,
  { cavity: c, beyondMm, topSetbackMm }: TankSizes,
): readonly [widthMm: number, lengthMm: number] => [
  c.widthMm + 2 * (beyondMm - topSetbackMm),
  c.lengthMm + 2 * (v.thicknessMm - topSetbackMm),
];

/**
 * The top sheet: a flat sheet over the edges of the walls, drawn as seen from above with the deep
 * end below.
 */
export const tankTop = (
  v: Tank,
  s: TankSizes,
): { readonly part: Part; readonly findings: readonly Finding[] } => {
  const { outline, findings } = roundFreeCorners(
    'top',
    rectangle(0, 0, ...topSizeMm(v, s)),
    ['bottom', 'top'],
    v,
  );
  const part = assemble(v, {
    root: 'top',
    panels: [{ id: 'top', outline, cutouts: panelHoles(v, s, 'top') }],
    folds: [],
    wishes: topWishes(v),
  });
  return { part, findings };
};
