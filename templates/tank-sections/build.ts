import { distance, figure, hasStop, isOver, orLess, refuse } from '../../src/template.ts';
import type { Built, Finding } from '../../src/template.ts';
import { fuelNotes } from '../tank/fuel-notes.ts';
import { planBaffles } from './baffles.ts';
import { endBlanks, stripsOf, type Tank, wallBlanks } from './blanks.ts';
import { fittingsOf } from './fittings.ts';
import type { TankSections } from './inputs.ts';
import { hasInside, impossibleSections, tooThin } from './limits.ts';
import { sectionReport } from './report.ts';
import { baysOf, baysThrough, evened, insideOf, turnedRound } from './sections.ts';
import type { Bay, SectionAt } from './surface.ts';
import { impossibleWalls, wallNotes, wallsAllBend } from './wall-limits.ts';

/** All blanks of a tank by measured sections: its walls, ends and baffles, with what it holds. */
export const tankSections = (v: TankSections): Built => {
  const wrong = impossibleSections(v);
  if (hasStop(wrong)) return { findings: wrong };
  const given = turnedRound(v.sections);
  const sections = evened(given);
  const measured = baysOf(sections, v.crease);
  const impossible = [
    ...impossibleWalls(v, sections, measured),
    ...noInside(v, sections, measured),
  ];
  if (hasStop(impossible)) return { findings: impossible };
  const tank = tankIn(v, sections, measured);
  const strips = stripsOf(v, tank);
  const fittings = fittingsOf(v, strips.flat());
  const findings = [...wallsAllBend(v, strips.flat()), ...endFallsIn(v), ...fittings.findings];
  if (hasStop(findings)) return { findings };
  const { first, last } = endBlanks(v, tank, strips);
  const walls = wallBlanks(v, strips, fittings.cutouts);
  const baffles = planBaffles(v, tank, walls);
  findings.push(...baffles.findings);
  if (hasStop(findings)) return { findings };
  const pieces = [first, ...walls.flat(), ...baffles.pieces, last];
  return {
    pieces,
    findings: [...findings, ...wallNotes(measured, movedMm(given, sections)), ...fuelNotes(v)],
    report: sectionReport(v, tank, sections, pieces, baffles.atMm),
  };
};

/** How far the inside of the tank lies within what was measured. */
const inwardsMm = (v: Pick<TankSections, 'clearance' | 'measure' | 'thicknessMm'>): number =>
  v.clearance + (v.measure === 'outside' ? v.thicknessMm : 0);

const tankIn = (
  v: TankSections,
  sections: readonly SectionAt[],
  measured: readonly Bay[],
): Tank => {
  const inMm = inwardsMm(v);
  const inside = insideOf(sections, measured, inMm);
  const [first, last] = [sections[0], sections.at(-1)] as [SectionAt, SectionAt];
  return {
    bays: baysThrough(inside, measured),
    sheet: {
      thicknessMm: v.thicknessMm,
      insideRadiusMm: v.insideRadiusMm,
      gapMm: v.cornerGapMm,
      backMm: v.setback ?? v.thicknessMm / 2,
      seams: { floor: 'edge', top: 'edge' },
      seamFlangeMm: 0,
      isFloorInPieces: false,
    },
    firstMm: first.atMm + inMm,
    lastMm: last.atMm - inMm,
  };
};

const noInside = (
  v: TankSections,
  sections: readonly SectionAt[],
  measured: readonly Bay[],
): Finding[] =>
  tooThin(v, (thicknessMm, clearance) => {
    const inMm = inwardsMm({ ...v, thicknessMm, clearance });
    const [first, second] = sections as [SectionAt, SectionAt];
    const [before, last] = sections.slice(-2) as [SectionAt, SectionAt];
    return (
      hasInside(sections, insideOf(sections, measured, inMm)) &&
      second.atMm - first.atMm - inMm > LEAST_BAY_MM + 4 * thicknessMm &&
      last.atMm - before.atMm - inMm > LEAST_BAY_MM + 4 * thicknessMm
    );
  });

/** The least length of a blank of walls over what the sheet takes, mm; a limit of this program. */
const LEAST_BAY_MM = 5;

/** Edges of both ends that stand back so far that they fall between the walls. */
const endFallsIn = (v: TankSections): Finding[] =>
  v.setback === undefined || !isOver(v.setback, v.thicknessMm / 2)
    ? []
    : [
        refuse(
          'top-falls-in',
          ['setback'],
          `setback ${figure(v.setback)} is more than half the thickness, and both ends lie on too little of the walls`,
          [orLess('setback', v.thicknessMm / 2)],
        ),
      ];

/** How far corners were moved where sides were evened out, at most. */
const movedMm = (given: readonly SectionAt[], made: readonly SectionAt[]): number =>
  Math.max(
    ...given.flatMap(({ corners }, k) =>
      corners.map((p, i) => distance(p, (made[k] as SectionAt).corners[i] ?? p)),
    ),
  );
