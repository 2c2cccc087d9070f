import {
  cosDeg,
  figure,
  isUnder,
  just,
  NOISE_MM,
  orMore,
  orTry,
  refuse,
} from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import { cheekStretch, leastCheekMm } from './cheeks.ts';
import { given, type OutsideHeelRest } from './outside.ts';
import { type Section, sectionOf } from './section.ts';
import {
  cheekSides,
  FLANGE_INPUT,
  flangeOf,
  hasRiser,
  highEnd,
  lipAt,
  notchMm,
  type Place,
  PLACES,
  setback90Mm,
  setbackOf,
  wedgeDeg,
} from './sizes.ts';
import { sharedEdge, stopHeight } from './stop-limits.ts';
import { angles, risers } from './riser-limits.ts';
import type { HeelRest } from './inputs.ts';
import { footDeg } from './legs.ts';

/**
 * Findings on what cannot be folded, each with a figure that can be. Later ones mean nothing while
 * an earlier one stands.
 */
export function impossibleHeelRest(v: OutsideHeelRest): Finding[] {
  const first = [...angles(v), ...sharedEdge(v), ...flanges(v)];
  if (first.length > 0) return first;
  const section = sectionOf(v);
  const second = [...tread(v, section), ...stopHeight(v, section), ...risers(v, section)];
  return second.length > 0 ? second : cheeks(v, section);
}

/**
 * The bend from which a flange is folded: at the foot of a riser or of a doubled stop, or between
 * tread and floor.
 */
const flangeAngle = (v: HeelRest, place: Place): number => {
  const slope = place === highEnd(v) ? wedgeDeg(v) : -wedgeDeg(v);
  return hasRiser(v, place) || lipAt(v, place) === 'double'
    ? footDeg(v, place, slope)
    : wedgeDeg(v);
};

function flanges(v: OutsideHeelRest): Finding[] {
  const findings: Finding[] = [];
  for (const place of PLACES) {
    const flange = flangeOf(v, place);
    const least = setbackOf(v, flangeAngle(v, place), v.insideRadiusMm) + v.thicknessMm;
    if (flange === 0 || !isUnder(flange, least)) continue;
    findings.push(allBend(v, FLANGE_INPUT[place], least));
  }
  const least = setback90Mm(v) + v.thicknessMm;
  if (cheekSides(v).length > 0 && v.cheekFlange > 0 && isUnder(v.cheekFlange, least)) {
    findings.push(allBend(v, 'cheekFlange', least));
  }
  return findings;
}

const allBend = (
  v: OutsideHeelRest,
  input: 'flangeFront' | 'flangeRear' | 'cheekFlange',
  least: number,
): Finding =>
  orTry(
    refuse(
      'flange-too-narrow',
      [input],
      `${input} ${figure(given(v, input, v[input]))} is all bend`,
      [orMore(input, given(v, input, least)), just(input, 0)],
    ),
    'radius',
  );

function tread(v: OutsideHeelRest, section: Section): Finding[] {
  const findings: Finding[] = [];
  const deep = 2 * notchMm(v);
  if (section.treadFlatMm < deep - NOISE_MM) {
    findings.push(
      orTry(
        refuse(
          'tread-too-short',
          ['treadDepth'],
          `treadDepth ${figure(given(v, 'treadDepth', v.treadDepth))} leaves no tread between the bends`,
          [orMore('treadDepth', given(v, 'treadDepth', v.treadDepth + deep - section.treadFlatMm))],
        ),
        'radius',
      ),
    );
  }
  const sides = cheekSides(v).length;
  // Width of a cheek's bend and of the relief at its end, which reaches as far again.
  const wide =
    2 * notchMm(v) + sides * (setback90Mm(v) + v.insideRadiusMm + v.thicknessMm + notchMm(v));
  if (isUnder(v.width, wide)) {
    const mends = [
      orMore('width', given(v, 'width', wide)),
      ...(sides > 0 ? [just('cheeks', 'none')] : []),
    ];
    findings.push(
      orTry(
        refuse(
          'tread-too-narrow',
          ['width'],
          `width ${figure(given(v, 'width', v.width))} leaves no tread between the cheeks`,
          mends,
        ),
        'radius',
      ),
    );
  }
  return findings;
}

function cheeks(v: OutsideHeelRest, section: Section): Finding[] {
  if (cheekSides(v).length === 0) return [];
  const w = wedgeDeg(v);
  const least = leastCheekMm(v) * cosDeg(w);
  if (v.lift > 0) {
    return section.lowRiseMm < least - NOISE_MM
      ? [
          orTry(
            refuse(
              'cheeks-too-low',
              ['lift', 'cheeks'],
              `lift ${figure(given(v, 'lift', v.lift))} leaves cheeks ${v.cheeks} that are all bend`,
              [orMore('lift', given(v, 'lift', least)), just('cheeks', 'none')],
            ),
            'radius',
          ),
        ]
      : [];
  }
  const [from, to] = cheekStretch(v, section);
  const short = from + section.ends[highEnd(v)].setbackMm + 3 * notchMm(v) - to;
  return short > NOISE_MM
    ? [
        orTry(
          refuse(
            'no-room-for-cheeks',
            ['cheeks', 'treadDepth'],
            `cheeks ${v.cheeks} find no height under a wedge of treadDepth ${figure(given(v, 'treadDepth', v.treadDepth))}`,
            [
              orMore('treadDepth', given(v, 'treadDepth', v.treadDepth + short)),
              just('cheeks', 'none'),
            ],
          ),
          'treadAngle',
          'floorAngle',
        ),
      ]
    : [];
}
