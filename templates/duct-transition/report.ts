import {
  atLeast,
  equalAreaDiameterMm,
  equalFrictionDiameterMm,
  figure,
  hydraulicDiameterMm,
  note,
  ORDINARY_TAPER_DEG,
  rectangleAreaMm2,
  roundAreaMm2,
  taperLengthMm,
  warn,
} from '../../src/template.ts';
import type { ClearRectangle, Finding, Report, ReportFigure } from '../../src/template.ts';
import { edgeLengthMm, type Facet, foldAngleDeg, SIDES, type Transition } from './surface.ts';
import type { DuctTransition } from './inputs.ts';

/** The figures of the air and of the blank. */
export const transitionReport = (
  v: DuctTransition,
  surface: Transition,
  chains: readonly (readonly Facet[])[],
): Report => {
  const folds = foldRows(chains);
  return {
    figures: [
      ...airFigures(v, surface),
      ...taperFigures(surface),
      { name: 'folds', value: folds.length, unit: '', about: 'of all blanks' },
      {
        name: 'sharpest fold',
        value: Math.max(...folds.map(([, , , angle]) => angle)),
        unit: 'deg',
      },
      ...edgeFigures(chains),
      ...collarFigures(v, surface),
    ],
    tables: [
      {
        title: 'Fold lines, in their order along each blank from right to left, seen from inside',
        columns: [
          { name: 'blank', unit: '' },
          { name: 'fold', unit: '' },
          { name: 'true length', unit: 'mm' },
          { name: 'angle', unit: 'deg' },
        ],
        rows: folds,
      },
    ],
  };
};

const airFigures = (
  { thicknessMm: t, flow }: DuctTransition,
  surface: Transition,
): ReportFigure[] => {
  const clear: ClearRectangle = { widthMm: surface.widthMm - t, depthMm: surface.depthMm - t };
  const areas = [rectangleAreaMm2(clear), roundAreaMm2(surface.diameterMm - t)] as const;
  const [inlet, outlet] = flow === 'to-round' ? areas : [areas[1], areas[0]];
  const about = 'times that at the inlet';
  return [
    { name: 'inlet area', value: inlet, unit: 'mm2', about: 'clear opening' },
    { name: 'outlet area', value: outlet, unit: 'mm2', about: 'clear opening' },
    { name: 'speed at the outlet', value: inlet / outlet, unit: '', about },
    { name: 'change of speed', value: 100 * (inlet / outlet - 1), unit: '%' },
    {
      name: 'round of the same area',
      value: equalAreaDiameterMm(clear),
      unit: 'mm',
      about: 'clear diameter that keeps the speed of the rectangle',
    },
    {
      name: 'round of the same friction',
      value: equalFrictionDiameterMm(clear),
      unit: 'mm',
      about: 'clear diameter, after Huebscher',
    },
    {
      name: 'hydraulic diameter',
      value: hydraulicDiameterMm(clear),
      unit: 'mm',
      about: 'of the rectangle',
    },
  ];
};

const taperFigures = (surface: Transition): ReportFigure[] => {
  const steps = sideStepsMm(surface);
  const step = Math.max(...steps);
  return [
    {
      name: 'steepest side',
      value: leanDeg(step, surface),
      unit: 'deg',
      about: `the ${SIDES[steps.indexOf(step)] ?? ''}, against the axis of the duct`,
    },
    {
      name: 'ordinary length',
      value: taperLengthMm(step, ORDINARY_TAPER_DEG),
      unit: 'mm',
      about: `at which no side leans more than ${ORDINARY_TAPER_DEG} deg`,
    },
  ];
};

