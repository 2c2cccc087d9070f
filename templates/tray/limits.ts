import {
  figure,
  impossibleTeardrop,
  isOver,
  isPossible,
  isUnder,
  just,
  orMore,
  orTry,
  refuse,
  within,
} from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import {
  hemRadiusMm,
  insetMm,
  isHem,
  isInward,
  lipOf,
  lipSetbackMm,
  notchMm,
  type OutsideTray,
  reachMm,
  setback90Mm,
  type Side,
  SIDES,
  spanMm,
  tabStretch,
  type TrayLength,
} from './sizes.ts';

/**
 * Findings on what cannot be folded, each with a figure that can be. Lips, tabs and cut-outs mean
 * nothing on sides that are all bend.
 */
export const impossibleTray = (v: OutsideTray): Finding[] => {
  const sides = [...base(v), ...heights(v)];
  if (sides.length > 0) return sides;
  const returns = lips(v);
  return returns.length > 0 ? returns : [...laps(v), ...cable(v)];
};

/** A length as it was given, or as it would have to be given. */
const given = (v: OutsideTray, input: TrayLength, mm: number): number => mm - v.added[input];

/** An input and the value that was given for it. */
const named = (v: OutsideTray, input: Exclude<TrayLength, 'cableAt'>): string =>
  `${input} ${figure(given(v, input, v[input]))}`;

/** The input that gives what is along the top of a side. */
const LIP_INPUT = {
  front: 'lipFront',
  back: 'lipBack',
  left: 'lipLeft',
  right: 'lipRight',
} as const satisfies Record<Side, keyof OutsideTray>;

function base(v: OutsideTray): Finding[] {
  // Front and back of a lapped tray stand in at both ends, and every relief needs its width.
  const least = 2 * (setback90Mm(v) + v.thicknessMm + v.cornerGapMm + notchMm(v));
  return (['length', 'depth'] as const)
    .filter((input) => isUnder(v[input], least))
    .map((input) =>
      orTry(
        refuse(
          'tray-too-small',
          [input, 'radius'],
          `${named(v, input)} leaves no base between bends of radius ${figure(v.insideRadiusMm)}`,
          [orMore(input, given(v, input, least))],
        ),
        'radius',
      ),
    );
}

function heights(v: OutsideTray): Finding[] {
  const least =
    Math.max(...SIDES.map((side) => setback90Mm(v) + lipSetbackMm(v, lipOf(v, side)))) +
    2 * notchMm(v);
  return isUnder(v.height, least)
    ? [
        orTry(
          refuse(
            'tray-too-low',
            ['height', 'radius'],
            `${named(v, 'height')} leaves no flat on a side between bends of radius ${figure(v.insideRadiusMm)}`,
            [orMore('height', given(v, 'height', least))],
          ),
          'radius',
          'hemRadius',
        ),
      ]
    : [];
}

function lips(v: OutsideTray): Finding[] {
  const kinds = SIDES.map((side) => lipOf(v, side)).filter((lip) => lip !== 'none');
  if (kinds.length === 0) return [];
  const least = Math.max(...kinds.map((lip) => lipSetbackMm(v, lip))) + v.thicknessMm;
  const teardrop =
    kinds.some(isHem) && v.hemShape === 'teardrop'
      ? impossibleTeardrop(
          { radiusMm: hemRadiusMm(v), thicknessMm: v.thicknessMm, depthMm: v.lipDepth },
          'lipDepth',
          given(v, 'lipDepth', v.lipDepth),
        )
      : [];
  if (teardrop.length > 0) return teardrop;
  const most = kinds.some(isHem) ? v.height - setback90Mm(v) - v.cornerGapMm : Infinity;
  const depths = within('lipDepth', given(v, 'lipDepth', least), given(v, 'lipDepth', most));
  if (isOver(v.lipDepth, most)) {
    const height = Math.max(least, v.lipDepth) + setback90Mm(v) + v.cornerGapMm;
    return [
      refuse(
        'hem-too-deep',
        ['lipDepth'],
        `A hem of ${named(v, 'lipDepth')} reaches the bend of the base`,
        [...(isPossible(depths) ? [depths] : []), orMore('height', given(v, 'height', height))],
      ),
    ];
  }
  if (isUnder(v.lipDepth, least)) {
    const mends =
      most === Infinity
        ? [orMore('lipDepth', given(v, 'lipDepth', least))]
        : isPossible(depths)
          ? [depths]
          : [];
    return [
      orTry(
        refuse('lip-too-narrow', ['lipDepth'], `${named(v, 'lipDepth')} is all bend`, mends),
        'radius',
        'hemRadius',
      ),
    ];
  }
  return [
    ...lipsThatMeet(v, 'depth', ['front', 'back']),
    ...lipsThatMeet(v, 'length', ['left', 'right']),
  ];
}

