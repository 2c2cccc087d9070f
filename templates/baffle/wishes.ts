import { diameterWish, edge, faceOf, holeWishes, wish } from '../../src/template.ts';
import type { CommonValues, Feature, Wish } from '../../src/template.ts';
import type { BaffleAsk } from './plate.ts';
import type { BaffleSide } from './section.ts';

const FACING = { floor: 'down', right: 'right', roof: 'up', left: 'left' } as const;

/**
 * What the inputs of a baffle mean on it: its flanges, and its size between the walls that it
 * clears. Where the floor slopes to a side, the height over it is not a single length; where it
 * slopes along the tank, its flange is not one either.
 */
export const baffleWishes = (v: CommonValues, ask: BaffleAsk, flowCount: number): Wish[] => {
  const { section, clearanceMm } = ask;
  const end = (side: BaffleSide): Feature =>
    ask.flanges.includes(side)
      ? faceOf(`${side} flange`, 'up', 'outside')
      : edge('baffle', FACING[side]);
  const isLevel = section.leftDepthMm === section.rightDepthMm && section.floorSlopeDeg === 0;
  const isRound = section.floorRadiusMm > 0 || section.roofRadiusMm > 0;
  const square = ask.flanges.filter((side) => side !== 'floor' || section.floorSlopeDeg === 0);
  return [
    // The edge of a plate without flanges consists only of arcs where the corners of the tank are
    // round enough.
    ...(isRound
      ? []
      : [
          wish('width - 2 clearance', section.widthMm - 2 * clearanceMm, end('left'), end('right')),
        ]),
    ...(isLevel && !isRound
      ? [
          wish(
            'height - 2 clearance',
            section.leftDepthMm - 2 * clearanceMm,
            end('floor'),
            end('roof'),
          ),
        ]
      : []),
    ...square.map((side) =>
      wish('flange', ask.flangeMm, edge(`${side} flange`, 'up'), faceOf('baffle', 'up', v.measure)),
    ),
    ...(flowCount > 0
      ? [diameterWish('holeDiameter', ask.flow.diameterMm, 'baffle', 'flow 1')]
      : []),
    ...holeWishes('holesPanel', ask.holes, {
      panel: 'baffle',
      across: [isLevel && !isRound ? end('floor') : undefined],
      along: [isRound ? undefined : end('left')],
      beyond: { mm: [-clearanceMm, -clearanceMm], called: ' - clearance' },
    }),
  ];
};
