import {
  distance,
  figure,
  isUnder,
  NOISE_MM,
  orLess,
  orMore,
  orTry,
  piecesOf,
  pointOn,
  refuse,
  wholeUp,
  without,
} from '../../src/template.ts';
import type { Cutout, Facing, Finding, Loop, OutlinePiece, Vec2 } from '../../src/template.ts';
import type { DuctBetween } from './inputs.ts';

/** Ways in which an edge of a drawn panel faces, by the way along it. */
export const facingOf = ([u, w]: Vec2): Facing | undefined => {
  const ways: readonly (readonly [Facing, Vec2])[] = [
    ['down', [1, 0]],
    ['right', [0, 1]],
    ['up', [-1, 0]],
    ['left', [0, -1]],
  ];
  return ways.find(([, [x, y]]) => Math.hypot(u - x, w - y) < NOISE_MM)?.[0];
};

/** A hole that leaves less than this beside it takes the lip apart: common practice, of its width. */
const LEAST_BESIDE = 1 / 4;

export const holeTooWide = (v: DuctBetween, input: 'nearLip' | 'farLip'): Finding | undefined => {
  if (v.lipHole === undefined) return undefined;
  const least = v.lipHole * (1 + 2 * LEAST_BESIDE);
  return isUnder(v[input], least)
    ? refuse(
        'duct-lip-too-narrow',
        [input, 'lipHole'],
        `${input} ${figure(v[input])} leaves too little beside holes of lipHole ${figure(v.lipHole)}`,
        [orMore(input, least), orLess('lipHole', v[input] / (1 + 2 * LEAST_BESIDE))],
      )
    : undefined;
};

export const round = (v: DuctBetween, holes: readonly Vec2[]): Cutout[] =>
  holes.map((centre, i): Cutout => ({
    kind: 'round',
    from: `lipHole ${i + 1}`,
    inputs: ['lipHole', 'lipPitch'],
    centre,
    diameterMm: v.lipHole ?? 0,
  }));

/** Holes along the middle of a lip: evenly round a circle, else along each straight side. */
export const holesAlong = (v: DuctBetween, middle: Loop): Vec2[] => {
  if (v.lipHole === undefined) return [];
  const pieces = piecesOf(middle);
  const straight = pieces.filter(({ bulge }) => bulge === 0);
  return straight.length === 0
    ? pieces.flatMap((piece) => onHalf(v, piece))
    : straight.flatMap((piece) => onSide(v, piece));
};

/** Two holes at least on each half of a circle, none at its beginning. */
const onHalf = (v: DuctBetween, piece: OutlinePiece): Vec2[] => {
  const length = (Math.PI / 2) * distance(piece.from, piece.to);
  const count = Math.max(2, wholeUp(length / v.lipPitch));
  return Array.from({ length: count }, (_, k) => pointOn(piece, (k + 1 / 2) / count));
};

/** Holes from end to end, each end hole as far in as two of its diameters. */
export const onSide = (v: DuctBetween, piece: OutlinePiece): Vec2[] => {
  const long = distance(piece.from, piece.to);
  const inset = 2 * (v.lipHole ?? 0);
  if (long <= 2 * inset) return long < inset ? [] : [pointOn(piece, 1 / 2)];
  const parts = Math.max(1, wholeUp((long - 2 * inset) / v.lipPitch));
  return Array.from({ length: parts + 1 }, (_, k) =>
    pointOn(piece, (inset + ((long - 2 * inset) * k) / parts) / long),
  );
};

export const holesTooClose = (v: DuctBetween, holes: readonly Vec2[]): Finding | undefined => {
  const least = (v.lipHole ?? 0) * (1 + LEAST_BESIDE);
  const apart = holes.flatMap((a, i) => holes.slice(i + 1).map((b) => distance(a, b)));
  const nearest = Math.min(Infinity, ...apart);
  return nearest > least - NOISE_MM
    ? undefined
    : orTry(
        refuse(
          'lip-holes-too-close',
          ['lipPitch', 'lipHole'],
          `lipPitch ${figure(v.lipPitch)} puts holes of lipHole ${figure(v.lipHole ?? 0)} ${figure(nearest)} mm from each other`,
          [without('lipHole')],
        ),
        'lipPitch',
      );
};
