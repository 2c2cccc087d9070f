import { capital } from '../text/capital.ts';
import { figure } from '../text/figures.ts';
import { type Finding, note, stop, warn } from '../model/finding.ts';
import type { HemForm } from '../model/bend-rule.ts';
import type { NoFit } from './fit.ts';
import { hemImpossible, hemKRemark } from './hems.ts';
import { legsApart } from './legs.ts';
import { type MeasuredStrip, type Readings, USUAL_READINGS } from './strip.ts';
import { LIKELY_K } from './suspects.ts';
import type { BendFit, Outlier } from '../contract/calibration.ts';

/** What the user should know about a fit, in sentences. */
export const fitRemarks = (fit: BendFit, strips: readonly MeasuredStrip[]): Finding[] => [
  ...fit.outliers.map((o) =>
    warn(
      'strip-left-out',
      `Strip ${o.strip} ${o.of === 'legs' ? 'was left out' : `counts without ${o.of === 'stop' ? 'the angle it was stopped at' : 'its radius'}`}: ${offText(o)}; measure it again.`,
    ),
  ),
  ...fit.unsure.map((group) =>
    warn(
      'strips-contradict',
      `${namesOf(group)} contradict each other by ${figure(Math.max(...group.map((o) => Math.abs(o.offMm))))} mm, and it cannot be told which is wrong: all of them were left out. Measure them again.`,
    ),
  ),
  ...(isHem(strips) ? [] : legRemarks(strips)),
  ...(fit.isMisfit && fit.misfit !== null ? [scatterRemark(fit.misfit)] : []),
  ...(fit.misfit === null
    ? [
        note(
          'strips-unchecked',
          'Nothing is left to compare these figures with: a wrong reading would not show. Fold one strip more.',
        ),
      ]
    : []),
  ...(isHem(strips) ? hemKRemark(fit) : kRemark(fit)),
  ...squareRemark(fit),
  ...(fit.insideRadiusMm.value < 0
    ? [
        warn(
          'radius-below-nothing',
          `The inside radius comes out at ${figure(fit.insideRadiusMm.value)} mm, which no bend has; it is kept as 0. Read the radius of some strips with a gauge.`,
        ),
      ]
    : []),
];

const isHem = (strips: readonly MeasuredStrip[]): boolean => strips[0]?.hem !== undefined;

const offText = ({ of, offMm }: Outlier): string => {
  const by = figure(Math.abs(offMm));
  switch (of) {
    case 'legs':
      return `its legs, less its flat length, are ${by} mm ${offMm > 0 ? 'less' : 'more'} than the others say`;
    case 'radius':
      return `that is ${by} mm ${offMm > 0 ? 'less' : 'more'} than the others say`;
    case 'stop':
      return `that is ${figure(Math.abs(offMm), 1)} degrees ${offMm > 0 ? 'less' : 'more'} than the others say`;
  }
};

const namesOf = (group: readonly Outlier[]): string => {
  const names = group.map((o) =>
    o.of === 'radius' ? `the radius of strip ${o.strip}` : `strip ${o.strip}`,
  );
  const text = `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  return capital(text);
};

const legRemarks = (strips: readonly MeasuredStrip[]): Finding[] =>
  legsApart(strips).map(({ strip, legsMm: [a, b], usualMm }) =>
    note(
      'legs-apart',
      `Strip ${strip}: its legs of ${figure(a)} and ${figure(b)} are ${figure(Math.abs(a - b))} mm apart${strips.length < 3 ? '' : `, those of the others ${figure(Math.abs(usualMm))}`}: one of them was misread, or the fold did not land on its mark.`,
    ),
  );

/** Error with which a bracket folded by eye still fits, mm (common practice). */
const ROUGH_MM = 0.5;

const squareRemark = ({ squareMm }: BendFit): Finding[] =>
  squareMm === undefined || squareMm.within95 <= ROUGH_MM
    ? []
    : [
        warn(
          'square-unsure',
          `What a bend of 90 degrees takes is known to ±${figure(squareMm.within95)} mm only: fold strips to 90 degrees, or read radii with a gauge.`,
        ),
      ];

const scatterRemark = (
  misfit: number,
  { lengthMm, angleDeg }: Readings = USUAL_READINGS,
): Finding =>
  warn(
    'strips-scatter',
    `The strips scatter ${figure(misfit, 1)} times as much as lengths read to ${lengthMm} mm and angles to ${angleDeg} degrees explain: they were read more coarsely, or bends differ from one to the next. The doubts given here allow for it.`,
  );

/**
 * The published rules give K factors of 0.33 to 0.5 (DIN 6935 from r = t on, FAA-H-8083-31,
 * Machinery's Handbook, Groover's textbook); shops find values a little below and above (common
 * practice).
 */
const kRemark = ({ kFactor: { value, within95 } }: BendFit): Finding[] => {
  const [least, most] = LIKELY_K;
  if (value >= least && value <= most) return [];
  const isSure = value + within95 < least || value - within95 > most;
  return [
    warn(
      'k-unlikely',
      `K ${figure(value, 3)} is not what bends in sheet have: ${least} to ${most} is usual. ${isSure ? 'Something is measured wrongly in all strips alike: the thickness, the flat length, or to where the legs are measured.' : 'The strips hardly pin it down: fold more, to 45 and 120 degrees, or read radii with a gauge.'} K and radius still belong together.`,
    ),
  ];
};

/** Why strips give no fit, and what helps. */
export function noFitRemark({ why, strips, kFactor = NaN }: NoFit, hem?: HemForm): Finding {
  switch (why) {
    case 'open':
      return stop(
        'strips-open',
        'They do not tell K from the radius: fold some to 45 or 120 degrees as well, or read the radius of some with a gauge.',
      );
    case 'contradiction':
      return stop(
        'strips-contradict',
        `Strips ${strips.join(', ')} contradict each other, and too few are left to tell which are right: measure them again, and fold more.`,
      );
    case 'impossible':
      return hem !== undefined
        ? hemImpossible(kFactor)
        : stop(
            'k-impossible',
            `They come to K ${figure(kFactor, 3)}, which no bend has: the neutral line lies in the sheet. Check thickness, flat lengths, and to where the legs were measured.`,
          );
  }
}
