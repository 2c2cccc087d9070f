import { exceeds, lacks } from '../model/measured.ts';
import { figure } from '../text/figures.ts';
import { type Check, cutterName, impossible } from './check.ts';

/** Sheet thicker or thinner than any cutter takes. */
export const noCutterTakesSheet: Check = {
  rule: 'no-cutter-takes-sheet',
  title: 'No cutter of the shop takes sheet of this thickness.',
  severities: ['stop', 'warn'],
  reason: 'A cutter does not get through thicker sheet, and burns thinner sheet away.',
  source: 'thickness range of the cutters in the shop file',
  measured: 'the thickness against the ranges of the cutters',
  mend: 'Choose another sheet, or have it cut elsewhere.',
  run: ({ flat, shop, cutting }) => {
    if (cutting !== undefined) return [];
    const ranges = shop.cutters.map(
      (cutter) =>
        `${cutterName(cutter)} ${figure(cutter.thickness.from)} to ${figure(cutter.thickness.to)} mm`,
    );
    const message = `No cutter of the shop takes sheet of ${figure(flat.thicknessMm)} mm: ${ranges.join(', ')}. Choose a sheet within these, or have it cut elsewhere and add that cutter to the shop file.`;
    const thickest = Math.max(...shop.cutters.map(({ thickness }) => thickness.to));
    const thinnest = Math.min(...shop.cutters.map(({ thickness }) => thickness.from));
    const t = flat.thicknessMm;
    return [
      {
        ...impossible(shop, noCutterTakesSheet, message),
        inputs: ['thickness'],
        ...(t > thickest && exceeds(t, thickest)),
        ...(t < thinnest && lacks(t, thinnest)),
      },
    ];
  },
};
