import { diameterWish, edge, faceOf, type Feature, type Part, wish } from '../../src/template.ts';
import { insideMm } from './sizes.ts';
import type { Strap } from './inputs.ts';

/**
 * What the inputs mean on the strap besides the wishes of every strip: the size that it goes over,
 * and the places of its bolts.
 */
export const withStrapWishes = (v: Strap, part: Part): Part => {
  const [one, other] = ['A', 'B'].map((s): Feature => faceOf(`side ${s}`, 'down', 'inside')) as [
    Feature,
    Feature,
  ];
  const bolts = ['A', 'B'].map((s): Feature => ({
    kind: 'hole',
    panel: `foot ${s}`,
    from: 'boltHole 1',
  })) as [Feature, Feature];
  return {
    ...part,
    wishes: [
      wish('across + 2 rubber', insideMm(v), one, other),
      wish('boltCentres', v.boltCentres, ...bolts),
      ...(v.pullUp > 0
        ? []
        : ['A', 'B'].map((s) => diameterWish('boltHole', v.boltHole, `foot ${s}`, 'boltHole 1'))),
      wish('beyond', v.beyond, bolts[0], edge('foot A', 'down')),
      wish('beyond', v.beyond, bolts[1], edge('foot B', 'up')),
      ...(v.over === 'box'
        ? [
            wish(
              'height + rubber - pullUp',
              v.height + v.rubber - v.pullUp,
              faceOf('crown', 'down', 'inside'),
              faceOf('foot A', 'up', 'outside'),
            ),
          ]
        : []),
      ...(part.wishes ?? []).filter((w) => !w.input.startsWith('boltHole')),
    ],
  };
};
