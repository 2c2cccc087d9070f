import {
  cosDeg,
  figure,
  impossibleTeardrop,
  isOver,
  isPossible,
  isUnder,
  just,
  NOISE_MM,
  orLess,
  orMore,
  orTry,
  refuse,
  sinDeg,
  within,
} from '../../src/template.ts';
import type { Finding, Mend } from '../../src/template.ts';
import { cheekStretch, leastCheekMm } from './cheeks.ts';
import { given, type OutsideHeelRest, outsideHeelRest } from './outside.ts';
import { footDeg, type Section, sectionOf } from './section.ts';
import {
  cheekSides,
  flangeOf,
  hasRiser,
  hemRadiusMm,
  highEnd,
  lipAt,
  lowEnd,
  notchMm,
  type Place,
  setback90Mm,
  setbackOf,
  stopEnd,
  wedgeDeg,
} from './sizes.ts';
import type { HeelRest } from './inputs.ts';

const PLACES = ['front', 'rear'] as const;
const FLANGE_INPUT = { front: 'flangeFront', rear: 'flangeRear' } as const;

/**
 * Steeper than this a heel rest is a wall; sheet is hardly folded further over than this without a
 * tool for hems.
 */
const STEEPEST_DEG = 60;
const SHARPEST_DEG = 150;
/** No longer treads are offered: `treadDepth` ends there. */
const DEEPEST_MM = 1500;
/** A riser under a lifted tread that is turned less than this from it is none. */
const BLUNTEST_DEG = 10;

/**
 * What cannot be folded, each with the figure that could. Later ones mean nothing while an earlier
 * one stands.
 */
export function impossibleHeelRest(v: OutsideHeelRest): Finding[] {
  const first = [...angles(v), ...sharedEdge(v), ...flanges(v)];
  if (first.length > 0) return first;
  const section = sectionOf(v);
  const second = [...tread(v, section), ...stopHeight(v, section), ...risers(v, section)];
  return second.length > 0 ? second : cheeks(v, section);
}

function angles(v: OutsideHeelRest): Finding[] {
  const w = wedgeDeg(v);
  if (isOver(w, STEEPEST_DEG)) {
    const beside = (input: 'floorAngle' | 'treadAngle', angle: number): Mend =>
      within(
        input,
        Math.max(-STEEPEST_DEG, angle - STEEPEST_DEG),
        Math.min(STEEPEST_DEG, angle + STEEPEST_DEG),
      );
    const what = `floorAngle ${figure(v.floorAngle)} and treadAngle ${figure(v.treadAngle)} turn the tread ${figure(w)} degrees from the floor, more than ${STEEPEST_DEG}`;
    return [
      refuse('wedge-too-steep', ['floorAngle', 'treadAngle'], what, [
        beside('treadAngle', v.floorAngle),
        beside('floorAngle', v.treadAngle),
      ]),
    ];
  }
  if (w === 0 && v.lift === 0) {
    return [
      refuse(
        'no-wedge',
        ['floorAngle', 'treadAngle'],
        `floorAngle and treadAngle are both ${figure(v.floorAngle)}, so the tread would lie on the floor`,
        [orMore('lift', leastLiftMm(v))],
        'give angles that differ',
      ),
    ];
  }
  const most = SHARPEST_DEG - w;
  if (isOver(v.riserAngle, most)) {
    return [
      refuse(
        'riser-angle',
        ['riserAngle'],
        `riserAngle ${figure(v.riserAngle)} folds the riser more than ${SHARPEST_DEG} degrees from the tread`,
        [orLess('riserAngle', most)],
      ),
    ];
  }
  const least = BLUNTEST_DEG + w;
  return v.lift > 0 && isUnder(v.riserAngle, least)
    ? [
        refuse(
          'riser-angle',
          ['riserAngle', 'lift'],
          `riserAngle ${figure(v.riserAngle)} leaves the riser at the low end in line with the tread`,
          [orMore('riserAngle', least), just('lift', 0)],
        ),
      ]
    : [];
}

/**
 * Flange, riser and stop each take the whole of an edge; only one folded double goes on into
 * another of them.
 */
function sharedEdge(v: HeelRest): Finding[] {
  const place = stopEnd(v);
  if (lipAt(v, place) !== 'single') return [];
  const other = place === 'front' ? 'rear' : 'front';
  const wants = `lipPlace ${v.lipPlace} with lipFold ${v.lipFold} wants the ${place} edge of the tread`;
  if (hasRiser(v, place)) {
    const elsewhere = hasRiser(v, other) ? [] : [just('lipPlace', other)];
    return [
      refuse(
        'stop-and-riser',
        ['lipPlace', 'lipFold'],
        `${wants}, from which the riser is folded`,
        [just('lipFold', 'double'), ...elsewhere],
      ),
    ];
  }
  const input = FLANGE_INPUT[place];
  if (v[input] === 0) return [];
  return [
    refuse(
      'stop-and-flange',
      ['lipPlace', 'lipFold', input],
      `${wants}, which runs out into ${input}`,
      [just('lipFold', 'double'), just(input, 0)],
    ),
  ];
}

