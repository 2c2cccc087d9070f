import {
  beadSection,
  drawnBackMm,
  edgeStiffness,
  louvreAreaMm2,
  rampStretch,
} from '../../src/template.ts';
import type { Report, ReportFigure, ReportTable } from '../../src/template.ts';
import type { Bead } from './beads.ts';
import type { Vent } from './inputs.ts';
import { foldOf, mostDrawnMm, rampMm, SIDES } from './sizes.ts';

/** Air through the louvres, what the beads ask of the metal, and what the flanges do for the edges. */
export const ventReport = (v: Vent, louvreCount: number, beads: readonly Bead[]): Report => ({
  figures: [
    ...(louvreCount > 0 ? louvreFigures(v, louvreCount) : []),
    ...(v.beads > 0 ? beadFigures(v) : []),
    ...(louvreCount > 0 || v.beads > 0 ? [elongation(v)] : []),
    ...(SIDES.some((side) => foldOf(v, side) !== undefined) ? [stiffness(v)] : []),
  ],
  ...(beads.length > 0 && { tables: [beadTable(v, beads)] }),
});

/** Where the beads are marked, for whoever has no cutter that marks. */
const beadTable = (v: Vent, beads: readonly Bead[]): ReportTable => ({
  title: `Middles of the beads, from the ${v.beadRun === 'level' ? 'bottom' : 'left'} edge as it is trimmed`,
  columns: [
    { name: 'bead', unit: '' },
    { name: 'middle', unit: 'mm' },
  ],
  rows: beads.map(({ box }, i) => [
    i + 1,
    v.beadRun === 'level' ? (box.minY + box.maxY) / 2 : (box.minX + box.maxX) / 2,
  ]),
});

/** The louvre as the formulas take it. */
export const louvreShape = (v: Vent) => ({
  lengthMm: v.louvreLength,
  depthMm: v.louvreDepth,
  heightMm: v.louvreHeight,
  rampMm: rampMm(v),
  thicknessMm: v.thicknessMm,
});

const louvreFigures = (v: Vent, count: number): ReportFigure[] => {
  const shape = louvreShape(v);
  const areaMm2 = louvreAreaMm2(shape);
  return [
    {
      name: 'free area of a louvre',
      value: areaMm2,
      unit: 'mm2',
      about:
        '(louvreLength - 2 louvreRamp) x (louvreHeight - thickness); the ramps are not counted',
    },
    { name: `free area of all ${count} louvres`, value: count * areaMm2, unit: 'mm2' },
    {
      name: 'ramp of a louvre',
      value: rampMm(v),
      unit: 'mm',
      about: 'at each end, along the lance',
    },
    {
      name: 'lanced edge draws back',
      value: drawnBackMm(shape),
      unit: 'mm',
      about: 'from the lance as the louvre rises; plane geometry',
    },
    {
      name: 'stretch over a ramp',
      value: 100 * rampStretch(shape),
      unit: '%',
      about: 'mean of the lanced edge, if no metal is drawn in; plane geometry',
    },
  ];
};

const beadFigures = (v: Vent): ReportFigure[] => {
  const { radiusMm, arcMm, heldStretch } = beadSection(v.beadWidth, v.beadDepth);
  return [
    {
      name: 'radius of a bead',
      value: radiusMm,
      unit: 'mm',
      about: 'of its section, an arc',
    },
    {
      name: 'length round a bead',
      value: arcMm,
      unit: 'mm',
      about: 'along its section, whose chord is beadWidth',
    },
    {
      name: 'beads draw in at most',
      value: mostDrawnMm(v),
      unit: 'mm',
      about:
        'all beads together, both edges together; 0 where the edges are held. No published allowance was found',
    },
    {
      name: 'stretch over a bead',
      value: 100 * heldStretch,
      unit: '%',
      about: 'mean, if the edges are held',
    },
  ];
};

const elongation = ({ material: { elongationPct } }: Vent): ReportFigure => ({
  name: 'elongation of the sheet',
  value: elongationPct.value,
  unit: '%',
  about: elongationPct.source,
});

/** Width of the strip beside an edge that is compared, where the panel is as wide, mm. */
const STRIP_MM = 100;

const stiffness = (v: Vent): ReportFigure => {
  const strip = Math.min(STRIP_MM, v.width, v.height);
  return {
    name: 'folded edge against a flat one',
    value: edgeStiffness(strip, v.thicknessMm, v.flange).ratio,
    unit: '',
    about: `times as stiff in bending, of the strip of ${strip} mm beside it; it says nothing about strength`,
  };
};
