import {
  along,
  cosDeg,
  figure,
  isUnder,
  meeting,
  orMore,
  orTry,
  reachOf,
  refuse,
  sinDeg,
  widthOf,
  without,
} from '../../src/template.ts';
import type { Finding, Place, Spot, Vec2 } from '../../src/template.ts';
import { type BraceHole, isFinding, locate, placeText, unknownPoint } from './sizes.ts';
import type { StrutBrace } from './inputs.ts';

/** Every hole that the outline goes round: those at the points and those of the saddle. */
export function braceHoles(v: StrutBrace): {
  readonly holes: readonly BraceHole[];
  readonly findings: readonly Finding[];
} {
  const given = v.points.points;
  const strangers = (v.pickups ?? [])
    .filter(({ name }) => !given.some((p) => p.name === name))
    .map(({ name }) => name);
  const unknown = strangers.length > 0 ? [unknownPoint(v, 'pickups', ...strangers)] : [];
  const bolts = given.flatMap(({ name, x, y }): BraceHole[] => {
    const own = v.pickups?.find((p) => p.name === name);
    const hole = own === undefined ? meeting(v.boltHole, 'tower') : own.hole;
    // Each pick-up holds a part of its own, unless it is said to hold the same one as another.
    return hole === null ? [] : [{ from: name, at: [x, y], ...meeting(hole, `pick-up ${name}`) }];
  });
  const saddle = saddleHoles(v);
  const holes = [...bolts, ...saddle.holes];
  const none =
    holes.length === 0
      ? [
          refuse(
            'no-holes',
            ['pickups', 'points'],
            'pickups gives every one of the points the size none, which leaves nothing to go round',
            [without('pickups')],
            'give one at least a hole',
          ),
        ]
      : [];
  return { holes, findings: [...unknown, ...saddle.findings, ...none] };
}

/**
 * Holes of the saddle: two on either side of the tube, or four in two pairs `saddleAlong` apart.
 */
function saddleHoles(v: StrutBrace): {
  readonly holes: readonly BraceHole[];
  readonly findings: readonly Finding[];
} {
  if (v.saddle === undefined) return { holes: [], findings: [] };
  const centre = locate(v, 'saddle', v.saddle);
  if (isFinding(centre)) return { holes: [], findings: [centre] };
  const holeMm = widthOf(v.saddleHole.shape);
  const across = v.saddleAcross ?? v.tube + 2.5 * holeMm;
  const wrong = impossibleSaddle(v, v.saddle, across, holeMm);
  if (wrong !== undefined) return { holes: [], findings: [wrong] };
  const [lengthwise, aside]: [Vec2, Vec2] = [
    [cosDeg(v.saddleTurn), sinDeg(v.saddleTurn)],
    [-sinDeg(v.saddleTurn), cosDeg(v.saddleTurn)],
  ];
  const steps = v.saddleAlong === 0 ? [0] : [-v.saddleAlong / 2, v.saddleAlong / 2];
  const places = steps.flatMap((step) =>
    [-across / 2, across / 2].map((off) => along(along(centre, lengthwise, step), aside, off)),
  );
  return {
    holes: places.map((at, i) => ({
      from: `saddle ${i + 1}`,
      at,
      ...meeting(v.saddleHole, 'saddle'),
    })),
    findings: [],
  };
}

/** Finding on a saddle without a tube, or with bolts that meet it. */
const impossibleSaddle = (
  v: StrutBrace,
  saddle: Place,
  across: number,
  holeMm: number,
): Finding | undefined => {
  if (v.tube === 0 && v.saddleAcross === undefined)
    return refuse(
      'saddle-without-tube',
      ['saddle', 'tube'],
      `saddle ${placeText(saddle)} needs the diameter of its tube, and tube is 0`,
      [without('saddle')],
      'give tube, or saddleAcross',
    );
  if (!isUnder(across, v.tube + holeMm)) return undefined;
  const narrow = refuse(
    'saddle-too-narrow',
    ['saddleAcross', 'tube'],
    `saddleAcross ${figure(across)} puts the bolts into tube ${figure(v.tube)}`,
    [orMore('saddleAcross', v.tube + holeMm)],
  );
  return orTry(narrow, 'tube');
};

/**
 * Circles round a hole, grown by `metalMm`: one, or one at each end of a slot, whose length runs
 * upward.
 */
export function spotsOf(
  { thicknessMm }: Pick<StrutBrace, 'thicknessMm'>,
  { at, shape }: BraceHole,
  metalMm: number,
): readonly Spot[] {
  if (shape.kind !== 'slot') return [{ centre: at, radius: reachOf(shape, thicknessMm) + metalMm }];
  const radius = widthOf(shape) / 2 + metalMm;
  const half = (shape.lengthMm - shape.widthMm) / 2;
  const upward: Vec2 = [-sinDeg(shape.turnDeg), cosDeg(shape.turnDeg)];
  return [
    { centre: along(at, upward, half), radius },
    { centre: along(at, upward, -half), radius },
  ];
}
