import { edge, rolledWish, wish } from '../../src/template.ts';
import type { Wish } from '../../src/template.ts';
import { type OwnHole, type ShellSizes, xAt } from './sizes.ts';
import type { Shell } from './inputs.ts';

const FRAME = { at: [0, 0], round: [1, 0], axis: [0, 1] } as const;

/** How far apart the two edges of a piece come to stand when it is rolled, mm. */
const apartMm = (v: Shell, s: ShellSizes): number => {
  const missing = s.hasLap
    ? 360 - s.pieceDeg - (v.lap / s.middleMm / Math.PI) * 180
    : 360 - s.pieceDeg + (s.gapMm / s.middleMm / Math.PI) * 180;
  return Math.abs(2 * s.middleMm * Math.sin((missing * Math.PI) / 360));
};

/** What the inputs mean on a piece of a shell. */
export const wishesOf = (v: Shell, s: ShellSizes, holes: readonly OwnHole[]): Wish[] => {
  const on = {
    panel: 'wall',
    frame: FRAME,
    shape: { kind: 'cylinder', radiusMm: s.middleMm },
  } as const;
  const [low, high] = [0, v.length];
  const right = s.aroundMm;
  const round =
    s.flange === undefined
      ? [
          rolledWish('diameter, lower end of the seam', apartMm(v, s), on, [
            [0, low],
            [right, low],
          ]),
          rolledWish('diameter, upper end of the seam', apartMm(v, s), on, [
            [0, high],
            [right, high],
          ]),
          rolledWish(
            'length, lower end in its plane',
            0,
            on,
            [
              [0, low],
              [right, low],
            ],
            {
              at: [0, 0, 0],
              normal: [0, 0, 1],
            },
          ),
          rolledWish(
            'length, upper end in its plane',
            0,
            on,
            [
              [right, high],
              [0, high],
            ],
            {
              at: [0, 0, high],
              normal: [0, 0, 1],
            },
          ),
        ]
      : flangeWishes(v, s, s.flange);
  return [
    ...round,
    wish('length', v.length, edge('wall', 'down'), edge('wall', 'up')),
    ...holes.flatMap(({ number, deg }) => {
      const hole = { kind: 'hole', panel: 'wall', from: `holes ${number}` } as const;
      const { upMm } = v.holes[number - 1] as Shell['holes'][number];
      return [
        wish(`holes ${number} from bottom`, Math.abs(upMm), hole, edge('wall', 'down')),
        ...(s.flange === undefined
          ? [wish(`holes ${number} from left`, xAt(s, deg), hole, edge('wall', 'left'))]
          : []),
      ];
    }),
  ];
};

const flangeWishes = (
  v: Shell,
  s: ShellSizes,
  flange: NonNullable<ShellSizes['flange']>,
): Wish[] => {
  const at = (fold: string, panel = 'wall') =>
    ({ kind: 'fold', panel, fold, measure: 'outside' }) as const;
  return [
    wish('diameter, round the wall', s.aroundMm + 2 * flange.setbackMm, at('A'), at('B')),
    wish('flange', v.flange, edge('flange left', 'left'), at('A', 'flange left')),
    wish('flange, right', v.flange, edge('flange right', 'right'), at('B', 'flange right')),
  ];
};
