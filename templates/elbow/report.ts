import { bumpFigures, figure, note } from '../../src/template.ts';
import type { Finding, Report } from '../../src/template.ts';
import { aroundMm, type ElbowSizes, pieceDeg, riseMm } from './sizes.ts';
import type { Elbow } from './inputs.ts';

/** How the segments are rolled and put together. */
export const said = (v: Elbow, s: ElbowSizes): Finding =>
  note(
    'roll-wall',
    `Roll each ${v.pieces > 1 ? 'piece' : 'segment'} to ${figure(s.insideMm)} inside radius, ${v.faceOut === 'lower' ? 'the face that the drawing shows' : 'the other face'} inside; nothing is taken off for a fold. ${v.pieces > 1 ? `Make each segment of its ${v.pieces} pieces, which are called by the degrees round from the back between which they lie. ` : ''}Set the segments together with their back and throat lines in line${seamsSaid(v)}, tack at back, throat and sides, and try the angle before welding.`,
  );

const seamsSaid = ({ seamPlace, pieces }: Elbow): string => {
  if (seamPlace !== 'staggered') return '';
  return pieces > 1
    ? ', the seams of each half a piece on from those of the last'
    : ', seams at the throat and at the back in turn';
};

/** Height of a strip in which all patterns lie back to back, each cut common to two. */
const stripMm = (v: Elbow, s: ElbowSizes): number =>
  2 * v.stub + 2 * (v.segments - 1) * s.centreMm * s.backset;

/** Parts of the round for which heights are told, as patterns are divided by hand. */
const DIVISIONS = 16;

/**
 * Figures to set the patterns out by hand: the backset, the slopes of all mitre lines against the
 * first end (backset times 1, 3, 5 and so on; Longfield, Sheet Metal Drafting, p. 59), and heights at
 * sixteen places round.
 */
export const reportOf = (v: Elbow, s: ElbowSizes): Report => ({
  figures: [
    { name: 'backset', value: s.backsetDeg, unit: 'deg', about: 'slope of each mitred end' },
    {
      name: v.pieces > 1 ? 'round a piece' : 'round a segment',
      value: aroundMm(v, s),
      unit: 'mm',
      about: 'length of each blank',
    },
    {
      name: 'segment at the throat',
      value: 2 * riseMm(s, 180),
      unit: 'mm',
      about: 'one between the ends',
    },
    { name: 'segment at the back', value: 2 * riseMm(s, 0), unit: 'mm' },
    ...(v.seamPlace === 'staggered' && v.pieces === 1
      ? [
          {
            name: 'strip for all back to back',
            value: stripMm(v, s),
            unit: 'mm',
            about: 'its height, as long as a blank, where each mitre is one cut for both sides',
          },
        ]
      : []),
    ...bumpFigures(s.insideMm, v.thicknessMm, pieceDeg(v)),
  ],
  tables: [
    {
      title: 'Mitre lines against the first end',
      columns: [
        { name: 'joint', unit: '' },
        { name: 'slope', unit: 'deg' },
      ],
      rows: Array.from({ length: v.segments - 1 }, (_, i) => [i + 1, (2 * i + 1) * s.backsetDeg]),
    },
    {
      title: 'Heights of the patterns, from the back round to the throat and on',
      columns: [
        { name: 'round', unit: 'deg' },
        { name: 'along the blank', unit: 'mm' },
        { name: 'end, stub included', unit: 'mm' },
        { name: 'segment between', unit: 'mm' },
      ],
      rows: Array.from({ length: DIVISIONS / 2 + 1 }, (_, i) => {
        const deg = (360 * i) / DIVISIONS;
        const rise = riseMm(s, deg);
        return [deg, (deg * Math.PI * s.middleMm) / 180, v.stub + rise, 2 * rise];
      }),
    },
  ],
});