function lipsThatMeet(
  v: OutsideTray,
  input: 'length' | 'depth',
  pair: readonly [Side, Side],
): Finding[] {
  const inward = pair.filter((side) => isInward(lipOf(v, side)));
  if (inward.length === 0) return [];
  const least =
    reachMm(v, lipOf(v, pair[0])) +
    reachMm(v, lipOf(v, pair[1])) +
    2 * (v.cornerGapMm + notchMm(v) + v.thicknessMm);
  if (!isUnder(v[input], least)) return [];
  const [first, second] = inward.map((side) => `${LIP_INPUT[side]} ${lipOf(v, side)}`) as [
    string,
    string?,
  ];
  const meets =
    second === undefined
      ? `${first} with its ${named(v, 'lipDepth')} meets the side opposite`
      : `${first} and ${second} with their ${named(v, 'lipDepth')} meet`;
  return [
    orTry(
      refuse(
        'lips-meet',
        [...inward.map((side) => LIP_INPUT[side]), 'lipDepth', input],
        `${meets} within ${named(v, input)}`,
        [orMore(input, given(v, input, least))],
      ),
      'lipDepth',
      'hemRadius',
    ),
  ];
}

function laps(v: OutsideTray): Finding[] {
  if (v.corner !== 'lapped') return [];
  const findings: Finding[] = [];
  const [least, most] = [setback90Mm(v) + v.thicknessMm, (v.depth - v.cornerGapMm) / 2];
  if (isUnder(v.lap, least) || isOver(v.lap, most)) {
    const laps = within('lap', given(v, 'lap', least), given(v, 'lap', most));
    const wrong =
      v.lap < least ? 'is all bend' : `meets the tab opposite within ${named(v, 'depth')}`;
    findings.push(
      orTry(
        refuse(
          'lap-does-not-fit',
          ['lap', ...(v.lap < least ? [] : ['depth'])],
          `${named(v, 'lap')} ${wrong}`,
          isPossible(laps) ? [laps] : [],
        ),
        'depth',
        'radius',
      ),
    );
  }
  const short = (['front', 'back'] as const).flatMap((side) =>
    (['left', 'right'] as const).map((end) => tabStretch(v, side, end)),
  );
  const tallest = Math.min(...short.map(([low, high]) => high - low));
  const need = 2 * notchMm(v);
  if (isUnder(tallest, need)) {
    findings.push(
      refuse(
        'no-height-for-tab',
        ['height'],
        `${named(v, 'height')} leaves no tab between the bends`,
        [orMore('height', given(v, 'height', v.height + need - tallest)), just('corner', 'butt')],
      ),
    );
  }
  return findings;
}

function cable(v: OutsideTray): Finding[] {
  const side = v.cableSide;
  if (side === 'none') return [];
  const lip = LIP_INPUT[side];
  if (lipOf(v, side) !== 'none') {
    return [
      refuse(
        'cable-through-lip',
        ['cableSide', lip],
        `cableSide ${side} cuts into a top edge that has ${lip} ${lipOf(v, side)}`,
        [just(lip, 'none'), just('cableSide', 'none')],
        `cut a slot by holes${side.charAt(0).toUpperCase()}${side.slice(1)} instead`,
      ),
    ];
  }
  const depth = cableDepth(v);
  return depth.length > 0 ? depth : cablePlace(v, side);
}

/**
 * Finding on the depth of the cut-out: its round bottom needs half its width, and stays off the
 * bend of the base.
 */
function cableDepth(v: OutsideTray): Finding[] {
  const [shallow, deep] = [v.cableWidth / 2, v.height - setback90Mm(v) - notchMm(v)];
  if (!isUnder(v.cableDepth, shallow) && !isOver(v.cableDepth, deep)) return [];
  const depths = within('cableDepth', shallow, deep);
  const wrong =
    v.cableDepth < shallow
      ? `is less than the round bottom takes, half of cableWidth ${figure(v.cableWidth)}`
      : `comes too near the bend of the base under ${named(v, 'height')}`;
  const inputs = v.cableDepth < shallow ? ['cableDepth', 'cableWidth'] : ['cableDepth', 'height'];
  const both =
    isPossible(depths) || deep < 1
      ? []
      : [
          `give cableDepth and half of cableWidth no more than ${figure(Math.floor(deep * 100) / 100)}`,
        ];
  return [
    orTry(
      refuse(
        'cable-depth',
        inputs,
        `cableDepth ${figure(v.cableDepth)} ${wrong}`,
        isPossible(depths) ? [depths] : [],
        ...both,
      ),
      'cableWidth',
      'height',
    ),
  ];
}

function cablePlace(v: OutsideTray, side: Side): Finding[] {
  const end =
    Math.max(insetMm(v, side), v.thicknessMm + v.cornerGapMm) +
    notchMm(v) +
    (v.corner === 'lapped' ? v.insideRadiusMm + v.thicknessMm : 0) +
    v.cableWidth / 2;
  const span = spanMm(v, side);
  const at = v.cableAt ?? span / 2;
  if (!isUnder(at, end) && !isOver(at, span - end)) return [];
  const places = within('cableAt', given(v, 'cableAt', end), given(v, 'cableAt', span - end));
  const along = side === 'front' || side === 'back' ? 'length' : 'depth';
  const what =
    v.cableAt === undefined
      ? `cableWidth ${figure(v.cableWidth)}`
      : `cableAt ${figure(given(v, 'cableAt', at))} with cableWidth ${figure(v.cableWidth)}`;
  return [
    orTry(
      refuse(
        'cable-off-side',
        [...(v.cableAt === undefined ? [] : ['cableAt']), 'cableWidth'],
        `${what} leaves no metal at the end of the ${side} side`,
        isPossible(places) && v.cableAt !== undefined ? [places] : [],
      ),
      'cableWidth',
      along,
    ),
  ];
}
