import { lacks } from '../model/measured.ts';
import { figure } from '../text/figures.ts';
import { warn } from '../model/finding.ts';
import { takes } from '../model/shop.ts';
import { type Check, cutterName } from './check.ts';

/** Thin sheet on a cutter that heats it. */
export const sheetWarps: Check = {
  rule: 'sheet-warps',
  title: 'The sheet is so thin that the heat of the cut warps it.',
  severities: ['warn'],
  reason:
    'The heat of the cut buckles thin sheet, which lifts into the torch and moves while it is cut.',
  source: 'warp limit of the cutter in the shop file; 1.5 mm on plasma is common practice',
  measured: 'the thickness against the warp limit of the cutter',
  mend: 'Cut it on a cooler cutter, or at low current and high speed, the edges held down.',
  run: ({ flat: { thicknessMm: t }, shop, cutting }) => {
    if (cutting === undefined || t > cutting.cutter.warpsUpTo) return [];
    const { cutter } = cutting;
    const cooler = shop.cutters.find((other) => takes(other, t) && t > other.warpsUpTo);
    const mend =
      cooler === undefined
        ? `Use sheet over ${figure(cutter.warpsUpTo)} mm`
        : `Cut it on ${cutterName(cooler)}, use sheet over ${figure(cutter.warpsUpTo)} mm`;
    const message =
      `Sheet of ${figure(t)} mm is likely to warp on ${cutterName(cutter)}, which cuts true over ${figure(cutter.warpsUpTo)} mm. ${mend}, ` +
      'or cut at low current and high speed, holes before the outline, the edges held down.';
    return [
      {
        ...warn(sheetWarps, message),
        inputs: ['thickness'],
        ...lacks(t, cutter.warpsUpTo),
      },
    ];
  },
};
