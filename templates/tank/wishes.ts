import { diameterWish, edge, faceOf, holeWishes, wish } from '../../src/template.ts';
import type { Feature, Wish } from '../../src/template.ts';
import { MEASURED_FROM, OTHER_HOLES } from './holes.ts';
import { FITTINGS, type TankPanel } from './sizes.ts';
import type { Tank } from './inputs.ts';

/**
 * How far the edges of the wrap lie, at either side, beyond the faces between which the width is
 * measured.
 */
const beyondWidthMm = (v: Tank): number => {
  if (v.measure === 'outside') return 0;
  return v.ends === 'flush' ? v.thicknessMm : v.endFlange + v.thicknessMm;
};

const isBox = (v: Tank): boolean => v.heightShallow === undefined || v.heightShallow === v.height;

/** How far below the top of the measured height the end walls stop. */
const belowTopMm = (v: Tank): number =>
  v.cornerGapMm + (v.measure === 'outside' ? v.thicknessMm : 0);

/**
 * What the inputs mean on the wrap. Its bends are square on a box only: on a wedge, a length along
 * the floor or up an end is not a distance from a face.
 */
export const wrapWishes = (v: Tank): Wish[] => {
  const face = (panel: string): Feature => faceOf(panel, 'up', v.measure);
  const more = beyondWidthMm(v);
  const along = [edge('floor', 'left'), edge('floor', 'right')] as const;
  const called = v.ends === 'flush' ? 'thickness' : '(endFlange + thickness)';
  return [
    wish(more === 0 ? 'width' : `width + 2 ${called}`, v.width + 2 * more, ...along),
    wish('length', v.length, face('deep'), face('shallow')),
    ...(isBox(v)
      ? (['deep', 'shallow'] as const).map((end) =>
          wish(
            'height less what the end stops below it',
            v.height - belowTopMm(v),
            edge(end, 'up'),
            face('floor'),
          ),
        )
      : []),
    ...placesIn(
      v,
      'floor',
      [isBox(v) ? face('deep') : undefined],
      [edge('floor', 'left')],
      [0, more],
    ),
    ...(['deep', 'shallow'] as const).flatMap((end) =>
      placesIn(
        v,
        end,
        [isBox(v) ? face('floor') : undefined],
        [edge(end, end === 'deep' ? 'right' : 'left')],
        [0, more],
      ),
    ),
  ];
};

/**
 * What the inputs mean on a plate that closes a side, a weld gap from the walls all round. It is
 * drawn as seen from outside, the left one mirrored.
 */
export const endWishes = (v: Tank, side: 'left' | 'right'): Wish[] => {
  const wall = v.measure === 'outside' ? v.thicknessMm : 0;
  const end = (name: string, facing: 'left' | 'right' | 'up' | 'down'): Feature =>
    v.ends === 'flush' ? edge(side, facing) : faceOf(`${name} flange`, 'up', 'outside');
  const less = -(wall + v.cornerGapMm);
  const inner = v.measure === 'outside' ? 'less walls and gaps' : 'less gaps';
  return [
    wish(`length ${inner}`, v.length + 2 * less, end('deep', 'left'), end('shallow', 'right')),
    ...(isBox(v)
      ? [wish(`height ${inner}`, v.height + 2 * less, end('floor', 'down'), end('roof', 'up'))]
      : []),
    ...(v.ends === 'flush'
      ? []
      : [wish('endFlange', v.endFlange, edge('deep flange', 'up'), faceOf(side, 'up', v.measure))]),
    ...placesIn(
      v,
      side,
      [isBox(v) ? end('floor', 'down') : undefined],
      [end('deep', 'left')],
      [less, less],
    ),
  ];
};

/** What the inputs mean on the top sheet, whose edges stand back from the outside of the walls. */
export const topWishes = (v: Tank): Wish[] => {
  const back = v.topSetback ?? v.thicknessMm / 2;
  const [beyondLength, beyondWidth] = [
    v.measure === 'outside' ? 0 : v.thicknessMm,
    beyondWidthMm(v),
  ];
  return [
    wish(
      'length over the top sheet',
      v.length + 2 * (beyondLength - back),
      edge('top', 'down'),
      edge('top', 'up'),
    ),
    wish(
      'width over the top sheet',
      v.width + 2 * (beyondWidth - back),
      edge('top', 'left'),
      edge('top', 'right'),
    ),
    ...placesIn(
      v,
      'top',
      [edge('top', 'down')],
      [edge('top', 'left')],
      [beyondLength - back, beyondWidth - back],
    ),
  ];
};

/** Places of all holes of a panel, and the size of its fittings. */
const placesIn = (
  v: Tank,
  panel: TankPanel,
  across: readonly [Feature | undefined],
  along: readonly [Feature],
  mm: readonly [number, number],
): Wish[] => {
  const fittings = FITTINGS.filter((name) => v[`${name}On`] === panel);
  return [...fittings, OTHER_HOLES[panel]].flatMap((input) => [
    ...holeWishes(input, v[input], {
      panel,
      across,
      along,
      words: MEASURED_FROM[panel],
      beyond: { mm, called: ', from the edge of its blank' },
    }),
    ...v[input].flatMap(({ shape, number }) =>
      shape.kind === 'round'
        ? [diameterWish(`${input} ${number}`, shape.diameterMm, panel, `${input} ${number}`)]
        : [],
    ),
  ]);
};
