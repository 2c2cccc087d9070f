import { edge, faceOf, figure, holeWishes, wish } from '../../src/template.ts';
import type { Feature, Wish } from '../../src/template.ts';
import type { Vent } from './inputs.ts';
import { foldOf, grownMm, type Side, SIDES, trimAtMm } from './sizes.ts';

const FACING = { bottom: 'down', right: 'right', top: 'up', left: 'left' } as const;

/** What the inputs of a panel mean on it, margins for trimming included. */
export const ventWishes = (given: Vent): Wish[] => {
  const end = (side: Side): Feature => {
    const way = foldOf(given, side);
    return way === undefined
      ? edge('face', FACING[side])
      : faceOf(`${side} flange`, way, given.measure);
  };
  const margin = (...sides: Side[]): number =>
    sides.reduce((sum, side) => sum + grownMm(given, side), 0);
  const [wide, high] = [margin('left', 'right'), margin('bottom', 'top')];
  return [
    wish(`width${plus(given, wide)}`, given.width + wide, end('left'), end('right')),
    wish(`height${plus(given, high)}`, given.height + high, end('bottom'), end('top')),
    ...SIDES.flatMap((side) => flangeWish(given, side)),
    ...louvreWishes(given, end, margin),
    ...holeWishes('holes', given.holes, {
      panel: 'face',
      across: [end('bottom'), end('top')],
      along: [end('left'), end('right')],
      beyond: { mm: [margin('bottom'), margin('left')], called: ' + trim' },
    }),
  ];
};

/** ` + trim` or ` + 2 trim`, where there is any. */
const plus = (given: Vent, mm: number): string => {
  if (mm === 0) return '';
  const times = mm / Math.max(trimAtMm(given, 'bottom'), trimAtMm(given, 'left'));
  return times > 1 ? ` + ${figure(times)} trim` : ' + trim';
};

const flangeWish = (given: Vent, side: Side): Wish[] => {
  const way = foldOf(given, side);
  const trim = trimAtMm(given, side);
  return way === undefined
    ? []
    : [
        wish(
          `flange${trim === 0 ? '' : ' + trim'}`,
          given.flange + trim,
          edge(`${side} flange`, 'up'),
          faceOf('face', way, given.measure),
        ),
      ];
};

/** Where the first lance is, and how far the next ones are from it. */
const louvreWishes = (
  given: Vent,
  end: (side: Side) => Feature,
  margin: (side: Side) => number,
): Wish[] => {
  if (given.louvres === 0) return [];
  const lance = (n: number): Feature => ({ kind: 'hole', panel: 'face', from: `louvres ${n}` });
  const place = (input: 'louvresAcross' | 'louvresUp', side: Side): Wish[] => {
    const mm = given[input];
    const trim = margin(side);
    return mm === undefined
      ? []
      : [wish(`${input}${trim === 0 ? '' : ' + trim'}`, mm + trim, lance(1), end(side))];
  };
  return [
    ...place('louvresAcross', 'left'),
    ...place('louvresUp', 'bottom'),
    ...(given.louvres > 1 ? [wish('louvrePitch', given.louvrePitch, lance(1), lance(2))] : []),
    ...(given.louvreRows > 1
      ? [wish('louvreRowPitch', given.louvreRowPitch, lance(1), lance(given.louvres + 1))]
      : []),
  ];
};
