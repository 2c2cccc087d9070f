import { figure, note, ORDINARY_TAPER_DEG } from '../../src/template.ts';
import type { Finding, Report, ReportFigure, ReportTable } from '../../src/template.ts';
import { edgeLengthMm, type Facet, foldAngleDeg } from '../duct-transition/surface.ts';
import { diffuserDeg, type Section, speedMs, steepestDeg } from './air.ts';
import { allMm, seamMm } from './chains.ts';
import type { DuctEnds, EndName } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import type { Rim } from './rims.ts';

/** A duct as it was worked out, on the middle of its sheet. */
export interface Duct {
  readonly ends: DuctEnds;
  readonly rims: Readonly<Record<EndName, Rim>>;
  readonly ring: readonly Facet[];
  /** The way of the air through it. */
  readonly along: readonly Section[];
}

/** The figures of the air and of the blanks. */
export const ductReport = (
  v: DuctBetween,
  duct: Duct,
  chains: readonly (readonly Facet[])[],
): Report => {
  const { along } = duct;
  const folds = foldRows(chains);
  return {
    figures: [
      ...airFigures(v, duct),
      { name: 'folds', value: folds.length, unit: '', about: 'of all blanks' },
      {
        name: 'sharpest fold',
        value: Math.max(0, ...folds.map(([, , , angle = 0]) => Math.abs(angle))),
        unit: 'deg',
      },
      ...(['near', 'far'] as const).map((name): ReportFigure => ({
        name: `${name} edge`,
        value: duct.ring.reduce((sum, facet) => sum + allMm(facet, EDGE_OF[name]), 0),
        unit: 'mm',
        about: 'length round the opening on the middle of the sheet',
      })),
      ...chains.map((chain, i): ReportFigure => ({
        name: chains.length === 1 ? 'seam' : `seam ${i + 1}`,
        value: seamMm(chain),
        unit: 'mm',
        about: 'length of its weld',
      })),
    ],
    tables: [airTable(v, along), foldTable(folds)],
  };
};

const EDGE_OF = { near: 'base', far: 'rim' } as const;

const airFigures = (v: DuctBetween, duct: Duct): ReportFigure[] => {
  const { along } = duct;
  const [near, far, least] = [along[0], along.at(-1), leastOf(along)] as [
    Section,
    Section,
    Section,
  ];
  const about = 'clear, across the way of the air';
  return [
    { name: 'near area', value: near.clearMm2, unit: 'mm2', about },
    { name: 'far area', value: far.clearMm2, unit: 'mm2', about },
    {
      name: 'least section',
      value: least.clearMm2,
      unit: 'mm2',
      about: `${figure(100 * least.share, 0)} percent of the way along`,
    },
    {
      name: 'steepest wall',
      value: steepestDeg(duct.rims, duct.ring),
      unit: 'deg',
      about: 'against the line from middle to middle',
    },
    {
      name: 'steepest widening',
      value: diffuserDeg(along, v.flowFrom === 'near'),
      unit: 'deg',
      about: 'whole angle of a cone that widens as fast, in the way of the air',
    },
    ...(v.flow === undefined
      ? []
      : [
          { name: 'speed at the near end', value: speedMs(v.flow, near.clearMm2), unit: 'm/s' },
          { name: 'speed at the far end', value: speedMs(v.flow, far.clearMm2), unit: 'm/s' },
          {
            name: 'greatest speed',
            value: speedMs(v.flow, least.clearMm2),
            unit: 'm/s',
            about: 'at the least section',
          },
        ]),
  ];
};

const leastOf = (along: readonly Section[]): Section =>
  along.reduce((a, b) => (b.clearMm2 < a.clearMm2 * (1 - SAME_AREA) ? b : a));

/** Areas that differ by this share are alike to whoever moves air. */
const SAME_AREA = 1e-6;

const airTable = ({ flow }: DuctBetween, along: readonly Section[]): ReportTable => ({
  title: 'Sections from the near opening to the far one, along the line of middles',
  columns: [
    { name: 'along', unit: 'mm' },
    { name: 'clear area', unit: 'mm2' },
    { name: 'round of the same area', unit: 'mm' },
    ...(flow === undefined ? [] : [{ name: 'speed', unit: 'm/s' }]),
  ],
  rows: along.map(({ alongMm, clearMm2, roundMm }) => [
    alongMm,
    clearMm2,
    roundMm,
    ...(flow === undefined ? [] : [speedMs(flow, clearMm2)]),
  ]),
});

