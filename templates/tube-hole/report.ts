import type { Report } from '../../src/template.ts';
import { axisMm, halfHole, panelMm, pointsRound } from './hole.ts';
import type { TubeHolePatch } from './inputs.ts';

/** Points of the hole that are told for whoever marks it by hand. */
const TOLD = 12;

/** The sizes of the hole, and points of it to mark it by hand. */
export const patchReport = (v: TubeHolePatch): Report => {
  const [half, reach] = halfHole(v);
  return {
    figures: [
      {
        name: 'length of the hole',
        value: 2 * reach,
        unit: 'mm',
        about:
          'Along the way in which the tube leans: D / cos a + t tan a, the tube with its room as D, and the grommet at both ends.',
      },
      { name: 'width of the hole', value: 2 * half, unit: 'mm' },
      {
        name: 'axis on the face',
        value: axisMm(v),
        unit: 'mm',
        about: `From the middle of the hole to where the axis meets a face of the panel of ${panelMm(v)} mm.`,
      },
    ],
    tables: [
      {
        title: 'Points of the hole, from its middle',
        columns: [
          { name: 'round the tube', unit: 'deg' },
          { name: 'to the right', unit: 'mm' },
          { name: 'towards the point', unit: 'mm' },
        ],
        rows: pointsRound(v, TOLD).map(([deg, [x, y]]) => [deg, x, y]),
      },
    ],
  };
};
