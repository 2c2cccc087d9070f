import {
  figure,
  type Finding,
  isOver,
  isUnder,
  orLess,
  orMore,
  orTry,
  placeHole,
  pointGap,
  refuse,
  setbackMm,
  wholeDown,
} from '../../src/template.ts';
import {
  axisOnPanelMm,
  boltCircleMm,
  boltsRound,
  boxOf,
  flangeBolts,
  halfHole,
  hatOf,
  outerMm,
  panelHole,
  plateHole,
  webMm,
} from './sizes.ts';
import { reachOf } from '../../src/template.ts';
import type { NeckPlate } from './inputs.ts';

/** Findings on what cannot be made, each with a figure that can be. */
export const impossibleNeck = (v: NeckPlate): Finding[] =>
  v.mount === 'flat'
    ? [...plateTooSmall(v)].concat(plateTooSmall(v).length > 0 ? [] : boltsOff(v))
    : [...wallTooLow(v), ...faceTooSmall(v), ...flangeTooNarrow(v), ...throughWall(v)];

function plateTooSmall(v: NeckPlate): Finding[] {
  const least = 2 * (halfHole(v)[0] + webMm(v));
  if (v.outer === undefined || !isUnder(v.outer, least)) return [];
  const small = refuse(
    'neck-plate-too-small',
    ['outer', 'tube'],
    `outer ${figure(v.outer)} leaves no rim round the hole of tube ${figure(v.tube)}`,
    [orMore('outer', least)],
  );
  return [orTry(small, 'tube', 'lean')];
}

/** Bolt holes that run into the hole of the neck, each other or off the plate. */
function boltsOff(v: NeckPlate): Finding[] {
  const frame = {
    origin: [0, 0],
    across: [0, 1],
    along: [1, 0],
    thicknessMm: v.thicknessMm,
  } as const;
  const hole = placeHole({ acrossMm: 0, alongMm: 0, ...plateHole(v) }, 'tube 1', frame);
  const web = v.boltHole / 2 + webMm(v);
  const circle = boltCircleMm(v);
  const inside = boltsRound(v).map((at) =>
    hole.kind === 'round'
      ? Math.hypot(...at) - hole.diameterMm / 2
      : Math.hypot(...at) < halfHole(v)[1]
        ? -1
        : pointGap(at, hole.loop),
  );
  const rim =
    v.shape === 'round'
      ? outerMm(v) / 2 - circle / 2
      : Math.min(
          ...boltsRound(v).map(([x, y]) => outerMm(v) / 2 - Math.max(Math.abs(x), Math.abs(y))),
        );
  const apart = circle * Math.sin(Math.PI / v.bolts) - v.boltHole - webMm(v);
  const told = `boltCircle ${figure(circle)} with boltHole ${figure(v.boltHole)}`;
  const off = (what: string): Finding[] => [
    orTry(
      refuse(
        'neck-bolts-off',
        ['boltCircle', 'boltHole', 'outer'],
        `${told} ${what}`,
        [],
        'give a larger outer',
      ),
      'outer',
      'boltCircle',
      'boltHole',
    ),
  ];
  if (isUnder(Math.min(...inside), web)) return off('runs into the hole of the neck');
  if (isUnder(rim, web)) return off(`runs off a plate of outer ${figure(outerMm(v))}`);
  if (isUnder(apart, 0)) {
    const share = (v.boltHole + webMm(v)) / circle;
    const fewer = share > 1 ? 1 : wholeDown(Math.PI / Math.asin(share));
    return [
      orTry(
        refuse(
          'bolts-too-close',
          ['bolts', 'boltHole'],
          `bolts ${v.bolts} of boltHole ${figure(v.boltHole)} meet on the circle of ${figure(circle)}`,
          fewer >= 2 ? [orLess('bolts', fewer, 0)] : [],
        ),
        'boltHole',
      ),
    ];
  }
  return [];
}

const bendsOfFace = (v: NeckPlate): readonly [low: number, high: number] => {
  const { turnDeg } = hatOf(v);
  return [turnDeg.A, turnDeg.B].map((turn) =>
    setbackMm(turn, v.insideRadiusMm, v.thicknessMm, 'outside'),
  ) as [number, number];
};