const foldTable = (rows: readonly (readonly number[])[]): ReportTable => ({
  title:
    'Fold lines, in their order along each blank from right to left, seen from inside; less than 0 outwards',
  columns: [
    { name: 'blank', unit: '' },
    { name: 'fold', unit: '' },
    { name: 'true length', unit: 'mm' },
    { name: 'angle', unit: 'deg' },
  ],
  rows,
});

const foldRows = (chains: readonly (readonly Facet[])[]): (readonly number[])[] =>
  chains.flatMap((chain, blank) =>
    chain
      .slice(1)
      .map((facet, i) => [
        blank + 1,
        i + 1,
        edgeLengthMm(facet, 'entry'),
        foldAngleDeg(chain[i] as Facet, facet),
      ]),
  );

/** Air is heard and costs pressure beyond this, m/s (common practice for ducts near people). */
const FAST_MS = 12;

/** Most that an engine maker allows for combustion air: 8000 ft/min, m/s (installation handbook). */
const ENGINE_MS = 40.64;

/**
 * Ducts that widen faster than a cone of this whole angle lose the air off their walls, degrees:
 * attached up to 7 of half angle (a review of several studies of conical diffusers).
 */
const WIDEST_DEG = 14;

/** A least section this much smaller than either end is a throat. */
const THROAT_SHARE = 0.97;

/** A fold that turns less needs hardly a stroke, degrees (common practice). */
const SLIGHT_DEG = 2;

/** What the user should know about a duct that can be made. */
export const said = (v: DuctBetween, duct: Duct): Finding[] => [
  note(
    'folds-on-middle',
    'Nothing is taken off for the bends: the fold lines are where the facets meet on the middle of the sheet. Set the brake on the lines, the inside of the duct up, and try both ends on what they join before the last seam is closed.',
  ),
  ...slightFolds(duct.ring),
  ...airNotes(v, duct),
];

const slightFolds = (ring: readonly Facet[]): Finding[] => {
  const slight = ring.filter((facet, i) => {
    const before = ring[(i + ring.length - 1) % ring.length] as Facet;
    return Math.abs(foldAngleDeg(before, facet)) < SLIGHT_DEG;
  }).length;
  return slight === 0
    ? []
    : [
        note(
          'slight-folds',
          `${slight === 1 ? 'One fold turns' : `${slight} folds turn`} less than ${SLIGHT_DEG} deg: the sheet gives that much by hand when the ends are pulled to shape (common practice).`,
        ),
      ];
};

const airNotes = (v: DuctBetween, duct: Duct): Finding[] => {
  const { along } = duct;
  const [near, far, least] = [along[0], along.at(-1), leastOf(along)] as [
    Section,
    Section,
    Section,
  ];
  const [steepest, widening] = [
    steepestDeg(duct.rims, duct.ring),
    diffuserDeg(along, v.flowFrom === 'near'),
  ];
  const notes: Finding[] = [];
  if (steepest > ORDINARY_TAPER_DEG)
    notes.push(
      note(
        'steep-taper',
        `A wall leans ${figure(steepest)} deg out of the line of middles; a rule of the trade keeps to ${ORDINARY_TAPER_DEG}, or the air leaves the wall.`,
      ),
    );
  if (widening > WIDEST_DEG)
    notes.push(
      note(
        'diffuser-wide',
        `It widens like a cone of ${figure(widening)} deg in the way of the air; up to ${WIDEST_DEG}, 7 to a side, air stays on the walls of a cone, and beyond that it leaves them and loses pressure. More length, or a smaller opening at the ${v.flowFrom === 'near' ? 'far' : 'near'} end, helps.`,
      ),
    );
  if (least.clearMm2 < THROAT_SHARE * Math.min(near.clearMm2, far.clearMm2))
    notes.push(
      note(
        'throat',
        `Its least section of ${figure(least.clearMm2, 0)} mm2, ${figure(100 * least.share, 0)} percent of the way along, is smaller than both openings: turn them to each other, or give more length.`,
      ),
    );
  if (v.flow !== undefined && speedMs(v.flow, least.clearMm2) > FAST_MS)
    notes.push(
      note(
        'air-fast',
        `Air of ${figure(v.flow)} m3/h goes ${figure(speedMs(v.flow, least.clearMm2))} m/s through the least section; over ${FAST_MS} it is heard and costs pressure (common practice)${speedMs(v.flow, least.clearMm2) > ENGINE_MS ? `, and an engine maker allows combustion air ${ENGINE_MS}` : ''}.`,
      ),
    );
  return notes;
};
