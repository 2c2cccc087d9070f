import { loopExtents } from '../geometry/extents.ts';
import { type Loop, rectangle, type Vertex } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import type { Pose } from '../geometry/pose.ts';
import type { CommonValues } from '../forms/common.ts';
import {
  cornerRadius,
  greatest,
  holds,
  least,
  opensTowards,
  rides,
  rimRadius,
  standsIn,
  standsOut,
} from './around-base.ts';
import { type Body, reachOf } from './body.ts';
import type { Figures } from './figures.ts';
import type { GivenFitsMap, PieceMap } from './given-pieces.ts';
import { largestThatWorks } from './room.ts';
import type { Shape } from './shape.ts';
import { shiftEdges } from './shift-edges.ts';
import { insideOfOutside, outsideOfInside, type Skirt, skirtsOf } from './skirts.ts';

/** What a piece takes its size from. */
export interface Fitting {
  readonly figures: Figures;
  /** `pieces[1].` */
  readonly at: string;
  readonly fits: GivenFitsMap;
  readonly own: Pick<PieceMap, 'base' | 'flanges'>;
  readonly values: CommonValues;
  readonly other: { readonly name: string; readonly base: Shape; readonly body: Body };
}

/** The base that fits, and where its piece then lies in the coordinates of the other. */
export interface Fitted {
  readonly shape: Shape;
  readonly poseOf: (own: Body) => Pose;
  /** How far its base stands off what it lies on, since a sharp edge rides on a bend, mm. */
  readonly ridesMm: number;
  /** Of a cheek between panels, how far in its outside stands, mm. */
  readonly insetMm?: number;
}

export const GAP = { kind: 'length', least: 0, most: 1000 } as const;

/** The gap of a relation, 0 where left out; nothing where it was told to be wrong. */
export const gapOf = (
  { figures, fits, at }: Fitting,
  limits: Parameters<Figures['read']>[2] = GAP,
): number | undefined =>
  fits.gap === undefined ? 0 : figures.read(fits.gap, `${at}fits.gap`, limits);

/**
 * The base of a lid that goes over a piece. Every edge of the other's base is moved out to the
 * farthest metal that stands beyond it, as it is seen along its base, and by the gap; there the
 * insides of the skirts stand.
 */
export function fittedOver(fitting: Fitting): Fitted | undefined {
  const { figures, at, own, values, other } = fitting;
  const { body, base } = other;
  const gapMm = gapOf(fitting);
  const skirts = skirtsOf(own, at, figures, values);
  if (gapMm === undefined || skirts === undefined) return undefined;
  const flat = skirts.find(({ angleDeg }) => angleDeg > 90);
  if (flat !== undefined)
    return figures.problem(
      `${flat.at}.angle`,
      flat.angleDeg,
      'at most 90 degrees, for a skirt that goes over another piece',
    );
  const silhouette = shiftEdges(base.outline, (i) => standsOut(body, base, i));
  const opens = opensTowards(body);
  // Skirts point at the other piece; where they are folded up, the lid is turned over as a page is.
  const isTurned = (skirts[0]?.direction === 'up') === (opens === 1);
  const shapeWith = (gap: number): Placed | undefined =>
    silhouette === undefined
      ? undefined
      : placedBase(fitting, {
          clear: shiftEdges(silhouette, () => gap),
          isTurned: skirts.length > 0 && isTurned,
          extra: (skirt) => outsideOfInside(skirt, values),
          skirts,
        });
  const placed = shapeWith(gapMm);
  if (placed === undefined || silhouette === undefined || !holds(silhouette, body))
    return figures.problem(
      `${at}fits.over`,
      fitting.fits.over,
      `a piece that stands within the outline of its own base, as it is seen along it; ${other.name} does not`,
      'give base a shape of its own in place of fits',
    );
  const ridesMm = rides(greatest(skirts), rimRadius(body, opens), gapMm);
  const faceAt = opens * (reachOf(body, [0, 0, opens]) + ridesMm);
  // Its lower face is what looks at the other piece, or its upper one where it was turned over.
  const looks = placed.isTurned ? -1 : 1;
  const originAt = looks === opens ? faceAt : faceAt + opens * values.thicknessMm;
  return {
    shape: placed.shape,
    ridesMm,
    poseOf: () => placed.poseAt(originAt),
  };
}

/**
 * The base of a piece that goes into another: every edge of the other's base moved in to the
 * innermost metal that stands on it, and by the gap; there the outsides of its own skirts stand.
 */
