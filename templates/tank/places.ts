import { advise, atLeast, atMost, cosDeg, figure, NOISE_MM, refuse } from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import type { Bays } from '../baffle/bays.ts';
import { MEASURED_FROM, type PlacedHole, placedHoles, type Reach } from './holes.ts';
import { TANK_PANELS } from './inputs.ts';
import type { TankPanel, TankSizes } from './sizes.ts';
import type { Tank } from './inputs.ts';
import { type Cavity, floorMm, slopeDeg } from './volume.ts';

/** Findings on holes that do not open into the tank, and on holes that a baffle stands in. */
export const badPlaces = (v: Tank, s: TankSizes, bays: Bays): Finding[] =>
  TANK_PANELS.flatMap((panel) =>
    placedHoles(v, s, panel).flatMap((hole) => [
      ...outside(v, s.cavity, hole),
      ...onBaffle(v, s.cavity, bays, hole),
    ]),
  );

/**
 * The stretch of a panel that bounds the inside, across and along; both ends stop a weld gap below
 * the top, and keep a thickness. The plates at the sides bound it all over, up to their own edges.
 */
const insideOf = (
  v: Tank,
  c: Cavity,
  panel: TankPanel,
): readonly [acrossMm: number, alongMm: number] | undefined => {
  switch (panel) {
    case 'top':
      return [c.lengthMm, c.widthMm];
    case 'floor':
      return [floorMm(c), c.widthMm];
    case 'deep':
      return [c.deepMm - v.cornerGapMm - v.thicknessMm, c.widthMm];
    case 'shallow':
      return [c.shallowMm - v.cornerGapMm - v.thicknessMm, c.widthMm];
    case 'left':
    case 'right':
      return undefined;
  }
};

function outside(v: Tank, c: Cavity, hole: PlacedHole): Finding[] {
  const size = insideOf(v, c, hole.panel);
  if (size === undefined) return [];
  const [across, along] = MEASURED_FROM[hole.panel];
  const off = (
    [
      [across, hole.across, size[0]],
      [along, hole.along, size[1]],
    ] as const
  ).filter(
    ([, { insideMm, halfMm }, most]) =>
      insideMm - halfMm < -NOISE_MM || insideMm + halfMm > most + NOISE_MM,
  );
  if (off.length === 0) return [];
  const given = off.map(
    ([from, { insideMm, shiftMm }]) => `from ${from} ${figure(insideMm + shiftMm)}`,
  );
  const isTooWide = off.some(([, { halfMm }, most]) => 2 * halfMm > most);
  const room = off.map(
    ([from, { halfMm, shiftMm }, most]) =>
      `from ${from} ${atLeast(halfMm + shiftMm)} to ${atMost(most - halfMm + shiftMm)}`,
  );
  const mend = isTooWide
    ? `give it a hole of ${atMost(Math.min(...off.map(([, , most]) => most)))} or less`
    : `give ${room.join(', and ')}`;
  return [
    refuse(
      'hole-meets-wall',
      [hole.input],
      `${hole.name} in the ${panelName(hole.panel)} (${given.join(', ')}) reaches over a wall of the tank`,
      [],
      mend,
    ),
  ];
}

/**
 * Finding on a hole that a baffle covers. A baffle stands from its near face to its far one; where
 * it has flanges, they reach from it towards the deep end.
 */
function onBaffle(
  v: Tank,
  c: Cavity,
  { stationsMm, thicknessMm: t }: Bays,
  hole: PlacedHole,
): Finding[] {
  const run = alongTank(c, hole);
  if (run === undefined) return [];
  const flange = hole.panel === 'top' ? 0 : v.flange - (v.measure === 'inside' ? 0 : t);
  const at = run.reach.insideMm * run.level;
  const half = run.reach.halfMm * run.level;
  return stationsMm.flatMap((station, i) => {
    const [from, to] = [station - flange, station + t];
    if (at + half <= from || at - half >= to) return [];
    const [before, after] = [
      (from - half) / run.level + run.reach.shiftMm,
      (to + half) / run.level + run.reach.shiftMm,
    ];
    const measured = `from ${MEASURED_FROM[hole.panel][run.which]}`;
    const given = figure(run.reach.insideMm + run.reach.shiftMm);
    return [
      advise(
        'hole-on-baffle',
        [hole.input],
        `${hole.name} in the ${panelName(hole.panel)}, ${measured} ${given}, lies on baffle ${i + 1} from the deep end`,
        [],
        `give ${measured} ${atMost(before)} or less, or ${atLeast(after)} or more`,
        'another longestBay',
      ),
    ];
  });
}

/**
 * The figure of a hole that runs along the tank; along a sloping floor a millimetre of it covers
 * less of the tank's length.
 */
const alongTank = (
  c: Cavity,
  { panel, across, along }: PlacedHole,
): { readonly which: 0 | 1; readonly reach: Reach; readonly level: number } | undefined => {
  if (panel === 'top') return { which: 0, reach: across, level: 1 };
  if (panel === 'floor') return { which: 0, reach: across, level: cosDeg(slopeDeg(c)) };
  return panel === 'left' || panel === 'right' ? { which: 1, reach: along, level: 1 } : undefined;
};

const panelName = (panel: TankPanel): string =>
  panel === 'deep' || panel === 'shallow'
    ? `${panel} end`
    : panel === 'top' || panel === 'floor'
      ? panel
      : `${panel} plate`;
