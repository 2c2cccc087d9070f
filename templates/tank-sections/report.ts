import { LITRES_PER_MM3 } from '../../src/template.ts';
import type { Piece, Report, ReportFigure, ReportTable } from '../../src/template.ts';
import { tankMasses } from '../tank/masses.ts';
import { litres } from '../tank-plan/draught.ts';
import { placesOf } from '../tank-plan/fittings.ts';
import { litresBelow } from '../tank-plan/levels.ts';
import { holds } from '../tank-plan/report.ts';
import { type Body, rodAt, volumeMm3 } from '../tank-plan/solid.ts';
import { bayLengths } from '../tank-plan/stations.ts';
import { BAY_COLUMNS, dips, heldAt } from '../tank-plan/tables.ts';
import type { Tank } from './blanks.ts';
import type { TankSections } from './inputs.ts';
import { bodyBetween, type SectionAt } from './surface.ts';

const ZERO = 'Over y 0 of the sections.';

/** What a tank by its sections holds, weighs and shows on a dip stick. */
export const sectionReport = (
  v: TankSections,
  tank: Tank,
  sections: readonly SectionAt[],
  pieces: readonly Piece[],
  baffles: readonly number[],
): Report => {
  const body = bodyBetween(tank.bays, tank.firstMm, tank.lastMm);
  const grossL = volumeMm3(body) * LITRES_PER_MM3;
  const held = { body, grossL, usableL: (grossL * v.fillLimit) / 100 };
  return {
    figures: [
      ...holds(v, held, ZERO),
      ...drawn(v, held),
      ...tankMasses(v, held.usableL, pieces).figures,
    ],
    tables: [
      ...dips(v, held),
      heightTable(held.body),
      ...bayTable(v, tank, baffles),
      sectionTable(sections),
    ],
  };
};

interface Held {
  readonly body: Body;
  readonly usableL: number;
}

/** What the pick-up leaves, and what can be drawn. */
const drawn = (v: TankSections, { body, usableL }: Held): ReportFigure[] => {
  const ends = placesOf(v.pickup).flatMap((at) => {
    const rod = rodAt(body, at);
    return rod === undefined ? [] : [rod.lowMm + v.pickupEnd];
  });
  const left = ends.length === 0 ? 0 : Math.min(usableL, litresBelow(body, Math.min(...ends)));
  return [
    ...(ends.length === 0
      ? []
      : [
          litres(
            'left below the pick-up',
            left,
            'Standing level; what a fall of the floor keeps from it elsewhere comes to that.',
          ),
        ]),
    litres(
      'drawable volume',
      usableL - left,
      'From the fill limit down to the pick-up; all of it where none is given.',
    ),
  ];
};

const heightTable = (body: Body): ReportTable => ({
  title: 'Heights over y 0 of the sections',
  columns: [
    { name: 'height', unit: 'mm' },
    { name: 'volume', unit: 'l' },
  ],
  rows: heldAt(body).map(({ heightMm, litres: volume }) => [heightMm, volume]),
});

/** The bays between the baffles, with what each holds. */
const bayTable = (
  { thicknessMm }: TankSections,
  { bays, firstMm, lastMm }: Tank,
  atMm: readonly number[],
): ReportTable[] => {
  if (atMm.length === 0) return [];
  const lengths = bayLengths({ axis: 0, fromMm: firstMm, toMm: lastMm, atMm }, thicknessMm);
  return [
    {
      title: 'Bays between the baffles: where each begins, and what it holds brim-full',
      columns: BAY_COLUMNS,
      rows: lengths.map((length, i) => {
        const start = i === 0 ? firstMm : (atMm[i - 1] as number) + thicknessMm;
        const body = bodyBetween(bays, start, start + length);
        return [i + 1, start, length, volumeMm3(body) * LITRES_PER_MM3];
      }),
    },
  ];
};

/** The sections as they are made, corner by corner. */
const sectionTable = (sections: readonly SectionAt[]): ReportTable => ({
  title:
    'Sections as they were taken, counter-clockwise as seen from the last: wall 1 runs from corner 1 to 2',
  columns: [
    { name: 'station', unit: 'mm' },
    { name: 'corner', unit: '' },
    { name: 'x', unit: 'mm' },
    { name: 'y', unit: 'mm' },
  ],
  rows: sections.flatMap(({ atMm, corners }) => corners.map(([x, y], i) => [atMm, i + 1, x, y])),
});
