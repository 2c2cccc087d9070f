import {
  figure,
  type Finding,
  impossibleTeardrop,
  isOver,
  isPossible,
  isUnder,
  just,
  NOISE_MM,
  orMore,
  orTry,
  refuse,
  within,
} from '../../src/template.ts';
import { given, type OutsideHeelRest } from './outside.ts';
import type { Section } from './section.ts';
import { hasRiser, hemRadiusMm, lipAt, setbackOf, stopEnd, FLANGE_INPUT } from './sizes.ts';
import type { HeelRest } from './inputs.ts';

/**
 * Finding on an edge that is taken twice: flange, riser and stop each take the whole of an edge,
 * and only a stop that is folded double goes on into another of them.
 */
export function sharedEdge(v: HeelRest): Finding[] {
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

export function stopHeight(v: OutsideHeelRest, section: Section): Finding[] {
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
  // A hem folded away from the heel hangs down outside the stop's own bend.
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
