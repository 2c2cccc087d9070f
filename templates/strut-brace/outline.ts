import {
  advise,
  along,
  arcOf,
  distance,
  dot,
  figure,
  hullOfCircles,
  isInside,
  leftOf,
  NOISE_MM,
  orInstead,
  orTry,
  outlineLoop,
  pieceOf,
  pointGap,
  pointOn,
  refuse,
  scale,
  sub,
  subtract,
  unit,
  without,
} from '../../src/template.ts';
import type { Finding, Loop, OutlinePiece, Place, Vec2 } from '../../src/template.ts';
import { spotsOf } from './holes.ts';
import { type BraceHole, isFinding, locate, placeText } from './sizes.ts';
import type { StrutBrace } from './inputs.ts';

/**
 * The outline before its notch is cut: the given one, or the tightest smooth one round the holes
 * and their metal.
 */
export const braceOutline = (v: StrutBrace, holes: readonly BraceHole[]): Loop | Finding => {
  if (v.outline === undefined)
    return hullOfCircles(holes.flatMap((hole) => spotsOf(v, hole, v.edge)));
  for (const { place } of v.outline.corners) {
    const at = locate(v, 'outline', place);
    if (isFinding(at)) return at;
  }
  const read = outlineLoop(
    v.outline,
    (name) => v.points.points.filter((p) => p.name === name).map(({ x, y }): Vec2 => [x, y])[0],
  );
  return read.ok
    ? read.value
    : refuse(
        'outline-wrong',
        ['outline'],
        'outline cannot be drawn through its points',
        [],
        read.mend ?? 'check them',
      );
};

/**
 * Findings on thin metal: an outline of the user's own may leave less metal than `edge` asks for.
 * Holes that it does not enclose are left to the checks.
 */
export const thinEdges = (
  v: StrutBrace,
  holes: readonly BraceHole[],
  outline: Loop,
): readonly Finding[] =>
  holes.flatMap((hole) => {
    const least = Math.min(
      ...spotsOf(v, hole, 0).map(({ centre, radius }) => pointGap(centre, outline) - radius),
    );
    if (!isInside(outline, hole.at) || least <= 0 || least >= v.edge - NOISE_MM) return [];
    return [
      advise(
        'edge-too-thin',
        ['edge'],
        `Hole ${hole.from} has ${figure(least)} mm of metal beside it, and edge asks for ${figure(v.edge)}`,
        [],
        'move the outline or the notch away from it',
        'give a smaller edge',
      ),
    ];
  });

/** How findings call the notch. */
export const notchText = (v: StrutBrace): string =>
  v.notch === undefined ? '' : `notch ${placeText(v.notch)} of notchWidth ${figure(v.notchWidth)}`;

/**
 * Cuts the notch: as wide as asked, its round bottom about the given place, open to the nearest
 * edge. It spares the holes.
 */
export function withNotch(
  v: StrutBrace,
  outline: Loop,
  holes: readonly BraceHole[],
): Loop | Finding {
  if (v.notch === undefined) return outline;
  const notched = cutNotch(v, v.notch, outline);
  return 'severity' in notched ? notched : (notchInHole(v, outline, notched, holes) ?? notched);
}

/** Finding on a hole that the plate would hold whole without the notch. */
function notchInHole(
  v: StrutBrace,
  outline: Loop,
  notched: Loop,
  holes: readonly BraceHole[],
): Finding | undefined {
  const holds = (loop: Loop, hole: BraceHole): boolean =>
    spotsOf(v, hole, 0).every(
      ({ centre, radius }) => isInside(loop, centre) && pointGap(centre, loop) > radius,
    );
  const cut = holes.filter((hole) => holds(outline, hole) && !holds(notched, hole));
  if (cut.length === 0) return undefined;
  const found = refuse(
    'notch-meets-hole',
    ['notch', 'notchWidth'],
    `${notchText(v)} cuts into hole ${cut.map(({ from }) => from).join(', ')}`,
    [],
  );
  return orTry(
    orInstead(found, 'move it away from there'),
    { less: 'notchWidth' },
    without('notch'),
  );
}

function cutNotch(v: StrutBrace, notch: Place, outline: Loop): Loop | Finding {
  const centre = locate(v, 'notch', notch);
  if (isFinding(centre)) return centre;
  const half = v.notchWidth / 2;
  const { at, outward } = nearestOn(outline, centre);
  const inside = isInside(outline, centre);
  const depth = (inside ? 1 : -1) * distance(centre, at) + half;
  if (depth <= 0) {
    return orTry(
      refuse(
        'notch-off-plate',
        ['notch', 'notchWidth'],
        `${notchText(v)} lies ${figure(-depth)} mm off the plate and cuts nothing`,
        [without('notch')],
        'move it in by more than that',
      ),
      'notchWidth',
    );
  }
  const [aside, mouth] = [
    leftOf(outward),
    along(centre, outward, Math.max(0, depth - half) + v.notchWidth),
  ];
  const corner = (from: Vec2, by: number): { x: number; y: number } => ({
    x: from[0] + by * aside[0],
    y: from[1] + by * aside[1],
  });
  // The notch runs counter-clockwise, seen with the opening upward: round the bottom from left to
  // right, and out on the right.
  const shape = [
    { ...corner(centre, half), bulge: 1 },
    { ...corner(centre, -half), bulge: 0 },
    { ...corner(mouth, -half), bulge: 0 },
    { ...corner(mouth, half), bulge: 0 },
  ];
  const left = subtract(outline, shape, ([x, y], bulge) => ({ x, y, bulge }));
  const [whole] = left ?? [];
  if (whole !== undefined && left?.length === 1) return whole;
  return orTry(
    refuse(
      'notch-parts-plate',
      ['notch', 'notchWidth'],
      `${notchText(v)}, ${figure(depth)} mm deep, leaves the plate in pieces`,
      [without('notch')],
      'move it out to make it shallower',
    ),
    { less: 'notchWidth' },
  );
}

/** The point of a loop nearest to a given point, and the direction out of the metal there. */
function nearestOn(loop: Loop, p: Vec2): { readonly at: Vec2; readonly outward: Vec2 } {
  const found = loop.map((_, i) => nearestOnPiece(pieceOf(loop, i), p));
  return found.reduce((best, f) => (distance(f.at, p) < distance(best.at, p) ? f : best));
}

function nearestOnPiece(
  piece: OutlinePiece,
  p: Vec2,
): { readonly at: Vec2; readonly outward: Vec2 } {
  if (piece.bulge === 0) {
    const way = sub(piece.to, piece.from);
    const share = dot(sub(p, piece.from), way) / dot(way, way);
    return { at: pointOn(piece, share), outward: scale(leftOf(unit(way)), -1) };
  }
  const { centre, startRad, sweepRad } = arcOf(piece.from, piece.to, piece.bulge);
  const turn = Math.sign(sweepRad) * (Math.atan2(p[1] - centre[1], p[0] - centre[0]) - startRad);
  const share = (turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI))) / Math.abs(sweepRad);
  const nearEnd = distance(p, piece.from) < distance(p, piece.to) ? 0 : 1;
  const at = pointOn(piece, share <= 1 ? share : nearEnd);
  return { at, outward: scale(unit(sub(at, centre)), Math.sign(sweepRad)) };
}
