import {
  angleWish,
  diameterWish,
  edge,
  faceOf,
  type Feature,
  type Wish,
  wish,
} from '../../src/template.ts';
import {
  axisOnPanelMm,
  besideBoxMm,
  boltCircleMm,
  boxOf,
  flangeBolts,
  halfHole,
  hatOf,
  holeOnFaceMm,
  outerMm,
} from './sizes.ts';
import type { NeckPlate } from './inputs.ts';

const hole = (panel: string, from: string): Feature => ({ kind: 'hole', panel, from });

/** The outer size of a flat plate and the circle of its bolts. */
export const flatWishes = (v: NeckPlate, panel: string): Wish[] => [
  ...(v.shape === 'round'
    ? [diameterWish('outer', outerMm(v), panel, null)]
    : [wish('outer', outerMm(v), edge(panel, 'left'), edge(panel, 'right'))]),
  diameterWish('boltHole', v.boltHole, panel, 'bolt 1'),
  ...circleWishes(v, panel),
  ...tubeWishes(v, panel),
];

/** Bolts opposite each other are a diameter apart; with an odd number, neighbours a chord. */
const circleWishes = (v: NeckPlate, panel: string): Wish[] =>
  v.bolts % 2 === 0
    ? [
        wish(
          'boltCircle',
          boltCircleMm(v),
          hole(panel, 'bolt 1'),
          hole(panel, `bolt ${v.bolts / 2 + 1}`),
        ),
      ]
    : [
        wish(
          'boltCircle, between neighbours',
          boltCircleMm(v) * Math.sin(Math.PI / v.bolts),
          hole(panel, 'bolt 1'),
          hole(panel, 'bolt 2'),
        ),
      ];

const tubeWishes = (v: NeckPlate, panel: string): Wish[] =>
  v.mount === 'flat' && v.lean > 0
    ? []
    : [diameterWish('tube + 2 clear + 2 grommet', 2 * halfHole(v)[1], panel, 'tube 1')];

/** What the inputs mean on a raised or sunk box, beside what a hat has. */
export const boxWishes = (v: NeckPlate, ofHat: readonly Wish[]): Wish[] => {
  const { baseMm, wideMm, flangeMm } = boxOf(v);
  const { sideMm, crownMm } = hatOf(v);
  const inside = v.measure === 'inside';
  const more = inside ? 2 * v.thicknessMm : 0;
  const { edgeMm } = flangeBolts(v);
  return [
    wish(
      'base',
      baseMm - more,
      faceOf('side A', 'down', v.measure),
      faceOf('side B', 'down', v.measure),
    ),
    wish(
      'wide',
      wideMm - more,
      faceOf('cheek left', 'down', v.measure),
      faceOf('cheek right', 'down', v.measure),
    ),
    wish('low, to where the outsides meet', sideMm.A, faceOf('foot A', 'up', 'outside'), {
      kind: 'fold',
      panel: 'side A',
      fold: 'B',
      measure: 'outside',
    }),
    wish(
      'flange',
      flangeMm - (inside ? v.thicknessMm : 0),
      edge('foot A', 'down'),
      faceOf('side A', 'up', v.measure),
    ),
    ...(v.lean > 0 ? [angleWish('lean', v.lean, 'crown', 'foot A')] : []),
    ...tubeWishes(v, 'crown'),
    diameterWish('boltHole', v.boltHole, 'foot A', 'bolt 1'),
    wish('flange, half of it', edgeMm, hole('foot A', 'bolt 1'), edge('foot A', 'down')),
    wish('base, on the face', holeOnFaceMm(v), hole('crown', 'tube 1'), {
      kind: 'fold',
      panel: 'crown',
      fold: 'B',
      measure: 'outside',
    }),
    ...(crownMm > 0 ? ofHat.filter((w) => w.input !== 'width') : []),
  ];
};

/** The opening of the panel to the bolts or the edge of the patch. */
export const patchWishes = (v: NeckPlate, backMm: number): Wish[] => {
  const panel = 'panel hole';
  if (v.mount === 'flat')
    return [
      ...flatWishes({ ...v, shape: 'square' }, panel).filter(
        (w) => w.input !== 'outer' && w.input !== 'tube + 2 clear + 2 grommet',
      ),
      ...(backMm > 0 ? offsetWishes(v, backMm) : []),
      ...(v.shape === 'square'
        ? [wish('outer', outerMm(v), edge(panel, 'left'), edge(panel, 'right'))]
        : []),
    ];
  const { baseMm, wideMm, flangeMm } = boxOf(v);
  const flange = flangeMm - v.thicknessMm;
  return [
    wish(
      'wide over cheeks',
      wideMm + 2 * besideBoxMm(v),
      edge(panel, 'left'),
      edge(panel, 'right'),
    ),
    wish('base + 2 flange, covered', baseMm + 2 * flange, edge(panel, 'down'), edge(panel, 'up')),
    ...(v.mount === 'raised'
      ? [
          wish(
            'panelThickness, with low and lean',
            baseMm + flange - axisOnPanelMm(v),
            hole(panel, 'tube 1'),
            edge(panel, 'down'),
          ),
        ]
      : []),
  ];
};

/** From the middle of the opening to the first bolt, which no shift but the right one gives. */
const offsetWishes = (v: NeckPlate, backMm: number): Wish[] => {
  const a = (v.boltStart * Math.PI) / 180;
  const r = boltCircleMm(v) / 2;
  return [
    wish(
      'panelThickness, with lean',
      Math.hypot(r * Math.cos(a), r * Math.sin(a) + backMm),
      hole('panel hole', 'tube 1'),
      hole('panel hole', 'bolt 1'),
    ),
  ];
};
