import { cosDeg, sinDeg } from '../../src/template.ts';
import type { Report, ReportFigure } from '../../src/template.ts';
import { insetMm, type OutsideHeelRest } from './outside.ts';
import type { Section } from './section.ts';
import { hasRiser, highEnd, type Place, wedgeDeg } from './sizes.ts';
import type { HeelRest } from './inputs.ts';
import { footDeg } from './legs.ts';

/** Figures that one wants to check with a tape, before and after folding. */
export const heelRestReport = (v: OutsideHeelRest, section: Section): Report => ({
  figures: [
    {
      name: 'angle of the shoe',
      value: v.treadAngle,
      unit: 'deg',
      about: 'Angle of the tread from level, more than 0 where it rises forward.',
    },
    {
      name: 'angle over the floor',
      value: wedgeDeg(v),
      unit: 'deg',
      about: `Angle between tread and floor, open to the ${highEnd(v)}.`,
    },
    {
      name: 'length along the floor',
      value: section.lengthMm,
      unit: 'mm',
      about: 'Overall, flanges included.',
    },
    ...(['front', 'rear'] as const).flatMap((place) => rises(v, section, place)),
    ...(['front', 'rear'] as const).flatMap((place) => riser(v, section, place)),
  ],
});

/** A tread that is measured from the inside of its bends ends sooner, and lower or higher. */
const rises = (v: OutsideHeelRest, section: Section, place: Place): ReportFigure[] => [
  {
    name: `rise at the ${place}`,
    value:
      (place === highEnd(v) ? section.highRiseMm : section.lowRiseMm) -
      (place === highEnd(v) ? 1 : -1) *
        insetMm(v, section.ends[place].legs[0]) *
        sinDeg(wedgeDeg(v)),
    unit: 'mm',
    about: `Height of the tread's upper face over the floor, square to it, at the ${place} end of treadDepth.`,
  },
];

/**
 * Figures of a riser. Its height is the height over the floor up to the tread's upper face, without
 * a stop on it; its length is the same along its slope.
 */
function riser(v: HeelRest, section: Section, place: Place): ReportFigure[] {
  const { standing, tangentMm } = section.ends[place];
  if (!hasRiser(v, place) || standing === undefined) return [];
  const slope = place === highEnd(v) ? wedgeDeg(v) : -wedgeDeg(v);
  // Point where the upper face of the tread, extended, meets the outside face of the riser.
  const { downDeg, out, up } = standing;
  const reach = out + (v.thicknessMm - (v.thicknessMm - up) * cosDeg(downDeg)) / sinDeg(downDeg);
  const height = tangentMm + v.thicknessMm * cosDeg(slope) + reach * sinDeg(slope);
  return [
    {
      name: `${place} riser height`,
      value: height,
      unit: 'mm',
      about:
        'Square to the floor, from it to where the upper face of the tread meets the outside of the riser.',
    },
    {
      name: `${place} riser length`,
      value: height / sinDeg(footDeg(v, place, slope)),
      unit: 'mm',
      about: 'The same along the riser.',
    },
  ];
}
