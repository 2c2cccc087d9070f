import { dot3, LITRES_PER_MM3 } from '../../src/template.ts';
import type { HeldAt, ReportTable, Vec2, Vec3 } from '../../src/template.ts';
import { frameAlong } from './baffle-planes.ts';
import { type Draught, pairOf } from './draught.ts';
import { placesOf } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { levelOf, litresBelow, TILTS } from './levels.ts';
import type { Shape } from './planes.ts';
import { litresTilted } from './pools.ts';
import type { BaffleLine, MeasuredRoom } from './room.ts';
import { readingTable } from './sender.ts';
import { type Body, reachMm, rodAt, volumeBelowMm3 } from './solid.ts';
import { bayLengths, type Stations } from './stations.ts';

/** The tables of a report, in its order. */
export const planTables = (
  v: TankPlan,
  d: Draught,
  stations: Stations,
  measured: MeasuredRoom,
  shape: Shape,
): ReportTable[] => [
  ...dips(v, d),
  ...readingTable(v, d, d.usableL),
  heldTable(v, d),
  ...tilts(v, d),
  ...bayTable(v, d, stations),
  ...lineTable(d, measured.baffleLines),
  planTable(measured, shape),
];

/** A dip table for each filler: how far up a stick that stands plumb below it gets wet. */
export const dips = (
  v: Pick<TankPlan, 'filler' | 'dipStep'>,
  { body, grossL }: Pick<Draught, 'body' | 'grossL'>,
): ReportTable[] =>
  placesOf(v.filler).flatMap((at, i) => {
    const rod = rodAt(body, at);
    return rod === undefined
      ? []
      : [
          {
            title: `Dip at filler ${i + 1}, over the floor plumb below it`,
            columns: [
              { name: 'volume', unit: 'l' },
              { name: 'dip', unit: 'mm' },
              { name: 'of the gross volume', unit: '%' },
            ],
            rows: litresTo(grossL, v.dipStep).map((held) => [
              held,
              // Below the foot of the stick it stays dry; above the top none is left to wet.
              Math.min(rod.highMm, Math.max(rod.lowMm, levelOf(body, held))) - rod.lowMm,
              (100 * held) / grossL,
            ]),
          },
        ];
  });

const litresTo = (gross: number, step: number): number[] => [
  ...Array.from({ length: Math.floor(gross / step) }, (_, i) => (i + 1) * step),
  gross,
];

/** What the pick-up leaves when the vehicle leans each of the four ways. */
const tilts = (v: TankPlan, tank: Draught): ReportTable[] =>
  placesOf(v.pickup).flatMap((at: Vec2, i) => {
    const rod = rodAt(tank.body, at);
    if (rod === undefined) return [];
    return [
      {
        title: `Left below pick-up ${i + 1} when the end of the plan goes down: ${TILTS.map(({ down }) => down).join('; ')}`,
        columns: [
          { name: 'tilt', unit: 'deg' },
          ...TILTS.map(({ down }) => ({ name: `${down.split(' ')[0] as string} down`, unit: 'l' })),
        ],
        rows: [
          [
            v.tilt,
            ...TILTS.map(({ way }) =>
              litresTilted(tank, [at[0], at[1], rod.lowMm + v.pickupEnd], v.tilt, way),
            ),
          ],
        ],
      },
    ];
  });

/** So many rows of the table of heights. */
const HEIGHTS = 24;

/** What the tank holds at heights over the common level, with its other one where there is a pair. */
const heldTable = (v: TankPlan, d: Draught): ReportTable => {
  const pair = pairOf(v, d);
  return {
    title: `Heights over the level for all heights${pair === undefined ? '' : ': this tank, the other, and both while they share their level'}`,
    columns: [
      { name: 'height', unit: 'mm' },
      { name: 'volume', unit: 'l' },
      ...(pair === undefined
        ? []
        : [
            { name: 'other tank', unit: 'l' },
            { name: 'both', unit: 'l' },
          ]),
    ],
    rows: heldAt(d.body).map(({ heightMm, litres: held }) => [
      heightMm,
      held,
      ...(pair === undefined ? [] : [pair.other(heightMm), held + pair.other(heightMm)]),
    ]),
  };
};

/** What a body holds at even heights from its lowest place to its highest. */
export const heldAt = (body: Body): HeldAt[] => {
  const [low, high] = reachMm(body);
  return Array.from({ length: HEIGHTS + 1 }, (_, i) => {
    const heightMm = low + ((high - low) * i) / HEIGHTS;
    return { heightMm, litres: litresBelow(body, heightMm) };
  });
};

/** The bays between the baffles, with what each holds. */
const bayTable = (v: TankPlan, { body }: Draught, stations: Stations): ReportTable[] => {
  const { axis, fromMm, atMm } = stations;
  if (atMm.length === 0) return [];
  const normal: Vec3 = axis === 0 ? [1, 0, 0] : [0, 1, 0];
  const before = (at: number): number =>
    volumeBelowMm3(body, { normal, atMm: at }) * LITRES_PER_MM3;
  const lengths = bayLengths(stations, v.thicknessMm);
  return [
    {
      title: `Bays along ${v.bafflesAcross} of the plan: where each begins, and what it holds brim-full`,
      columns: BAY_COLUMNS,
      rows: lengths.map((length, i) => {
        const start = i === 0 ? fromMm : (atMm[i - 1] as number) + v.thicknessMm;
        return [i + 1, start, length, before(start + length) - before(start)];
      }),
    },
  ];
};

export const BAY_COLUMNS = [
  { name: 'bay', unit: '' },
  { name: 'begins', unit: 'mm' },
  { name: 'length', unit: 'mm' },
  { name: 'volume', unit: 'l' },
] as const;

/** What is on either side of each baffle that stands along a line. */
const lineTable = ({ body, grossL }: Draught, lines: readonly BaffleLine[]): ReportTable[] =>
  lines.length === 0
    ? []
    : [
        {
          title:
            'Baffles along their lines: what the tank holds brim-full on either side of each, as one goes along it',
          columns: [
            { name: 'baffle', unit: '' },
            { name: 'left', unit: 'l' },
            { name: 'right', unit: 'l' },
          ],
          rows: lines.map((line, i) => {
            const { o, z } = frameAlong(line);
            const left = volumeBelowMm3(body, { normal: z, atMm: dot3(z, o) }) * LITRES_PER_MM3;
            return [i + 1, left, grossL - left];
          }),
        },
      ];

/** The sides by number, as they are made: where each begins, and how high it is inside there. */
const planTable = ({ room }: MeasuredRoom, { low, high }: Shape): ReportTable => ({
  title:
    'Sides, counted as the outline runs round: their first corner in plan, and the inside of the tank there',
  columns: [
    { name: 'side', unit: '' },
    { name: 'x', unit: 'mm' },
    { name: 'y', unit: 'mm' },
    { name: 'floor', unit: 'mm' },
    { name: 'top', unit: 'mm' },
    { name: 'lean', unit: 'deg' },
  ],
  rows: room.corners.map(([x, y], i) => [
    i + 1,
    x,
    y,
    (low[i] as readonly number[])[2] as number,
    (high[i] as readonly number[])[2] as number,
    room.leanDeg[i] ?? 0,
  ]),
});
