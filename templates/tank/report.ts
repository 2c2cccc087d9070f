import type { Piece, Report, ReportFigure, ReportTable } from '../../src/template.ts';
import { bayStartsMm } from '../baffle/bays.ts';
import type { TankBaffles } from './baffles.ts';
import { drawnFrom, type Draught } from './draught.ts';
import { FILL_LIMIT, FLUIDS, warmingDeg } from './fluids.ts';
import { tankMasses } from './masses.ts';
import { metalMm3 } from './metal.ts';
import type { TankSizes } from './sizes.ts';
import type { Tank } from './inputs.ts';
import { type Cavity, grossLitres, levelOf, litresBelow, riseMm, slopeDeg } from './volume.ts';
import { LITRES_PER_MM3, wholeUp } from '../../src/template.ts';

const litres = (name: string, value: number, about?: string): ReportFigure => ({
  name,
  value,
  unit: 'l',
  ...(about !== undefined && { about }),
});

/** What the tank holds and weighs, how far it goes, and its dip tables. */
export const tankReport = (
  v: Tank,
  s: TankSizes,
  baffles: TankBaffles,
  pieces: readonly Piece[],
): Report => {
  const draught = drawnFrom(v, s);
  return {
    figures: [
      ...holds(v, s.cavity, draught),
      ...levels(draught),
      ...(v.pair ? ofPair(draught) : []),
      ...weighs(v, draught, pieces),
      ...goes(v, draught),
      ...inside(s.cavity, baffles),
    ],
    tables: [...dips(v, s.cavity), ...(baffles.bays.count === 0 ? [] : [bayTable(baffles)])],
  };
};

function holds(v: Tank, c: Cavity, { usableL }: Draught): ReportFigure[] {
  const fluid = FLUIDS[v.fluid];
  const warming: ReportFigure[] =
    fluid.expansionPerDeg === undefined || v.fillLimit === 100
      ? []
      : [
          {
            name: 'warming to brim-full',
            value: warmingDeg(v.fillLimit, fluid.expansionPerDeg),
            unit: 'deg',
            about: `How many degrees C ${v.fluid} filled to the limit may warm up before the tank is brim-full: ${fluid.expansionSource ?? ''}.`,
          },
        ];
  return [
    litres('gross volume', grossLitres(c), 'Brim-full, without what baffles and fittings take.'),
    {
      name: 'fill limit',
      value: v.fillLimit,
      unit: '%',
      about: `Share of the gross volume; ${FILL_LIMIT}.`,
    },
    litres('usable volume', usableL, 'Filled to the limit.'),
    {
      name: 'level at the fill limit',
      value: levelOf(c, usableL),
      unit: 'mm',
      about: 'Over the inside corner of the floor at the deep end.',
    },
    ...warming,
  ];
}

function levels({ usableL, outlet, link }: Draught): ReportFigure[] {
  const at = (
    name: string,
    found: { readonly levelMm: number; readonly belowL: number } | undefined,
  ): ReportFigure[] =>
    found === undefined
      ? []
      : [
          {
            name: `lower edge of the ${name}`,
            value: found.levelMm,
            unit: 'mm',
            about: 'Over the inside corner of the floor at the deep end.',
          },
          litres(`volume below the ${name}`, found.belowL, 'Held by one tank below that edge.'),
          litres(
            `volume above the ${name}`,
            Math.max(0, usableL - found.belowL),
            'Held by one tank from that edge up to the fill limit.',
          ),
        ];
  return [...at('outlet', outlet), ...at('link pipe', link)];
}

function ofPair({ usableL, grossL, link, trappedL, drawableL }: Draught): ReportFigure[] {
  return [
    litres('gross volume of the pair', 2 * grossL),
    litres(
      'usable volume of the pair',
      2 * usableL,
      'Both tanks filled to the limit; they stand level and share it through the link pipe.',
    ),
    ...(link === undefined
      ? []
      : [
          litres(
            'trapped in the other tank',
            trappedL,
            'Kept by the tank that is not drawn from, below the link pipe or the outlet, whichever is higher.',
          ),
        ]),
    litres('drawable volume of the pair', drawableL, 'Drawn through the outlet of one tank.'),
  ];
}

