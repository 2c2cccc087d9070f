import { edge, faceOf, holeWishes, wish } from '../../src/template.ts';
import type { Feature, Wish } from '../../src/template.ts';
import { isHem, isInward, type Lip, lipOf, type Side, SIDES } from './sizes.ts';
import type { Tray } from './inputs.ts';

/**
 * Inputs of a side's holes, and what their two figures are measured from: base and rim, left and
 * right end seen from outside.
 */
const ENDS: Readonly<
  Record<
    Side,
    {
      readonly input: 'holesFront' | 'holesRight' | 'holesBack' | 'holesLeft';
      readonly left: Side;
      readonly right: Side;
    }
  >
> = {
  front: { input: 'holesFront', left: 'left', right: 'right' },
  right: { input: 'holesRight', left: 'front', right: 'back' },
  back: { input: 'holesBack', left: 'right', right: 'left' },
  left: { input: 'holesLeft', left: 'back', right: 'front' },
};

/** What the inputs of a tray mean on it, as they were given. */
export const trayWishes = (given: Tray, lipFoldOf: (side: Side) => string): Wish[] => {
  const { measure } = given;
  const face = (panel: string): Feature => faceOf(panel, 'up', measure);
  const rim = (side: Side): Feature => rimOf(side, lipOf(given, side), lipFoldOf(side));
  return [
    wish('length', given.length, face('left'), face('right')),
    wish('depth', given.depth, face('front'), face('back')),
    ...holeWishes('holesBase', given.holesBase, {
      panel: 'base',
      across: [face('front'), face('back')],
      along: [face('left'), face('right')],
    }),
    ...SIDES.flatMap((side) => {
      const { input, left, right } = ENDS[side];
      return [
        wish('height', given.height, rim(side), face('base')),
        ...lipWishes(given, side, lipFoldOf(side)),
        ...holeWishes(input, given[input], {
          panel: side,
          across: [face('base'), rim(side)],
          along: [face(left), face(right)],
        }),
      ];
    }),
    ...(given.corner === 'lapped' ? lapWishes(given) : []),
  ];
};

/** The top of a side, which depends on the lip that is folded on there. */
const rimOf = (side: Side, lip: Lip, fold: string): Feature => {
  if (lip === 'none') return edge(side, 'up');
  if (isHem(lip)) return { kind: 'fold', panel: side, fold, measure: 'outside' };
  return faceOf(`${side} lip`, isInward(lip) ? 'up' : 'down', 'outside');
};

const lipWishes = (given: Tray, side: Side, fold: string): Wish[] => {
  const lip = lipOf(given, side);
  if (lip === 'none') return [];
  const panel = `${side} lip`;
  const corner: Feature = isHem(lip)
    ? { kind: 'fold', panel, fold, measure: given.measure }
    : faceOf(side, isInward(lip) ? 'up' : 'down', given.measure);
  return [wish('lipDepth', given.lipDepth, edge(panel, 'up'), corner)];
};

const lapWishes = (given: Tray): Wish[] =>
  (['front', 'back'] as const).flatMap((side) =>
    (['left', 'right'] as const).map((neighbour) =>
      wish(
        'lap',
        given.lap,
        edge(`${side} tab at ${neighbour}`, 'up'),
        faceOf(side, 'up', given.measure),
      ),
    ),
  );
