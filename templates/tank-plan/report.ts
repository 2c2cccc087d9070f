import { LITRES_PER_MM3, residualFigures } from '../../src/template.ts';
import type { Piece, Report, ReportFigure } from '../../src/template.ts';
import { FILL_LIMIT, FLUIDS, warmingDeg } from '../tank/fluids.ts';
import { tankMasses } from '../tank/masses.ts';
import { type Draught, drawn, litres, pickupEndMm, ZERO } from './draught.ts';
import { linkLowMm } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { levelOf } from './levels.ts';
import { bodyOf, type Shape, steepestDeg } from './planes.ts';
import { linkPlace } from './other-hand.ts';
import type { MeasuredRoom } from './room.ts';
import { senderFigures } from './sender.ts';
import { volumeMm3 } from './solid.ts';
import type { Stations } from './stations.ts';
import { planTables } from './tables.ts';

/** What the tank holds, weighs and shows on dip stick and sender. */
export const planReport = (
  v: TankPlan,
  measured: MeasuredRoom,
  shape: Shape,
  pieces: readonly Piece[],
  stations: Stations,
): Report => {
  const body = bodyOf(shape);
  const grossL = volumeMm3(body) * LITRES_PER_MM3;
  const d: Draught = {
    body,
    planes: shape.planes,
    grossL,
    usableL: (grossL * v.fillLimit) / 100,
    drawnToMm: pickupEndMm(v, body) ?? Math.min(...shape.low.map((p) => p[2])),
    linkMm: linkLowMm(v, shape),
    linkAt: linkPlace(v, measured),
  };
  return {
    figures: [
      ...holds(v, d, ZERO),
      ...senderFigures(v, d, d.usableL),
      ...drawn(v, d),
      ...tankMasses(v, d.usableL, pieces).figures,
      ...measures(v, measured),
    ],
    tables: planTables(v, d, stations, measured, shape),
  };
};

/** What a tank holds, brim-full and filled to the limit; heights are over `zero`. */
export const holds = (
  v: Pick<TankPlan, 'fluid' | 'fillLimit'>,
  { body, grossL, usableL }: Pick<Draught, 'body' | 'grossL' | 'usableL'>,
  zero: string,
): ReportFigure[] => {
  const fluid = FLUIDS[v.fluid];
  return [
    litres(
      'gross volume',
      grossL,
      'Brim-full, between flat faces: bends, fittings and welds take a little of it.',
    ),
    {
      name: 'fill limit',
      value: v.fillLimit,
      unit: '%',
      about: `Share of the gross volume; ${FILL_LIMIT}.`,
    },
    litres('usable volume', usableL, 'Filled to the limit.'),
    { name: 'level at the fill limit', value: levelOf(body, usableL), unit: 'mm', about: zero },
    ...(fluid.expansionPerDeg === undefined || v.fillLimit === 100
      ? []
      : [
          {
            name: 'warming to brim-full',
            value: warmingDeg(v.fillLimit, fluid.expansionPerDeg),
            unit: 'deg',
            about: `How many degrees C ${v.fluid} filled to the limit may warm up before the tank is brim-full: ${fluid.expansionSource ?? ''}.`,
          },
        ]),
  ];
};

const measures = (v: TankPlan, { room, off }: MeasuredRoom): ReportFigure[] => [
  {
    name: 'fall of the floor',
    value: steepestDeg(room.floor),
    unit: 'deg',
    about: 'At its steepest.',
  },
  { name: 'fall of the top', value: steepestDeg(room.top), unit: 'deg', about: 'At its steepest.' },
  ...off.map(({ called, mm }): ReportFigure => ({
    name: `residual of ${called}`,
    value: mm,
    unit: 'mm',
    about: 'The plane of that face or side less what was measured there.',
  })),
  ...(v.points === undefined ? [] : residualFigures(v.points)),
];
