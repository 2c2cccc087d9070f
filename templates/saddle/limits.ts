import {
  figure,
  type Finding,
  isUnder,
  orLess,
  orMore,
  orTry,
  refuse,
} from '../../src/template.ts';
import type { Saddle } from './inputs.ts';
import { hugRadiusMm, leastStraightMm, profileOf, seatFor } from './sizes.ts';

/** Findings on what cannot be made, each with a figure that can be. */
export const impossibleSaddle = (v: Saddle): Finding[] => {
  const first = [...gapTooWide(v), ...seatTooLow(v)];
  if (first.length > 0) return first;
  return [...neckClosed(v), ...boltsInBends(v), ...earTooShort(v), ...tooNarrow(v)];
};

/** Ears of a clip in two, or round once, that would have to begin beyond the middle of the tube. */
function gapTooWide(v: Saddle): Finding[] {
  const most = v.kind === 'halves' ? hugRadiusMm(v) : hugRadiusMm(v) - LEAST_HUG_MM;
  if (v.kind === 'saddle' || v.gap <= most) return [];
  return [
    orTry(
      refuse(
        'clip-gap-too-wide',
        ['gap', 'diameter'],
        `gap ${figure(v.gap)} leaves no clip round diameter ${figure(v.diameter)}`,
        most >= 0.5 ? [orLess('gap', most)] : [],
      ),
      'diameter',
    ),
  ];
}

const LEAST_HUG_MM = 1;

function seatTooLow(v: Saddle): Finding[] {
  const least = seatFor(v, MOST_BENT_MM);
  if (v.kind !== 'saddle' || v.seat === undefined || !isUnder(v.seat, least)) return [];
  return [
    orTry(
      refuse(
        'clip-too-low',
        ['seat'],
        `seat ${figure(v.seat)} leaves no straight metal between the hug and the bends of the ears`,
        [orMore('seat', seatFor(v, leastStraightMm(v)))],
      ),
      'gap',
      'radius',
      'around',
    ),
  ];
}

/** Less straight metal than this between two bends is none, mm. */
const MOST_BENT_MM = 0.1;

/** An omega whose ears meet under the tube. */
function neckClosed(v: Saddle): Finding[] {
  if (v.kind !== 'saddle') return [];
  const { flatFromMm } = profileOf(v);
  const least = v.insideRadiusMm + v.thicknessMm + v.thicknessMm / 2;
  if (!isUnder(flatFromMm, least)) return [];
  return [
    orTry(
      refuse(
        'clip-neck-closed',
        ['around'],
        `around ${figure(v.around)} brings the two ears together under the tube`,
        [],
      ),
      'around',
      'seat',
      'radius',
    ),
  ];
}

function boltsInBends(v: Saddle): Finding[] {
  const least = profileOf(v).flatFromMm + v.boltHole / 2 + v.thicknessMm;
  return (['boltFrom', 'boltFromB'] as const).flatMap((name) => {
    const mm = v[name];
    if (mm === undefined || !isUnder(mm, least)) return [];
    return [
      orTry(
        refuse(
          'clip-bolt-in-bend',
          [name],
          `${name} ${figure(mm)} puts the hole into the bend of its ear`,
          [orMore(name, least)],
        ),
        'boltHole',
        'radius',
      ),
    ];
  });
}

function earTooShort(v: Saddle): Finding[] {
  const least = v.boltHole / 2 + v.thicknessMm;
  if (!isUnder(v.beyond, least)) return [];
  return [
    orTry(
      refuse(
        'clip-ear-too-short',
        ['beyond'],
        `beyond ${figure(v.beyond)} leaves no metal between the hole and the end of the ear`,
        [orMore('beyond', least)],
      ),
      'boltHole',
    ),
  ];
}

function tooNarrow(v: Saddle): Finding[] {
  const least = v.boltHole + 2 * v.thicknessMm;
  if (!isUnder(v.width, least)) return [];
  return [
    orTry(
      refuse(
        'clip-too-narrow',
        ['width', 'boltHole'],
        `width ${figure(v.width)} leaves no metal beside holes of boltHole ${figure(v.boltHole)}`,
        [orMore('width', least)],
      ),
      'boltHole',
    ),
  ];
}
