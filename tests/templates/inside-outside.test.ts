import { describe, expect, test } from 'vitest';
import { FAMILIES } from '../../templates/index.ts';
import { make, rulesOf } from '../helpers/check-template.ts';

/**
 * Inside and outside sizes that belong together make the same blank, byte for byte. By how much
 * they differ is geometry: each leg ends t tan(A/2) sooner at a bend of angle A up to square, and t
 * over that (DIN 6935 measures to the tangent).
 */
const T = 2;
const SHEET = { thickness: T, radius: 3, material: 's235' };
const atBend = (deg: number): number => T * (deg > 90 ? 1 : Math.tan((deg * Math.PI) / 360));

type Inputs = Readonly<Record<string, unknown>>;
interface Pair {
  readonly family: string;
  readonly outside: Inputs;
  /** What each length is less inside. */
  readonly less: Readonly<Record<string, number>>;
  /** Inputs of holes, as they are from inside faces. */
  readonly holes?: Inputs;
}

const [square, deg30, deg120] = [atBend(90), atBend(30), atBend(120)];
const strip = (
  family: string,
  lengths: Readonly<Record<string, readonly [mm: number, bends: number]>>,
): Pair[] =>
  (
    [
      [30, deg30],
      [90, square],
      [120, deg120],
    ] as const
  ).map(([bendAngle, by]) => ({
    family,
    outside: {
      ...Object.fromEntries(Object.entries(lengths).map(([name, [mm]]) => [name, mm])),
      width: 60,
      bendAngle,
    },
    less: Object.fromEntries(
      Object.entries(lengths).map(([name, [, bends]]) => [name, bends * by]),
    ),
  }));

/** A wall that leans by `slope` is t / cos thick along the opening. */
const leaning = (slope: number): number => T * Math.hypot(1, slope);

