import {
  figure,
  type Finding,
  isUnder,
  just,
  orMore,
  orTry,
  refuse,
  without,
} from '../../src/template.ts';
import { insideMm } from './sizes.ts';
import type { Strap } from './inputs.ts';

/** Findings on what cannot be made, each with a figure that can be. */
export const impossibleStrap = (v: Strap): Finding[] => [
  ...heightTooLow(v),
  ...crownTooNarrow(v),
  ...boltsInBends(v),
  ...footTooShort(v),
  ...widthTooNarrow(v),
  ...crownOfRound(v),
];

/** Half the length of a bolt's slot along the foot. */
const halfSlotMm = (v: Strap): number => (v.boltHole + v.pullUp) / 2;

function heightTooLow(v: Strap): Finding[] {
  const { insideRadiusMm: r, thicknessMm: t } = v;
  // A side holds the bend of its foot and that of the crown, or ends at the middle of the round.
  const top = v.over === 'box' ? r + t : insideMm(v) / 2 + t;
  const height = top + r + v.pullUp - v.rubber + 1;
  if (!isUnder(v.height, height)) return [];
  const what =
    v.over === 'box'
      ? 'leaves the sides no straight metal between their bends'
      : `reaches no higher than the middle of a round of across ${figure(v.across)} and the bends of the feet under it`;
  const low = refuse(
    'strap-too-low',
    ['height', ...(v.over === 'box' ? [] : ['across'])],
    `height ${figure(v.height)} ${what}`,
    [orMore('height', height)],
  );
  return [orTry(low, 'radius', 'pullUp')];
}

function crownTooNarrow(v: Strap): Finding[] {
  const crown = 2 * v.insideRadiusMm - 2 * v.rubber + 1;
  if (v.over !== 'box' || !isUnder(v.across, crown)) return [];
  const narrow = refuse(
    'crown-too-narrow',
    ['across'],
    `across ${figure(v.across)} leaves the crown no straight metal between its bends`,
    [orMore('across', crown)],
  );
  return [orTry(narrow, 'radius', 'rubber')];
}

function boltsInBends(v: Strap): Finding[] {
  const centres = insideMm(v) + 2 * (v.insideRadiusMm + 2 * v.thicknessMm + halfSlotMm(v));
  if (!isUnder(v.boltCentres, centres)) return [];
  const close = refuse(
    'bolts-too-close',
    ['boltCentres'],
    `boltCentres ${figure(v.boltCentres)} puts the slots into the bends of the feet`,
    [orMore('boltCentres', centres)],
  );
  return [orTry(close, 'across', 'boltHole')];
}

function footTooShort(v: Strap): Finding[] {
  const beyond = halfSlotMm(v) + v.thicknessMm;
  if (!isUnder(v.beyond, beyond)) return [];
  const short = refuse(
    'foot-too-short',
    ['beyond'],
    `beyond ${figure(v.beyond)} leaves no metal between the slot and the end of the foot`,
    [orMore('beyond', beyond)],
  );
  return [orTry(short, 'boltHole', 'pullUp')];
}

function widthTooNarrow(v: Strap): Finding[] {
  const width = v.boltHole + 2 * v.thicknessMm;
  if (!isUnder(v.width, width)) return [];
  const narrow = refuse(
    'strap-too-narrow',
    ['width', 'boltHole'],
    `width ${figure(v.width)} leaves no metal beside slots of boltHole ${figure(v.boltHole)}`,
    [orMore('width', width)],
  );
  return [orTry(narrow, 'boltHole')];
}

const crownOfRound = (v: Strap): Finding[] =>
  v.over === 'round' && v.holesCrown.length > 0
    ? [
        refuse(
          'no-crown',
          ['holesCrown', 'over'],
          'holesCrown is for a strap over a box, and over round leaves no crown',
          [without('holesCrown'), just('over', 'box')],
        ),
      ]
    : [];
