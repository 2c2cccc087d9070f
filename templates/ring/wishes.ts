import { diameterWish, edge, type Feature, wish, type Wish } from '../../src/template.ts';
import { heightOf } from './sizes.ts';
import type { Ring } from './inputs.ts';

/** What the inputs mean on the ring. */
export const ringWishes = (v: Ring): Wish[] => {
  const hole = (from: string): Feature => ({ kind: 'hole', panel: 'flange', from });
  const square = [
    wish('outer', v.outer, edge('flange', 'left'), edge('flange', 'right')),
    wish('outerHeight', heightOf(v), edge('flange', 'down'), edge('flange', 'up')),
  ];
  return [
    ...(v.shape === 'round' ? [diameterWish('outer', v.outer, 'flange', null)] : square),
    ...(v.inner > 0 ? [diameterWish('inner', v.inner, 'flange', 'inner')] : []),
    ...(v.bolts > 0 ? [diameterWish('boltHole', v.boltHole, 'flange', 'bolt 1')] : []),
    // Bolts opposite each other are a diameter of the circle apart; with an odd number, neighbours
    // are a chord of it apart.
    ...(v.bolts > 1 && v.bolts % 2 === 0
      ? [wish('boltCircle', v.boltCircle, hole('bolt 1'), hole(`bolt ${v.bolts / 2 + 1}`))]
      : []),
    ...(v.bolts > 1 && v.bolts % 2 === 1
      ? [
          wish(
            'boltCircle, between neighbours',
            v.boltCircle * Math.sin(Math.PI / v.bolts),
            hole('bolt 1'),
            hole('bolt 2'),
          ),
        ]
      : []),
  ];
};