function wallTooLow(v: NeckPlate): Finding[] {
  const { insideRadiusMm: r, thicknessMm: t } = v;
  const short = r + t + bendsOfFace(v)[0] + 1 - hatOf(v).sideMm.A;
  if (!isUnder(0, short)) return [];
  const low = refuse(
    'neck-wall-too-low',
    ['low'],
    `low ${figure(v.low)} leaves the low wall no straight metal between its bends`,
    [orMore('low', v.low + short)],
  );
  return [orTry(low, 'radius')];
}

function faceTooSmall(v: NeckPlate): Finding[] {
  const { crownMm } = hatOf(v);
  const { baseMm, wideMm } = boxOf(v);
  const [half, across] = halfHole(v);
  const [a, b] = bendsOfFace(v);
  const short = 2 * (half + webMm(v)) + a + b - crownMm;
  const narrow = 2 * (across + webMm(v) + v.insideRadiusMm + v.thicknessMm) - wideMm;
  const found: Finding[] = [];
  if (isUnder(0, short))
    found.push(
      orTry(
        refuse(
          'neck-face-too-small',
          ['base', 'tube'],
          `base ${figure(v.base ?? baseMm)} leaves a face on which tube ${figure(v.tube)} runs into the bends`,
          [orMore('base', (v.base ?? baseMm) + short * Math.cos((v.lean * Math.PI) / 180))],
        ),
        'tube',
        'radius',
      ),
    );
  if (isUnder(0, narrow))
    found.push(
      orTry(
        refuse(
          'neck-face-too-small',
          ['wide', 'tube'],
          `wide ${figure(v.wide ?? wideMm)} leaves a face on which tube ${figure(v.tube)} runs into the bends of its cheeks`,
          [orMore('wide', (v.wide ?? wideMm) + narrow)],
        ),
        'tube',
        'radius',
      ),
    );
  return found;
}

function flangeTooNarrow(v: NeckPlate): Finding[] {
  const { flangeMm, wideMm } = boxOf(v);
  const web = webMm(v);
  const least = 2 * (v.insideRadiusMm + v.boltHole / 2 + web) + v.thicknessMm;
  if (isUnder(flangeMm, least))
    return [
      orTry(
        refuse(
          'neck-flange-too-narrow',
          ['flange', 'boltHole'],
          `flange ${figure(v.flange)} leaves no metal between boltHole ${figure(v.boltHole)} and the bend`,
          [orMore('flange', v.flange + least - flangeMm)],
        ),
        'boltHole',
        'radius',
      ),
    ];
  const [one = 0, other = 0] = flangeBolts(v).alongMm;
  if (!isUnder(other - one, v.boltHole + web)) return [];
  const span = wideMm - 2 * flangeBolts(v).edgeMm;
  const fewer = wholeDown(span / (v.boltHole + web)) + 1;
  return [
    orTry(
      refuse(
        'bolts-too-close',
        ['bolts', 'boltHole'],
        `bolts ${v.bolts} of boltHole ${figure(v.boltHole)} meet on a flange ${figure(wideMm)} long`,
        fewer >= 2 ? [orLess('bolts', fewer, 0)] : [],
      ),
      'boltHole',
      'flange',
      'wide',
    ),
  ];
}

/** Under a raised box the neck has to pass the panel within its walls. */
function throughWall(v: NeckPlate): Finding[] {
  if (v.mount !== 'raised') return [];
  const { baseMm } = boxOf(v);
  const reach = reachOf(panelHole(v).shape, v.panelThickness);
  const over = axisOnPanelMm(v) + reach - (baseMm - v.thicknessMm);
  if (!isOver(over, 0)) return [];
  const wall = refuse(
    'neck-through-wall',
    ['low', 'base', 'lean'],
    `low ${figure(v.low)} over base ${figure(v.base ?? baseMm)} at lean ${figure(v.lean)} lets the neck pass the panel under the high wall, ${figure(over)} too far`,
    [],
    'give less low, more base or less lean',
  );
  return [orTry(wall, 'base', { less: 'low' }, { less: 'lean' })];
}