export function fittedInto(fitting: Fitting): Fitted | undefined {
  const { figures, at, own, values, other } = fitting;
  const gapMm = gapOf(fitting);
  const skirts = skirtsOf(own, at, figures, values);
  if (gapMm === undefined || skirts === undefined) return undefined;
  const flared = skirts.find(({ angleDeg }) => angleDeg < 90);
  if (flared !== undefined)
    return figures.problem(
      `${flared.at}.angle`,
      flared.angleDeg,
      'at least 90 degrees, for a skirt that goes into another piece',
    );
  const opens = opensTowards(other.body);
  const clear = shiftEdges(other.base.outline, (i) => standsIn(other.body, other.base, i, opens));
  const shapeWith = (gap: number): Placed | undefined =>
    clear === undefined
      ? undefined
      : placedBase(fitting, {
          clear: shiftEdges(clear, () => -gap),
          isTurned: false,
          extra: (skirt) => -insideOfOutside(skirt, values),
          skirts,
        });
  const placed = shapeWith(gapMm);
  if (placed === undefined) {
    const room = largestThatWorks(gapMm, (gap) => shapeWith(gap) !== undefined);
    return figures.problem(
      `${at}fits.${room === undefined ? 'into' : 'gap'}`,
      room === undefined ? fitting.fits.into : fitting.fits.gap,
      room === undefined
        ? `a piece with room in it; there is none within ${other.name}`
        : `at most ${room} mm: more leaves no room within ${other.name}`,
    );
  }
  const outward = skirts.every(({ direction }) => (direction === 'up') === (opens === 1));
  const t = values.thicknessMm;
  const ridesMm = rides(
    cornerRadius(other.body, opens),
    skirts.length > 0 && outward ? least(skirts) + t : 0,
    gapMm,
  );
  return {
    shape: placed.shape,
    ridesMm,
    poseOf: (body) =>
      placed.poseAt(
        opens === 1 ? t + ridesMm + reachOf(body, [0, 0, -1]) : -ridesMm - reachOf(body, [0, 0, 1]),
      ),
  };
}

/** A base in its own coordinates, and where these lie at some height over the other base. */
interface Placed {
  readonly shape: Shape;
  readonly isTurned: boolean;
  readonly poseAt: (z: number) => Pose;
}

interface Plan {
  /** Where the faces of skirts, and edges without, are to stand, in the other's coordinates. */
  readonly clear: Loop | undefined;
  readonly isTurned: boolean;
  /** How far outside such a face the mould line of its skirt lies. */
  readonly extra: (skirt: Skirt) => number;
  readonly skirts: readonly Skirt[];
}

function placedBase(
  { own, other }: Fitting,
  { clear, isTurned, extra, skirts }: Plan,
): Placed | undefined {
  if (clear === undefined) return undefined;
  const mine = isTurned ? turnedOver(clear) : clear;
  const sides = other.base.isPlain ? rectangleOf(mine) : mine;
  const outline = shiftEdges(sides, (i) => {
    const skirt = skirts.find(({ edge }) => edge === sides[i]?.edge);
    return skirt === undefined ? 0 : extra(skirt);
  });
  if (outline === undefined) return undefined;
  const box = loopExtents(outline) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  // A rectangle has its corner at 0,0; an outline keeps the coordinates that it follows.
  const [x, y] = other.base.isPlain ? [box.minX, box.minY] : [0, 0];
  const id = own.base.name ?? 'base';
  return {
    isTurned,
    shape: other.base.isPlain
      ? {
          id,
          outline: rectangle(0, 0, box.maxX - box.minX, box.maxY - box.minY),
          backwards: other.base.backwards,
          isPlain: true,
        }
      : { id, outline, backwards: other.base.backwards, isPlain: false },
    poseAt: (z) =>
      isTurned
        ? { o: [-x, y, z], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] }
        : { o: [x, y, z], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  };
}

/** The sides of a rectangle by where they lie on its own drawing. */
const rectangleOf = (loop: Loop): Loop => {
  const { minX, minY, maxX, maxY } = loopExtents(loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  return rectangle(minX, minY, maxX - minX, maxY - minY);
};

/** As a page is turned: what was left is right. Edges keep their names. */
const turnedOver = (loop: Loop): Loop =>
  loop
    .map((vertex, i): Vertex => {
      const { to } = pieceOf(loop, i);
      return { ...vertex, x: -to[0], y: to[1] };
    })
    .toReversed();
