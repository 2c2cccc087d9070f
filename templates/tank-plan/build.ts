import {
  figure,
  hasStop,
  isOver,
  just,
  note,
  orLess,
  pointFindings,
  refuse,
  without,
} from '../../src/template.ts';
import type { Built, Finding } from '../../src/template.ts';
import { fuelNotes } from '../tank/fuel-notes.ts';
import { bafflePlanes, lineFindings } from './baffle-planes.ts';
import { planBaffles } from './baffles.ts';
import { floorBlanks, plateBlank, sideBlanks } from './blanks.ts';
import { type Blanks, chainsOf, foldedIn } from './chains.ts';
import { plateHoles, sideHoles } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { impossibleRoom, inwardsMm, noPan, sidesAllBend } from './limits.ts';
import { platePanel, sheetOf } from './panels.ts';
import { bodyOf, planesOf, shapeOf } from './planes.ts';
import { fittingsTooNear, linkAboveFill } from './near.ts';
import { panBlank } from './pan.ts';
import { poolFindings } from './pools.ts';
import { planReport } from './report.ts';
import { measuredRoom } from './room.ts';
import { floorPanels } from './stepped-floor.ts';
import { seamFindings } from './seam-limits.ts';
import { uncovered } from './seam-plate.ts';
import { senderFindings } from './sender-limits.ts';
import { placedSender } from './sender-place.ts';
import { sidePanel } from './side-panel.ts';
import { stationsOf } from './stations.ts';
import { withTankTabs } from './tabs.ts';

/** All blanks of a tank by its measured plan: its sides, floor and top, with what it holds. */
export function tankPlan(given: TankPlan): Built {
  const survey = given.points === undefined ? [] : pointFindings(given.points);
  const read = measuredRoom(given);
  if ('findings' in read) return { findings: [...survey, ...read.findings] };
  const { room, baffleLines } = read.value;
  const shape = shapeOf(planesOf(room, inwardsMm(given)));
  const impossible = [
    ...survey,
    ...impossibleRoom(given, read.value, shape),
    ...impossibleLink(given),
  ];
  if (hasStop(impossible)) return { findings: impossible };
  const sheet = sheetOf(given);
  const { v, findings: ofPlace } = placedSender(given, shape, sheet, baffleLines);
  const all: Blanks = { room, shape, sheet, chains: chainsOf(shape, v.seam - 1, v.blanks) };
  const findings = [
    ...impossible,
    ...seamFindings(v, shape, sheet),
    ...(v.blanks === 'pan' ? noPan(shape) : sidesAllBend(v, shape, foldedIn(all.chains), sheet)),
    ...ofPlace,
    ...lineFindings(v, shape, sheet, baffleLines),
    ...holeFindings(v, all),
    ...fittingsTooNear(v, shape),
    ...linkAboveFill(v, shape),
    ...poolFindings(v, shape),
    ...senderFindings(
      v,
      bodyOf(shape),
      bafflePlanes(shape, stationsOf(v, shape, sheet), baffleLines),
    ),
  ];
  if (hasStop(findings)) return { findings };
  const shell =
    v.blanks === 'pan' ? [panBlank(v, all)] : [...floorBlanks(v, all), ...sideBlanks(v, all)];
  const baffles = planBaffles(
    v,
    shape,
    sheet,
    shell.map(({ id }) => id),
    baffleLines,
  );
  findings.push(...baffles.findings);
  if (hasStop(findings)) return { findings };
  const { pieces, findings: ofTabs } = withTankTabs(v, [
    ...shell,
    ...baffles.pieces,
    plateBlank(v, all, 'top'),
  ]);
  findings.push(...ofTabs);
  if (hasStop(findings)) return { findings };
  return {
    pieces,
    findings: [...findings, ...tankNotes(v)],
    report: planReport(v, read.value, shape, pieces, baffles.stations),
  };
}

const holeFindings = (v: TankPlan, { room, shape, sheet, chains }: Blanks): Finding[] => [
  ...plateHoles(v, shape, platePanel(shape, 'top', sheet, []), 'top').findings,
  ...floorPanels(shape, sheet, []).flatMap(
    (placed, floor) => plateHoles(v, shape, placed, 'floor', floor).findings,
  ),
  ...room.corners.flatMap(
    (corner, side) =>
      sideHoles(
        v,
        uncovered(
          sidePanel(shape, side, chains.find((c) => c.includes(side)) ?? [side], sheet),
          shape,
          sheet,
        ),
        side,
        corner,
      ).findings,
  ),
  ...topFallsIn(v),
];

/** Edges of floor and top that stand back so far that they fall between the sides. */
const topFallsIn = (v: TankPlan): Finding[] =>
  v.setback === undefined || !isOver(v.setback, v.thicknessMm / 2)
    ? []
    : [
        refuse(
          'top-falls-in',
          ['setback'],
          `setback ${figure(v.setback)} is more than half the thickness, and floor and top lie on too little of the sides`,
          [orLess('setback', v.thicknessMm / 2)],
        ),
      ];

const impossibleLink = (v: TankPlan): Finding[] =>
  (v.pair || v.other !== undefined) && v.link.length === 0
    ? [
        refuse(
          'link-missing',
          [v.pair ? 'pair' : 'other', 'link'],
          `${v.pair ? 'pair yes' : 'other'} shares its level through a pipe low down, and link gives no hole for it`,
          [v.pair ? just('pair', 'no') : without('other')],
          'give link, a hole for it',
        ),
      ]
    : [];

/** What the maker should know about a tank that can be made. */
const tankNotes = (v: TankPlan): Finding[] => {
  const notes = fuelNotes(v);
  if (v.pair && v.other === undefined && v.hand !== 'both')
    notes.push(
      note(
        'one-of-a-pair',
        'These are the blanks of one tank: hand both makes the other as its mirror image.',
      ),
    );
  return notes;
};
