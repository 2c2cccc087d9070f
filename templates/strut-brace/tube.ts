import { figure, isOver, just, orLess, orTry, refuse, within } from '../../src/template.ts';
import type { Finding, Mend, ReportFigure } from '../../src/template.ts';
import type { StrutBrace } from './inputs.ts';

export interface CrossTube {
  readonly figures: readonly ReportFigure[];
  readonly findings: readonly Finding[];
}

/**
 * Radius of the centre line of a bend in tube, in diameters: a usual former of a hand bender
 * (common practice).
 */
const BEND_IN_DIAMETERS = 3;

/**
 * The tube from plate to plate: a leg up from each saddle, a level middle, and two equal bends
 * between them. All lengths are on the centre line, which keeps its length in the bend (K 0.5,
 * usual for tube; common practice).
 *
 * A leg rises `tubeRise` over half the difference of span and middle; each bend takes R tan(A/2)
 * off the straights on both sides of it and is R A long (any table of plane figures).
 */
export function crossTube(v: StrutBrace): CrossTube {
  if (v.tube === 0) return { figures: [], findings: [] };
  if (v.tubeSpan === undefined) {
    return {
      figures: [],
      findings: [
        refuse(
          'tube-without-span',
          ['tube', 'tubeSpan'],
          `tube ${figure(v.tube)} needs tubeSpan, measured level from the middle of the left saddle to the middle of the right one`,
          [just('tube', 0)],
          'give tubeSpan',
        ),
      ],
    };
  }
  const [span, rise, middle] = [v.tubeSpan, v.tubeRise, v.tubeMiddle ?? v.tubeSpan / 2];
  if (rise === 0)
    return {
      figures: [
        { name: 'tube length', value: span + 2 * v.tubeBeyond, unit: 'mm', about: STRAIGHT },
      ],
      findings: [],
    };
  if (middle >= span) {
    const what = `tubeMiddle ${figure(middle)} leaves no legs on a tube of tubeSpan ${figure(span)}`;
    return {
      figures: [],
      findings: [
        orTry(
          refuse('tube-middle-too-long', ['tubeMiddle', 'tubeSpan'], what, [
            ...middles(v, span),
            just('tubeRise', 0),
          ]),
          'tubeSpan',
        ),
      ],
    };
  }
  return bentTube(v, span, middle);
}

const bendRadiusMm = (v: StrutBrace): number => v.tubeBend ?? BEND_IN_DIAMETERS * v.tube;

/**
 * A leg: its length, mm, its angle from level, and what a bend takes, and may take, off the
 * straights beside it.
 */
function legOf(
  v: StrutBrace,
  span: number,
  middle: number,
): { readonly legMm: number; readonly rad: number; readonly taken: number; readonly most: number } {
  const [legMm, rad] = [
    Math.hypot(v.tubeRise, (span - middle) / 2),
    Math.atan2(v.tubeRise, (span - middle) / 2),
  ];
  return {
    legMm,
    rad,
    taken: bendRadiusMm(v) * Math.tan(rad / 2),
    most: Math.min(legMm, middle / 2),
  };
}

/** Least length of the legs over the span, mm; with less the tube is level all the way. */
const LEAST_LEGS_MM = 0.01;

/**
 * Ranges of the middle in which the bends find room on both sides, searched in steps of a hundredth
 * of the span; their ends are found by halving.
 */
function middles(v: StrutBrace, span: number): Mend[] {
  const fits = (middle: number): boolean => {
    const { taken, most } = legOf(v, span, middle);
    return !isOver(taken, most);
  };
  const good = Array.from({ length: 99 }, (_, i) => ((i + 1) * span) / 100).filter(fits);
  const [first, last] = [good[0], good.at(-1)];
  if (first === undefined || last === undefined) return [];
  const edge = (inside: number, outside: number): number => {
    let [passes, fails] = [inside, outside];
    for (let i = 0; i < 30; i++) {
      const middle = (passes + fails) / 2;
      if (fits(middle)) passes = middle;
      else fails = middle;
    }
    return passes;
  };
  return [
    within(
      'tubeMiddle',
      edge(first, first - span / 100),
      Math.min(edge(last, last + span / 100), span - LEAST_LEGS_MM),
    ),
  ];
}

const STRAIGHT = 'A straight tube, cut square, tubeBeyond past the middle of each saddle.';

function bentTube(v: StrutBrace, span: number, middle: number): CrossTube {
  const radius = bendRadiusMm(v);
  const { legMm, rad, taken, most } = legOf(v, span, middle);
  if (isOver(taken, most)) {
    const what = `tubeBend ${figure(radius)} takes ${figure(taken)} mm off the straights beside each bend of the tube, and tubeMiddle ${figure(middle)} leaves ${figure(most)} of them`;
    return {
      figures: [],
      findings: [
        orTry(
          refuse('tube-too-short-for-bends', ['tubeBend', 'tubeMiddle'], what, [
            orLess('tubeBend', most / Math.tan(rad / 2)),
            ...middles(v, span),
          ]),
          'tubeSpan',
          'tubeRise',
        ),
      ],
    };
  }
  const arc = radius * rad;
  const leg = v.tubeBeyond + legMm - taken;
  const figures: ReportFigure[] = [
    {
      name: 'tube length',
      value: 2 * leg + 2 * arc + middle - 2 * taken,
      unit: 'mm',
      about: 'Length to cut, on the centre line, with tubeBeyond past the middle of each saddle.',
    },
    {
      name: 'tube bends',
      value: (rad * 180) / Math.PI,
      unit: 'deg',
      about:
        'Two equal ones in one plane, turned the same way; also the slope of the legs from level.',
    },
    { name: 'tube bend radius', value: radius, unit: 'mm', about: 'Radius of the centre line.' },
    {
      name: 'first bend begins',
      value: leg,
      unit: 'mm',
      about: 'Distance from either end of the tube.',
    },
    {
      name: 'first bend ends',
      value: leg + arc,
      unit: 'mm',
      about: 'Distance from either end of the tube.',
    },
    { name: 'straight between bends', value: middle - 2 * taken, unit: 'mm' },
  ];
  return { figures, findings: [] };
}
