import { edge, faceOf, type Feature, holeWishes, wish, type Wish } from '../../src/template.ts';
import type { Side } from './sizes.ts';
import type { Gusset } from './inputs.ts';

/**
 * What the inputs mean on the bracket, as they were given. The tip of a cheek beside the upright is
 * cut off, so its height cannot be measured there.
 */
export const gussetWishes = (given: Gusset, sides: readonly Side[]): Wish[] => {
  const face = (panel: string): Feature => faceOf(panel, 'up', given.measure);
  const end = (side: Side): Feature =>
    sides.includes(side) ? face(`${side} cheek`) : edge('base', side);
  const along = [end('left'), end('right')] as const;
  return [
    wish('base', given.base, edge('base', 'down'), face('upright')),
    wish('upright', given.upright, edge('upright', 'up'), face('base')),
    wish('width', given.width, ...along),
    ...sides.map((side) =>
      wish(
        'gussetDepth',
        given.gussetDepth,
        edge(`${side} cheek`, side === 'left' ? 'left' : 'right'),
        face('upright'),
      ),
    ),
    ...holeWishes('holesBase', given.holesBase, {
      panel: 'base',
      across: [face('upright'), edge('base', 'down')],
      along,
    }),
    ...holeWishes('holesUpright', given.holesUpright, {
      panel: 'upright',
      across: [face('base'), edge('upright', 'up')],
      along,
    }),
    ...sides.flatMap((side) => {
      const input = side === 'left' ? 'holesLeft' : 'holesRight';
      return holeWishes(input, given[input], {
        panel: `${side} cheek`,
        across: [face('base')],
        along: [face('upright')],
      });
    }),
  ];
};