/**
 * The bend a flange hangs on: at the foot of a riser or of a doubled stop, or between tread and
 * floor.
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
  // The bend of a cheek, and the relief at its end, which reaches as far again.
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

function stopHeight(v: OutsideHeelRest, section: Section): Finding[] {
  const { legs } = section.ends[stopEnd(v)];
  const leg = legs.find(({ id }) => id === 'stop');
  if (leg === undefined) return [];
  if (leg.flatMm < v.thicknessMm - NOISE_MM) {
    const least = v.lipHeight - leg.flatMm + v.thicknessMm;
    return [
      orTry(
        refuse('stop-too-low', ['lipHeight'], `lipHeight ${figure(v.lipHeight)} is all bend`, [
          orMore('lipHeight', least),
          just('lipHeight', 0),
        ]),
        'radius',
      ),
    ];
  }
  if (!legs.some(({ id }) => id === 'hem')) return [];
  const least = setbackOf(v, 180, hemRadiusMm(v)) + v.thicknessMm;
  // Folded away from the heel, it hangs down outside the stop's own bend.
  const most = v.lipHeight - v.insideRadiusMm;
  const teardrop =
    v.hemShape === 'teardrop'
      ? impossibleTeardrop(
          { radiusMm: hemRadiusMm(v), thicknessMm: v.thicknessMm, depthMm: v.hem },
          'hem',
          given(v, 'hem', v.hem),
        )
      : [];
  if (teardrop.length > 0) return teardrop;
  if (!isUnder(v.hem, least) && !isOver(v.hem, most)) return [];
  const hems = within('hem', given(v, 'hem', least), given(v, 'hem', most));
  const wrong =
    v.hem < least
      ? 'is all bend'
      : `reaches down to the bend of a stop of lipHeight ${figure(v.lipHeight)}`;
  return [
    orTry(
      refuse(
        'hem-does-not-fit',
        ['hem', ...(v.hem < least ? [] : ['lipHeight'])],
        `hem ${figure(given(v, 'hem', v.hem))} ${wrong}`,
        [...(isPossible(hems) ? [hems] : []), just('hem', 0)],
      ),
      'hemRadius',
      'lipHeight',
    ),
  ];
}

function risers(v: OutsideHeelRest, section: Section): Finding[] {
  for (const place of [lowEnd(v), highEnd(v)]) {
    const { legs, standing } = section.ends[place];
    const leg = standing === undefined ? undefined : legs[standing.index];
    if (leg === undefined || leg.flatMm >= v.thicknessMm - NOISE_MM) continue;
    const rise =
      (v.thicknessMm - leg.flatMm) *
      sinDeg(footDeg(v, place, place === highEnd(v) ? wedgeDeg(v) : -wedgeDeg(v)));
    // On a wedge a riser is as high as the tread is deep; one that is lifted, or hangs on a doubled
    // stop, is what these say.
    const mends = riserMends(v, place, rise);
    const inputs = [
      ...mends.map(({ input }) => input),
      ...(v.lift > 0 ? ['lift'] : ['treadDepth']),
    ];
    const named = [...new Set(inputs)].map(
      (input) =>
        `${input} ${figure(input === 'lipHeight' ? v.lipHeight : given(v, input as 'lift' | 'treadDepth', v[input as 'lift' | 'treadDepth']))}`,
    );
    return [
      orTry(
        refuse('riser-too-low', inputs, `The ${leg.id} is all bend (${named.join(', ')})`, mends),
        'floorAngle',
        'treadAngle',
        'radius',
      ),
    ];
  }
  return [];
}

/** `rise`: by how much higher the end of the tread would have to stand over the floor. */
function riserMends(v: OutsideHeelRest, place: Place, rise: number): Mend[] {
  const mends: Mend[] = [];
  if (lipAt(v, place) === 'double')
    mends.push(orMore('lipHeight', v.lipHeight + rise / sinDeg(v.riserAngle)));
  const deep = v.treadDepth + rise / sinDeg(wedgeDeg(v));
  if (v.lift === 0 && place === highEnd(v) && deep <= DEEPEST_MM)
    mends.push(orMore('treadDepth', given(v, 'treadDepth', deep)));
  if (v.riserAngle >= BLUNTEST_DEG + wedgeDeg(v)) mends.push(orMore('lift', leastLiftMm(v)));
  return mends;
}

/**
 * The least lift to be asked for under which both risers, and the cheeks, have a flat: a riser
 * grows with it as its sine says.
 */
function leastLiftMm(v: OutsideHeelRest): number {
  const trial = outsideHeelRest({ ...v.asked, lift: 1 });
  const { ends } = sectionOf(trial);
  const needs = PLACES.map((place) => {
    const { legs, standing } = ends[place];
    return (
      trial.lift +
      (v.thicknessMm - (legs[standing?.index ?? 0]?.flatMm ?? 0)) * sinDeg(v.riserAngle)
    );
  });
  return given(
    trial,
    'lift',
    Math.max(...needs, cheekSides(v).length > 0 ? leastCheekMm(v) * cosDeg(wedgeDeg(v)) : 0),
  );
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