function weighs(v: Tank, { usableL }: Draught, pieces: readonly Piece[]): ReportFigure[] {
  const { fullKg, figures } = tankMasses(v, usableL, pieces);
  return [
    ...figures,
    ...(v.pair ? [{ name: 'full mass of the pair', value: 2 * fullKg, unit: 'kg' }] : []),
  ];
}

function goes(v: Tank, { drawableL }: Draught): ReportFigure[] {
  const drawn = v.pair
    ? []
    : [
        litres(
          'drawable volume',
          drawableL,
          'Volume from the fill limit down to the outlet; all of it where no outlet is given.',
        ),
      ];
  if (v.consumption === undefined) return drawn;
  const { litres: used, per } = v.consumption;
  const about = `Reached on the drawable volume, at ${used} l ${per === 'hour' ? 'an hour' : 'for 100 km'}.`;
  return [
    ...drawn,
    per === 'hour'
      ? { name: 'running time', value: drawableL / used, unit: 'h', about }
      : { name: 'range', value: (100 * drawableL) / used, unit: 'km', about },
  ];
}

const inside = (c: Cavity, { bays, pieces }: TankBaffles): ReportFigure[] => [
  { name: 'inside length', value: c.lengthMm, unit: 'mm' },
  { name: 'inside width', value: c.widthMm, unit: 'mm' },
  { name: 'inside depth at the deep end', value: c.deepMm, unit: 'mm' },
  { name: 'inside depth at the shallow end', value: c.shallowMm, unit: 'mm' },
  { name: 'slope of the floor', value: slopeDeg(c), unit: 'deg' },
  {
    name: 'baffles',
    value: bays.count,
    unit: '',
    about: 'The fewest that leave no bay longer than longestBay.',
  },
  {
    name: 'bay length',
    value: bays.bayMm,
    unit: 'mm',
    about: 'Distance between the faces of neighbouring baffles or ends; all bays are alike.',
  },
  ...(bays.count === 0
    ? []
    : [
        litres(
          'volume of the baffles',
          pieces.reduce((sum, p) => sum + metalMm3(p.part) * (p.quantity ?? 1), 0) * LITRES_PER_MM3,
          'Their metal, to be taken off all volumes.',
        ),
      ]),
];

function dips(v: Tank, c: Cavity): ReportTable[] {
  const gross = grossLitres(c);
  const columns = [
    { name: 'dip', unit: 'mm' },
    { name: 'volume', unit: 'l' },
    { name: 'of the gross volume', unit: '%' },
    ...(v.pair ? [{ name: 'both tanks', unit: 'l' }] : []),
  ];
  const table = (end: string, depthMm: number, overMm: number): ReportTable => ({
    title: `Dip at the ${end} end, over the inside corner of the floor there`,
    columns,
    rows: dipsTo(depthMm, v.dipStep).map((dip) => {
      const holds = litresBelow(c, overMm + dip);
      return [dip, holds, (100 * holds) / gross, ...(v.pair ? [2 * holds] : [])];
    }),
  });
  return [table('deep', c.deepMm, 0), table('shallow', c.shallowMm, riseMm(c))];
}

/** Levels from the floor in even steps, and the full depth. */
const dipsTo = (depthMm: number, stepMm: number): number[] => [
  ...Array.from({ length: wholeUp(depthMm / stepMm) }, (_, i) => i * stepMm),
  depthMm,
];

const bayTable = ({ bays, litres: each }: TankBaffles): ReportTable => ({
  title: 'Bays, from the deep end',
  columns: [
    { name: 'bay', unit: '' },
    { name: 'begins', unit: 'mm' },
    { name: 'length', unit: 'mm' },
    { name: 'volume', unit: 'l' },
  ],
  rows: bayStartsMm(bays).map((start, i) => [i + 1, start, bays.bayMm, each[i] ?? 0]),
});
