import {
  distance,
  dot,
  leftOf,
  NOISE_MM,
  pieceOf,
  piecesOf,
  refuse,
  scale,
  sub,
  unit,
  without,
  SAME_POINT_MM,
} from '../../src/template.ts';
import type { Finding, Loop, SideChoice, Vec2 } from '../../src/template.ts';
import { isFinding, locate, sideText } from './sizes.ts';
import type { StrutBrace } from './inputs.ts';

/** A straight side of an outline, the metal on its left. */
export interface Side {
  readonly from: Vec2;
  readonly to: Vec2;
}

/** The side along which a return edge is asked for; none if there is to be none. */
export function sideOf(v: StrutBrace, outline: Loop): Side | Finding | undefined {
  if (v.return === undefined) return undefined;
  const sides = piecesOf(outline).filter((p) => p.bulge === 0);
  if ('facing' in v.return) return mostFacing(sides, v.return.facing) ?? noSide(v, v.return);
  const [a, b] = v.return.between.map((name) => locate(v, 'return', { name })) as [
    Vec2 | Finding,
    Vec2 | Finding,
  ];
  if (isFinding(a)) return a;
  if (isFinding(b)) return b;
  // When two sides are alike, the one that runs from the first point to the second with the metal
  // on its left is taken.
  const far = (s: Side): number =>
    offSide(s, a) + offSide(s, b) + (dot(sub(s.to, s.from), sub(b, a)) < 0 ? SAME_POINT_MM : 0);
  return sides.toSorted((s, t) => far(s) - far(t))[0] ?? noSide(v, v.return);
}

const noSide = (v: StrutBrace, side: SideChoice): Finding => {
  const of =
    v.outline === undefined
      ? 'the shape round the holes has no straight side there'
      : 'outline has no straight side there';
  return refuse(
    'return-without-side',
    ['return', ...(v.outline === undefined ? [] : ['outline'])],
    `return ${sideText(side)} wants a straight side, and ${of}`,
    [without('return')],
    'choose another side',
    v.outline === undefined ? 'give an outline that has one' : 'give it one',
  );
};

function mostFacing(sides: readonly Side[], facing: Vec2): Side | undefined {
  const turned = (s: Side): number => dot(scale(leftOf(unit(sub(s.to, s.from))), -1), facing);
  // A side that is turned by more than 60 degrees does not face this way.
  return sides.filter((s) => turned(s) > 0.5).toSorted((a, b) => turned(b) - turned(a))[0];
}

/** Distance of a point from a stretch of a straight line. */
function offSide({ from, to }: Side, p: Vec2): number {
  const dir = unit(sub(to, from));
  const share = Math.min(distance(from, to), Math.max(0, dot(sub(p, from), dir)));
  return distance(p, [from[0] + share * dir[0], from[1] + share * dir[1]]);
}

/**
 * Distance within which a point counts as on a side; it exceeds the noise of cutting a panel out of
 * the outline.
 */
const ON_SIDE_MM = 1e3 * NOISE_MM;

/**
 * The pieces of a panel's outline that lie on a side: the whole side, or what a cut has left of it.
 */
export const piecesOn = (outline: Loop, side: Side): number[] =>
  outline.flatMap((v, i) => {
    const { from, to } = pieceOf(outline, i);
    return v.bulge === 0 && offSide(side, from) < ON_SIDE_MM && offSide(side, to) < ON_SIDE_MM
      ? [i]
      : [];
  });

/** Whether a point is one of the two ends of a side. */
export const endsSide = (side: Side, p: Vec2): boolean =>
  Math.min(distance(p, side.from), distance(p, side.to)) < ON_SIDE_MM;
