import { atMost, figure } from '../figures.ts';
import { type Finding, stop } from '../model/finding.ts';
import type { ReportFigure } from '../model/report.ts';
import type { StrutBrace } from './strut-brace-sizes.ts';

export interface CrossTube {
  readonly figures: readonly ReportFigure[];
  readonly findings: readonly Finding[];
}

/** Radius of the centre line of a bend in tube, in diameters: a usual former of a hand bender (common practice). */
const BEND_IN_DIAMETERS = 3;

/**
 * The tube from plate to plate: a leg up from each saddle, a level middle, two equal bends between them. All lengths
 * are on the centre line, which keeps its length in the bend (K 0.5, usual for tube; common practice).
 *
 * A leg rises `tubeRise` over half of what the span is longer than the middle; each bend takes R tan(A/2) off the
 * straights on both sides of it and is R A long (any table of plane figures).
 */
export function crossTube(v: StrutBrace): CrossTube {
  if (v.tube === 0) return { figures: [], findings: [] };
  if (v.tubeSpan === undefined) {
    return { figures: [], findings: [stop('tube-without-span', 'A cross tube needs tubeSpan: measure it level from the middle of the left saddle to the middle of the right one.')] };
  }
  const [span, rise, middle] = [v.tubeSpan, v.tubeRise, v.tubeMiddle ?? v.tubeSpan / 2];
  if (rise === 0) return { figures: [{ name: 'tube length', value: span + 2 * v.tubeBeyond, unit: 'mm', about: STRAIGHT }], findings: [] };
  if (middle >= span) {
    return { figures: [], findings: [stop('tube-middle-too-long', `tubeMiddle ${figure(middle)} leaves no legs on a tube of span ${figure(span)}: give less than ${figure(span)}, or tubeRise 0 for a straight tube.`)] };
  }
  return bentTube(v, Math.hypot(rise, (span - middle) / 2), middle, Math.atan2(rise, (span - middle) / 2));
}

const STRAIGHT = 'A straight tube, cut square, tubeBeyond past the middle of each saddle.';

function bentTube(v: StrutBrace, legMm: number, middle: number, rad: number): CrossTube {
  const radius = v.tubeBend ?? BEND_IN_DIAMETERS * v.tube;
  const taken = radius * Math.tan(rad / 2);
  const most = Math.min(legMm, middle / 2);
  if (taken > most) {
    const mend = `give tubeBend ${atMost(most / Math.tan(rad / 2))} or less, or ${middle / 2 < legMm ? 'a longer tubeMiddle' : 'less tubeMiddle'}`;
    return { figures: [], findings: [stop('tube-too-short-for-bends', `Each bend of the tube takes ${figure(taken)} mm off the straights beside it, and there are ${figure(most)}: ${mend}.`)] };
  }
  const arc = radius * rad;
  const leg = v.tubeBeyond + legMm - taken;
  const figures: ReportFigure[] = [
    { name: 'tube length', value: 2 * leg + 2 * arc + middle - 2 * taken, unit: 'mm', about: 'To cut, on the centre line, tubeBeyond past the middle of each saddle.' },
    { name: 'tube bends', value: (rad * 180) / Math.PI, unit: 'deg', about: 'Two equal ones in one plane, turned the same way; also the slope of the legs from level.' },
    { name: 'tube bend radius', value: radius, unit: 'mm', about: 'Of the centre line.' },
    { name: 'first bend begins', value: leg, unit: 'mm', about: 'From either end of the tube.' },
    { name: 'first bend ends', value: leg + arc, unit: 'mm', about: 'From either end of the tube.' },
    { name: 'straight between bends', value: middle - 2 * taken, unit: 'mm' },
  ];
  return { figures, findings: [] };
}