/** Figures of the round end and the seams. */
const edgeFigures = (chains: readonly (readonly Facet[])[]): ReportFigure[] => {
  const rimMm = chains
    .flat()
    .reduce(
      (sum, facet) => sum + (facet.edges.includes('rim') ? edgeLengthMm(facet, 'rim') : 0),
      0,
    );
  return [
    { name: 'round edge', value: rimMm, unit: 'mm', about: 'length on the middle of the sheet' },
    ...chains.map(([first], i) => ({
      name: chains.length === 1 ? 'seam' : `seam ${i + 1}`,
      value: edgeLengthMm(first as Facet, 'entry'),
      unit: 'mm',
      about: `at the ${sideOf(first as Facet)}`,
    })),
  ];
};

const collarFigures = (v: DuctTransition, { diameterMm }: Transition): ReportFigure[] =>
  v.collar > 0
    ? [
        {
          name: 'collar strip',
          value: Math.PI * diameterMm - v.cornerGapMm,
          unit: 'mm',
          about: 'length, to be rolled round',
        },
      ]
    : [];

/** A chain begins with the triangle of a side, or half of it. */
const sideOf = ({ id }: Facet): string => id.replace(/ .*/, '');

const foldRows = (
  chains: readonly (readonly Facet[])[],
): (readonly [number, number, number, number])[] =>
  chains.flatMap((chain, blank) =>
    chain
      .slice(1)
      .map(
        (facet, i) =>
          [
            blank + 1,
            i + 1,
            edgeLengthMm(facet, 'entry'),
            foldAngleDeg(chain[i] as Facet, facet),
          ] as const,
      ),
  );

/**
 * How far each side of the rectangle stands in or out of the circle's point nearest it, in plan:
 * front, right, back, left.
 */
const sideStepsMm = ({ widthMm, depthMm, diameterMm, centre: [x, y] }: Transition): number[] =>
  [depthMm / 2 + y, widthMm / 2 - x, depthMm / 2 - y, widthMm / 2 + x].map((reach) =>
    Math.abs(reach - diameterMm / 2),
  );

const leanDeg = (stepMm: number, { lengthMm }: Transition): number =>
  (Math.atan2(stepMm, lengthMm) * 180) / Math.PI;

/** Fewest parts into which the textbooks divide a circle (Coey: 12 or more equal parts). */
const FEWEST_DIVISIONS = 12;

/** What the user should know about the figures that were worked out. */
export const said = (v: DuctTransition, surface: Transition): Finding[] => [
  note(
    'folds-on-middle',
    'Nothing is taken off for the bends: the fold lines are where the facets meet on the middle of the sheet. Set the brake on the lines, the inside of the duct up, and try the round end on its stub before the seam is closed.',
  ),
  ...steepTaper(surface),
  ...roundEnd(v, surface),
];

const steepTaper = (surface: Transition): Finding[] => {
  const step = Math.max(...sideStepsMm(surface));
  return leanDeg(step, surface) > ORDINARY_TAPER_DEG
    ? [
        note(
          'steep-taper',
          `A side leans ${figure(leanDeg(step, surface))} deg out of the axis; a rule of the trade keeps to ${ORDINARY_TAPER_DEG}, or the air leaves the wall. A length of ${atLeast(taperLengthMm(step, ORDINARY_TAPER_DEG))} would do.`,
        ),
      ]
    : [];
};

function roundEnd(v: DuctTransition, surface: Transition): Finding[] {
  const findings: Finding[] = [];
  if (v.divisions < FEWEST_DIVISIONS)
    findings.push(
      warn(
        'few-divisions',
        `divisions ${v.divisions} makes the round end a polygon that no stub fits without dressing: ${FEWEST_DIVISIONS} or more are usual.`,
      ),
    );
  if (v.roundEdge === 'chords') {
    const lost = 1 - (v.divisions / Math.PI) * Math.sin(Math.PI / v.divisions);
    findings.push(
      note(
        'round-edge-short',
        `The round edge is ${figure(100 * lost)} percent shorter than its circle, for its chords are.`,
      ),
    );
  }
  if (v.collar > 0)
    findings.push(
      note(
        'roll-collar',
        `Roll the collar to ${figure(surface.diameterMm - v.thicknessMm)} inside and weld it edge to edge onto the round end.`,
      ),
    );
  return findings;
}