const PAIRS: readonly Pair[] = [
  ...strip('bracket-angle', { legA: [60, 1], legB: [40, 1] }),
  ...strip('bracket-channel', { web: [80, 2], flangeA: [40, 1], flangeB: [50, 1] }),
  ...strip('bracket-zed', { offset: [60, 2], flangeA: [40, 1], flangeB: [50, 1] }),
  ...strip('bracket-hat', {
    crown: [80, 2],
    height: [60, 2],
    footA: [40, 1],
    footB: [50, 1],
  }).filter(({ outside }) => outside['bendAngle'] !== 120),
  {
    family: 'bracket-angle',
    outside: { legA: 60, legB: 40, width: 80, holesA: '35,20,M8; from edge 12, from right 20, 5' },
    less: { legA: T, legB: T },
    holes: { holesA: `${35 - T},20,M8; from edge 12, from right 20, 5` },
  },
  ...(['left', 'right', 'both'] as const).flatMap((gussetSide): Pair[] => {
    const sides = gussetSide === 'both' ? 2 : 1;
    const [left, right] = [gussetSide === 'right' ? 0 : T, gussetSide === 'left' ? 0 : T];
    return [
      {
        family: 'bracket-gusset',
        outside: {
          base: 80,
          upright: 100,
          width: 60,
          gussetDepth: 60,
          gussetHeight: 60,
          gussetSide,
          holesBase: '60,20,6; from edge 12, from right 20, 4',
          holesUpright: '70,25,6; from edge 12, middle, 4',
        },
        less: { base: T, upright: T, width: sides * T, gussetDepth: T, gussetHeight: T },
        // What lies in the middle of the width over one cheek does not lie in the middle of what is
        // beside it.
        holes: {
          holesBase: `${60 - T},${20 - left},6; from edge 12, from right ${20 - right}, 4`,
          holesUpright: `${70 - T},${25 - left},6; from edge 12, from left ${30 - left}, 4`,
        },
      },
    ];
  }),
  ...(['open', 'butt', 'lapped'] as const).flatMap((corner) =>
    (['none', 'in', 'out', 'hem-in'] as const).map((lip): Pair => ({
      family: 'tray',
      outside: {
        length: 200,
        depth: 140,
        height: 60,
        corner,
        lap: 20,
        lipFront: lip,
        lipLeft: lip,
        lipDepth: 14,
        hemRadius: 1,
        holesBase: '40,50,6',
        holesRight: '25,60,6',
        holesBack: 'from top 30, from left 50, 6',
        cableSide: 'right',
        cableAt: 100,
      },
      less: { length: 2 * T, depth: 2 * T, height: T, lap: T, lipDepth: T, cableAt: T },
      holes: {
        holesBase: `${40 - T},${50 - T},6`,
        holesRight: `${25 - T},${60 - T},6`,
        holesBack: `from top 30, from left ${50 - T}, 6`,
      },
    })),
  ),
  {
    family: 'tank',
    outside: {
      length: 600,
      width: 400,
      height: 300,
      flange: 20,
      longestBay: 350,
      filler: '80,200,60',
      outlet: '40,100,20',
    },
    less: { length: 2 * T, width: 2 * T, height: 2 * T, flange: T },
    holes: { filler: `${80 - T},${200 - T},60`, outlet: `${40 - T},${100 - T},20` },
  },
  {
    family: 'tank',
    outside: {
      length: 600,
      width: 400,
      height: 300,
      flange: 20,
      longestBay: 700,
      ends: 'flanged',
      endFlange: 20,
    },
    less: { length: 2 * T, width: 2 * 20, height: 2 * T, flange: T, endFlange: T },
  },
  { family: 'baffle', outside: { width: 300, height: 200, flange: 20 }, less: { flange: T } },
  {
    family: 'duct-box',
    outside: { width: 240, height: 160, endWidth: 240, endHeight: 160, length: 200, lip: 20 },
    less: { width: 2 * T, height: 2 * T, endWidth: 2 * T, endHeight: 2 * T, lip: T },
  },
  {
    family: 'duct-box',
    outside: { width: 240, height: 160, endWidth: 160, endHeight: 120, length: 200, lip: 0 },
    less: {
      width: 2 * leaning(0.2),
      endWidth: 2 * leaning(0.2),
      height: 2 * leaning(0.1),
      endHeight: 2 * leaning(0.1),
    },
  },
  {
    family: 'duct-between',
    outside: { near: '240 x 160 r20', far: 'round 100', length: 180, offsetRight: 40 },
    less: {},
    holes: { near: `${240 - 2 * T} x ${160 - 2 * T} r${20 - T}`, far: `round ${100 - 2 * T}` },
  },
  {
    family: 'duct-transition',
    outside: { width: 200, depth: 150, diameter: 100, length: 180 },
    less: { width: 2 * T, depth: 2 * T, diameter: 2 * T },
  },
  // A wedge of 18 degrees: flanges turned by 18 at the rear, square to the riser in front, the
  // riser by 108 from the tread.
  {
    family: 'heel-rest',
    outside: {
      floorAngle: -18,
      width: 160,
      treadDepth: 110,
      lipHeight: 0,
      flangeFront: 25,
      flangeRear: 25,
      holesFront: '14,20,6',
    },
    less: {
      width: 2 * T,
      treadDepth: atBend(18) + atBend(108),
      flangeFront: T,
      flangeRear: atBend(18),
    },
    holes: { holesFront: `${14 - T},${20 - T},6` },
  },
  {
    family: 'plate',
    outside: {
      outline: '0,0; 80,0; 80,80; 0,80',
      folds: '0,50 80,50 90 up',
      holes: '20,20,6; 20,70,6',
    },
    less: {},
    holes: {
      outline: `0,0; 80,0; 80,${80 - 2 * T}; 0,${80 - 2 * T}`,
      folds: `0,${50 - T} 80,${50 - T} 90 up`,
      holes: `20,20,6; 20,${70 - 2 * T},6`,
    },
  },
  {
    family: 'strut-brace',
    outside: {
      points: 'A: 0,0; B: 110,0; C: 50,80',
      outline: '-30,-40; 140,-40; 140,110; -30,110',
      return: 'bottom',
      returnHeight: 20,
      returnInset: 0,
      hand: 'left',
    },
    less: { returnHeight: T },
    holes: { outline: `-30,${-40 + T}; 140,${-40 + T}; 140,110; -30,110` },
  },
  {
    family: 'panels',
    outside: {
      base: '100 x 60',
      flanges: 'lip on top 30 90 up; wall on right 25 90 up; rim on wall end 12 90 up',
    },
    less: {},
    holes: {
      base: `${100 - T} x ${60 - T}`,
      flanges: `lip on top ${30 - T} 90 up; wall on right ${25 - 2 * T} 90 up; rim on wall end ${12 - T} 90 up`,
    },
  },
  {
    family: 'tank-plan',
    outside: { outline: '0,0; 300,0; 300,200; 0,200', floor: '0', top: '150' },
    less: {},
    holes: {
      outline: `${T},${T}; ${300 - T},${T}; ${300 - T},${200 - T}; ${T},${200 - T}`,
      floor: String(T),
      top: String(150 - T),
    },
  },
  {
    family: 'tank-sections',
    outside: { sections: '0: 0,0; 300,0; 300,150; 0,150 | 400: 0,0; 300,0; 300,150; 0,150' },
    less: {},
    holes: {
      sections: [T, 400 - T]
        .map((at) => `${at}: ${T},${T}; ${300 - T},${T}; ${300 - T},${150 - T}; ${T},${150 - T}`)
        .join(' | '),
    },
  },
  {
    family: 'cradle',
    outside: {
      length: 600,
      width: 350,
      depth: 250,
      slopeAlong: 4,
      leftStrap: 120,
      rightStrap: 120,
      boltCentres: 430,
      chassisPitch: 680,
      rail: 'channel',
      railWeb: 50,
      railLip: 12,
    },
    less: { railWeb: 2 * T, railLip: T },
  },
  {
    family: 'neck-plate',
    outside: {
      mount: 'sunk',
      tube: 50,
      lean: 30,
      base: 130,
      wide: 100,
      low: 20,
      flange: 24,
      bolts: 2,
    },
    less: {
      base: 2 * T,
      wide: 2 * T,
      low: T / Math.cos(Math.PI / 6) - T * Math.tan(Math.PI / 6),
      flange: T,
    },
  },
  {
    family: 'vent-panel',
    outside: {
      width: 300,
      height: 260,
      foldLeft: 'up',
      foldTop: 'down',
      flange: 15,
      louvres: 3,
      louvresAcross: 150,
      louvresUp: 60,
      beads: 1,
      beadRun: 'upright',
      beadsAt: 40,
      trim: 2,
    },
    less: { width: T, height: T, flange: T, louvresAcross: T, beadsAt: T },
  },
  // What is measured of these, or what they go over, has no inside and outside of its own.
  { family: 'saddle', outside: { diameter: 42.4, boltFrom: 45 }, less: {} },
  { family: 'shell', outside: { diameter: 220, length: 120 }, less: {} },
  { family: 'cone', outside: { largeDiameter: 130, smallDiameter: 80, height: 110 }, less: {} },
  { family: 'elbow', outside: { diameter: 80 }, less: {} },
  { family: 'strap', outside: { across: 150, height: 100, boltCentres: 220 }, less: {} },
  { family: 'ring', outside: { outer: 120, inner: 62, boltCircle: 92 }, less: {} },
  { family: 'tube-hole', outside: { tube: 60, lean: 30 }, less: {} },
  { family: 'test-strip', outside: { flatLength: 120, width: 40, nick: 0 }, less: {} },
];

const dxfOf = async (family: string, inputs: Inputs): Promise<string[]> => {
  const parts = await make(family, { ...SHEET, ...inputs });
  for (const part of parts) expect(rulesOf(part, 'stop')).toEqual([]);
  return parts.map((p) => p.files().find((f) => f.name.endsWith('.dxf'))?.contents ?? '');
};

describe.each(
  PAIRS.map((pair) => [`${pair.family} ${JSON.stringify(pair.outside)}`, pair] as const),
)('%s', (_, { family, outside, less, holes = {} }) => {
  test('is the same by its inside', async () => {
    const inside = Object.fromEntries(
      Object.entries(less).map(([name, by]) => [name, Number(outside[name]) - by]),
    );
    expect(await dxfOf(family, { ...outside, ...inside, ...holes, measure: 'inside' })).toEqual(
      await dxfOf(family, outside),
    );
  });
});

test('every family is among these', () => {
  expect([...new Set(PAIRS.map((p) => p.family))].sort()).toEqual([...FAMILIES.keys()].sort());
});
