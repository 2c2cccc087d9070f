import type { Loop, Vertex } from './loop.ts';

/**
 * Area in mm2 inside a loop, with exact arcs, positive when the loop runs counter-clockwise. The
 * loop must not cross itself.
 */
export const signedArea = (loop: Loop): number => {
  const [origin] = loop;
  if (origin === undefined) return 0;
  let area = 0;
  let from: Vertex = origin;
  for (let i = 1; i <= loop.length; i++) {
    const to = loop[i] ?? origin;
    // The area is measured from the first vertex, so that a part far from the origin loses no
    // digits.
    area += ((from.x - origin.x) * (to.y - origin.y) - (to.x - origin.x) * (from.y - origin.y)) / 2;
    if (from.bulge !== 0)
      area += areaBeyondChord((to.x - from.x) ** 2 + (to.y - from.y) ** 2, from.bulge);
    from = to;
  }
  return area;
};

/** Length in mm once round a loop, with exact arcs. */
export const perimeter = (loop: Loop): number => {
  let sum = 0;
  for (let i = 0; i < loop.length; i++) {
    const from = loop[i] as Vertex;
    const to = loop[i + 1] ?? (loop[0] as Vertex);
    sum += pieceLength(Math.hypot(to.x - from.x, to.y - from.y), from.bulge);
  }
  return sum;
};

/**
 * Length of a piece, given its chord. An arc is its radius c (1 + b^2) / (4 |b|) times its sweep 4
 * atan |b|.
 */
const pieceLength = (chord: number, bulge: number): number =>
  bulge === 0 ? chord : chord * (1 + bulge * bulge) * (Math.atan(bulge) / bulge);

/**
 * Square of the bulge below which an arc is so flat that w - sin w loses its digits. Its power
 * series is used there: the terms left out add less than 1e-14.
 */
const FLAT_ARC = 1e-3;

/**
 * Area between an arc and its chord, with the sign of the bulge: R^2 (w - sin w) / 2 (any table of
 * plane figures), with R and the sweep w expressed by chord and bulge.
 */
const areaBeyondChord = (chordSquared: number, b: number): number => {
  const b2 = b * b;
  if (b2 < FLAT_ARC) return chordSquared * b * (1 / 3 + b2 * (1 / 15 + b2 * (-1 / 105 + b2 / 315)));
  return (chordSquared * ((1 + b2) ** 2 * Math.atan(b) - b * (1 - b2))) / (8 * b2);
};
