import { type Report, reachOf, widthOf } from '../../src/template.ts';
import {
  axisOnPanelMm,
  boltCircleMm,
  boxOf,
  halfHole,
  hatOf,
  outerMm,
  panelHole,
} from './sizes.ts';
import type { NeckPlate } from './inputs.ts';

/** Sizes of the hole in the plate and of that in the panel. */
export const neckReport = (v: NeckPlate): Report => {
  const [half, across] = halfHole(v);
  const panel = panelHole(v).shape;
  const opening =
    v.mount === 'sunk'
      ? []
      : [
          {
            name: 'length of the hole in the panel',
            value: 2 * reachOf(panel, v.panelThickness),
            unit: 'mm',
            about: 'D / cos a + t tan a, with panelClear all round.',
          },
          { name: 'width of the hole in the panel', value: widthOf(panel), unit: 'mm' },
        ];
  return {
    figures: [
      { name: 'length of the hole in the plate', value: 2 * half, unit: 'mm' },
      { name: 'width of the hole in the plate', value: 2 * across, unit: 'mm' },
      ...opening,
      ...(v.mount === 'flat'
        ? [
            { name: 'outer', value: outerMm(v), unit: 'mm' },
            { name: 'bolt circle', value: boltCircleMm(v), unit: 'mm' },
          ]
        : [
            { name: 'base, outside', value: boxOf(v).baseMm, unit: 'mm' },
            { name: 'width, outside', value: boxOf(v).wideMm, unit: 'mm' },
            { name: 'high wall', value: hatOf(v).sideMm.B, unit: 'mm' },
            {
              name: 'axis on the panel',
              value: axisOnPanelMm(v),
              unit: 'mm',
              about: 'From the outside of the low wall, in the middle of the panel.',
            },
          ]),
    ],
  };
};
