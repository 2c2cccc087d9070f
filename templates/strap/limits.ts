import {
  figure,
  type Finding,
  isUnder,
  just,
  orMore,
  orTry,
  refuse,
  setbackMm,
  slopesOf,
  within,
  without,
} from '../../src/template.ts';
import { impossibleFeet } from './feet.ts';
import { hatAsk, hatOf, insideMm, isSloped, riseDeg } from './sizes.ts';
import { STEEPEST_DEG, type Strap } from './inputs.ts';

/** Findings on what cannot be made, each with a figure that can be. */
export const impossibleStrap = (v: Strap): Finding[] => {
  const slope = impossibleSlope(v);
  return slope.length > 0
    ? slope
    : [
        ...heightTooLow(v),
        ...crownTooNarrow(v),
        ...impossibleFeet({ ...v, insideMm: insideMm(v) }, { across: 'across', width: 'width' }),
        ...crownOfRound(v),
      ];
};

/** Two heights say how much the box slopes, and an angle beside them says it again. */
function impossibleSlope(v: Strap): Finding[] {
  if (v.over !== 'box' || v.heightB === undefined) return [];
  const rise = riseDeg(v);
  const [height, steps] = [`heightB ${figure(v.heightB)}`, `stepB ${figure(v.stepB)}`];
  if (v.slopeAcross !== 0)
    return [
      refuse(
        'strap-slope-twice',
        ['slopeAcross', 'heightB'],
        `slopeAcross ${figure(v.slopeAcross)} and ${height}, which makes ${figure(rise, 1)} degrees, both say how the box slopes`,
        [without('heightB'), just('slopeAcross', 0)],
      ),
    ];
  if (Math.abs(rise) <= STEEPEST_DEG) return [];
  const level = v.height - v.stepB;
  const mends =
    level + v.across >= 1
      ? [within('heightB', Math.max(1, level - v.across), level + v.across)]
      : [];
  const steep = refuse(
    'strap-too-steep',
    ['heightB', 'height', 'stepB'],
    `${height} with height ${figure(v.height)} and ${steps} slopes by ${figure(Math.abs(rise), 1)} degrees, more than ${STEEPEST_DEG}`,
    mends,
  );
  return [orTry(steep, 'height', 'stepB')];
}

/** How much metal between its bends a side lacks where it is shortest. */
export const shortOfSideMm = (v: Strap, side: 'A' | 'B'): number => {
  const { insideRadiusMm: r, thicknessMm: t } = v;
  const { sideMm, turnDeg, leanMm } = hatOf(v);
  const [, lean] = slopesOf(hatAsk(v));
  // The bend at the crown runs up the side on a slant.
  const crown = setbackMm(turnDeg[side], r, t, 'outside') * Math.hypot(1, lean);
  return r + t + crown + 1 - (sideMm[side] - Math.abs(leanMm) / 2);
};

function heightTooLow(v: Strap): Finding[] {
  if (v.over === 'box' && (isSloped(v) || v.stepB !== 0)) return sidesTooLow(v);
  const { insideRadiusMm: r, thicknessMm: t } = v;
  // A side holds the bend of its foot and that of the crown, or ends at the middle of the round.
  const top = v.over === 'box' ? r + t : insideMm(v) / 2 + t;
  const height = top + r + v.pullUp - v.rubber + 1 + Math.max(0, v.stepB);
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

/** Of a box that slopes, or whose feet do not stand level, one side is shorter than the other. */
function sidesTooLow(v: Strap): Finding[] {
  const short = { A: shortOfSideMm(v, 'A'), B: shortOfSideMm(v, 'B') };
  const side = short.A > short.B ? 'A' : 'B';
  if (!isUnder(0, short[side])) return [];
  // With an angle both sides grow with height; with two heights each by its own, and the slope turns.
  const [input, mm] =
    side === 'B' && v.heightB !== undefined
      ? (['heightB', v.heightB] as const)
      : (['height', v.height] as const);
  const low = refuse(
    'strap-too-low',
    [input],
    `${input} ${figure(mm)} leaves side ${side} no straight metal between its bends`,
    v.heightB === undefined ? [orMore('height', v.height + short[side])] : [],
  );
  return [orTry(low, ...(v.heightB === undefined ? [] : [input]), 'stepB', 'radius', 'pullUp')];
}

/** How much of the crown lies flat between its bends, and how much that grows for each mm of across. */
export const crownFlatMm = (v: Strap): { readonly flatMm: number; readonly perMm: number } => {
  const { crownMm, turnDeg } = hatOf(v);
  const taken = [turnDeg.A, turnDeg.B].map((turn) =>
    setbackMm(turn, v.insideRadiusMm, v.thicknessMm, 'outside'),
  );
  const [rise, lean] = slopesOf(hatAsk(v));
  return {
    flatMm: crownMm - taken.reduce((sum, mm) => sum + mm, 0),
    perMm: Math.sqrt(1 + rise ** 2 - (rise * lean) ** 2 / (1 + lean ** 2)),
  };
};

function crownTooNarrow(v: Strap): Finding[] {
  if (v.over !== 'box') return [];
  const { flatMm, perMm } = crownFlatMm(v);
  if (!isUnder(flatMm, 1)) return [];
  const narrow = refuse(
    'crown-too-narrow',
    ['across'],
    `across ${figure(v.across)} leaves the crown no straight metal between its bends`,
    v.heightB === undefined ? [orMore('across', v.across + (1 - flatMm) / perMm)] : [],
  );
  return [orTry(narrow, ...(v.heightB === undefined ? [] : ['across']), 'radius', 'rubber')];
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
