import {
  figure,
  type Finding,
  isOver,
  isUnder,
  orLess,
  orMore,
  orTry,
  refuse,
} from '../../src/template.ts';
import { acrossBeadsMm, beadLengthMm, beadsOf, firstBeadMm } from './beads.ts';
import type { Louvre } from './louvres.ts';
import {
  boxGapMm,
  clearMm,
  foldOf,
  louvreClearMm,
  type OutsideVent,
  type Side,
  takenMm,
} from './sizes.ts';

/** Findings on beads that cannot be rolled, or not where they are. */
export const impossibleBeads = (v: OutsideVent, louvres: readonly Louvre[]): Finding[] => {
  if (v.beads === 0) return [];
  const shape = [...tooDeep(v), ...tooShort(v)];
  if (shape.length > 0) return shape;
  return [...tooClose(v), ...endsNearBend(v), ...offFace(v), ...throughLouvres(v, louvres)];
};

/** No roll presses a bead deeper than half a circle. */
const tooDeep = (v: OutsideVent): Finding[] =>
  isOver(v.beadDepth, v.beadWidth / 2)
    ? [
        refuse(
          'bead-too-deep',
          ['beadDepth', 'beadWidth'],
          `beadDepth ${figure(v.beadDepth)} is more than half of beadWidth ${figure(v.beadWidth)}`,
          [orLess('beadDepth', v.beadWidth / 2), orMore('beadWidth', 2 * v.beadDepth)],
        ),
      ]
    : [];

/** A bead shorter than this many widths is two ends without a middle (common practice). */
const LEAST_LENGTH = 2;

const tooShort = (v: OutsideVent): Finding[] => {
  const least = LEAST_LENGTH * v.beadWidth;
  const spare = beadLengthMm(v) - least;
  const size = v.beadRun === 'level' ? 'width' : 'height';
  return isUnder(spare, 0)
    ? [
        orTry(
          refuse(
            'bead-too-short',
            ['beadClear', 'beadWidth', size],
            `beadClear ${figure(v.beadClear)} leaves of ${size} ${figure(v[size] - v.added[size])} no bead of twice beadWidth ${figure(v.beadWidth)}`,
            spare + 2 * v.beadClear < 0 ? [] : [orLess('beadClear', v.beadClear + spare / 2)],
          ),
          'beadWidth',
          size,
        ),
      ]
    : [];
};

const tooClose = (v: OutsideVent): Finding[] =>
  v.beads > 1 && isUnder(v.beadPitch, v.beadWidth + clearMm(v))
    ? [
        orTry(
          refuse(
            'beads-too-close',
            ['beadPitch', 'beadWidth'],
            `beadPitch ${figure(v.beadPitch)} leaves less than ${figure(clearMm(v))} of flat sheet between beads of beadWidth ${figure(v.beadWidth)}`,
            [orMore('beadPitch', v.beadWidth + clearMm(v))],
          ),
          'beadWidth',
        ),
      ]
    : [];

const sidesOf = (v: OutsideVent, which: 'ends' | 'along'): readonly [Side, Side] =>
  (v.beadRun === 'level') === (which === 'ends') ? ['left', 'right'] : ['bottom', 'top'];

/** Where a side is folded, the ends of the beads stay off its bend; a free edge they may reach. */
const endsNearBend = (v: OutsideVent): Finding[] => {
  const folded = sidesOf(v, 'ends').filter((side) => foldOf(v, side) !== undefined);
  const least = Math.max(0, ...folded.map((side) => takenMm(v, side) + clearMm(v)));
  return isUnder(v.beadClear, least)
    ? [
        refuse(
          'bead-near-bend',
          ['beadClear'],
          `beadClear ${figure(v.beadClear)} lets the beads run into the bend at the ${folded.join(' and ')}`,
          [orMore('beadClear', least)],
        ),
      ]
    : [];
};

/** `beadsAt 40 with beads 2 at beadPitch 100`. */
const placeText = (v: OutsideVent): string =>
  `${v.beadsAt === undefined ? '' : `beadsAt ${figure(v.beadsAt - v.added.beadsAt)} with `}beads ${v.beads} at beadPitch ${figure(v.beadPitch)}`;

const offFace = (v: OutsideVent): Finding[] => {
  const [low, high] = sidesOf(v, 'along');
  const half = v.beadWidth / 2 + clearMm(v);
  const first = firstBeadMm(v);
  const last = first + (v.beads - 1) * v.beadPitch;
  const size = v.beadRun === 'level' ? 'height' : 'width';
  const isOff =
    isUnder(first - half, takenMm(v, low)) ||
    isOver(last + half, acrossBeadsMm(v) - takenMm(v, high));
  const given = v.beadsAt === undefined ? [] : (['beadsAt'] as const);
  return isOff
    ? [
        orTry(
          refuse(
            'beads-off-face',
            [...given, size, 'beads', 'beadPitch', 'beadWidth'],
            `${placeText(v)} of beadWidth ${figure(v.beadWidth)} leave less than ${figure(clearMm(v))} of flat sheet to the edges or bends within ${size} ${figure(v[size] - v.added[size])}`,
            [],
            'make fewer, or the panel larger',
          ),
          ...given,
          'beadPitch',
          size,
          'beadWidth',
          { less: 'beads' },
        ),
      ]
    : [];
};

const throughLouvres = (v: OutsideVent, louvres: readonly Louvre[]): Finding[] => {
  const hit = beadsOf(v).flatMap((bead) =>
    louvres
      .filter(({ box }) => isUnder(boxGapMm(box, bead.box), louvreClearMm(v)))
      .map((louvre) => ({ bead, louvre })),
  )[0];
  return hit === undefined
    ? []
    : [
        orTry(
          refuse(
            'bead-meets-louvre',
            [...(v.beadsAt === undefined ? [] : ['beadsAt']), 'beads', 'beadPitch', 'louvres'],
            `${hit.bead.called} of ${placeText(v)} leaves less than ${figure(louvreClearMm(v))} of flat sheet to ${hit.louvre.called} of louvres ${v.louvres}`,
            [],
            'move the beads or the louvres apart',
          ),
          ...(v.beadsAt === undefined ? [] : (['beadsAt'] as const)),
          'beadPitch',
          'beadWidth',
          'louvreLength',
          'louvrePitch',
          { less: 'louvres' },
        ),
      ];
};
