import type { Printed } from '../../text/printed.ts';
import { foldAngle } from '../../text/angles.ts';
import { arcOf } from '../../geometry/arc.ts';
import { pieceOf, pointOn } from '../../geometry/piece.ts';
import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { along, distance, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { PictureItem } from '../../model/picture.ts';
import type { BlankSizes } from '../sizes/blank-sizes.ts';
import { roundCentre } from '../sizes/datum.ts';
import type { KeyedHole } from '../sizes/hole-keys.ts';
import { type HoleGroup, groupText } from '../sizes/hole-patterns.ts';
import type { OutlineCorner } from '../sizes/outline-corners.ts';
import type { Fitting } from './dimensioned-blank.ts';
import { led, ledByLine, nameItems, type NamePlace, namePlace } from './name-places.ts';
import type { Batch, Placer } from './placer.ts';
import { textWidthMm } from './text-width.ts';
import { readableLine } from './readable.ts';

const FOLD_MM = [4.6, 3.6, 2.8] as const;
const HOLE_MM = [4.6, 3.6, 2.8] as const;
const RADIUS_MM = [3.6, 2.8] as const;
const CORNER_MM = 2.8;

export interface BlankLabels {
  readonly items: readonly PictureItem[];
  /** How many found no room. */
  readonly leftOut: number;
  /** What the picture tells, and which of it the tables tell in its stead. */
  readonly sizes: BlankSizes;
}

/**
 * Names and sizes of folds, holes, roundings and of the corners that a table tells, each where it is
 * cheapest, lines broken under it; those without room are counted. Where the radius of the roundings
 * has none, the table tells these corners.
 */
export const blankLabels = (sizes: BlankSizes, fitting: Fitting, placer: Placer): BlankLabels => {
  const place = (asked: readonly (readonly Batch<NamePlace>[])[]): (NamePlace | undefined)[] =>
    asked.map((places) => placer.place(places));
  const features = place([
    ...sizes.drawn.flat.bends.map((bend) => foldPlaces(bend, fitting)),
    ...sizes.groups.map((group) => groupPlaces(group, fitting, sizes.print)),
  ]);
  const radii = place(radiusPlaces(sizes, fitting));
  const told = radii.includes(undefined) ? withRoundsTabled(sizes) : sizes;
  // Corners lie close together: which one is meant is told by a line alone.
  const corners = place(
    told.tabled.corners.map(({ at, key }) => ledByLine(fitting.at(at), 0, key, CORNER_MM, 0)),
  );
  const all = [...features, ...(told === sizes ? radii : []), ...corners];
  const placed = all.flatMap((item) => item ?? []);
  return { items: placed.flatMap(nameItems), leftOut: all.length - placed.length, sizes: told };
};

const withRoundsTabled = (sizes: BlankSizes): BlankSizes => {
  const isSharp = ({ roundMm, arc }: OutlineCorner): boolean =>
    roundMm === undefined && arc === undefined;
  const rounded = sizes.corners.filter((corner) => !isSharp(corner));
  return {
    ...sizes,
    corners: sizes.corners.filter(isSharp),
    tabled: { ...sizes.tabled, corners: [...sizes.tabled.corners, ...rounded].toSorted(inOrder) },
  };
};

const inOrder = (a: OutlineCorner, b: OutlineCorner): number =>
  Number(a.key.slice(1)) - Number(b.key.slice(1));

/**
 * Beside its line and along it: the name, the angle and the direction; the name and the direction
 * where that has no room, or all of it beside the blank; the name alone last.
 */
const foldPlaces = (
  { id, angleDeg, direction, centreLine }: FlatBend,
  { at }: Fitting,
): Batch<NamePlace>[] => {
  const line = readableLine(centreLine.map(at) as [Vec2, Vec2]);
  const [from, to] = line;
  const middle: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return [
    `${id}  ${foldAngle(angleDeg)} ${direction.toUpperCase()}`,
    `${id} ${direction.toUpperCase()}`,
    id,
  ].flatMap((text, shorter) =>
    FOLD_MM.flatMap((sizeMm, smaller) => {
      const own = (SHORTER_COST[shorter] as number) + 15 * smaller;
      return [alongPlaces(line, text, sizeMm, own), ...led(middle, 0, text, sizeMm, own + 60)];
    }),
  );
};

const SHARES = [0.5, 0.25, 0.75, 0.1, 0.9, 0.38, 0.62];
/** Distances of the base line from the fold line, over it and under it, in sizes of the letters. */
const LIFTS = [0.35, -1.05];

/** Places along a line and close to it; the middle of the line costs least. */
const alongPlaces = (
  [from, to]: readonly [Vec2, Vec2],
  text: string,
  sizeMm: number,
  own: number,
): Batch<NamePlace> => ({
  leastCost: own,
  places: () => placesAlong([from, to], text, sizeMm, own),
});

const placesAlong = (
  [from, to]: readonly [Vec2, Vec2],
  text: string,
  sizeMm: number,
  own: number,
): NamePlace[] => {
  const dir = unit(sub(to, from));
  const turnDeg = (Math.atan2(dir[1], dir[0]) * 180) / Math.PI;
  const [long, wide] = [distance(from, to), textWidthMm(text, sizeMm, true)];
  return SHARES.flatMap((share) => {
    const start = Math.min(
      Math.max(share * long - wide / 2, Math.min(1, long - wide)),
      Math.max(1, long - wide - 1),
    );
    const cost = own + (wide > long ? 80 : 0) + 10 * Math.abs(share - 0.5);
    return LIFTS.map((lift) => {
      const at = along(along(from, dir, start), leftOf(dir), lift * sizeMm);
      return namePlace({ kind: 'label', at, sizeMm, text, isBold: true, angleDeg: turnDeg }, cost);
    });
  });
};

/** The direction is left out last: whoever folds must not have to guess. */
const SHORTER_COST = [0, 110, 350];

/** Beside the first hole: what all are, or its name alone, as in the table. */
const groupPlaces = (
  group: HoleGroup,
  { at, scale }: Fitting,
  print: Printed,
): Batch<NamePlace>[] => {
  const { hole, centre } = group.holes[0] as KeyedHole;
  const radius =
    hole.kind === 'round'
      ? (hole.diameterMm / 2) * scale
      : Math.max(...hole.loop.map(({ x, y }) => distance([x, y], centre))) * scale;
  return [groupText(group, print), group.key].flatMap((text, shorter) =>
    HOLE_MM.flatMap((sizeMm, i) => led(at(centre), radius, text, sizeMm, 25 * i + 100 * shorter)),
  );
};

/** A rounding or an arc of the outline that is told beside the picture. */
interface Rounding {
  readonly at: Vec2;
  readonly radiusMm: number;
}

/**
 * The radius of the corners that running sizes tell, once, with how often it comes. A round blank is
 * told by its diameter.
 */
const radiusPlaces = (sizes: BlankSizes, { at }: Fitting): Batch<NamePlace>[][] => {
  const { outline } = sizes.drawn.flat;
  const { tape } = sizes.print;
  if (roundCentre(outline) !== undefined) {
    const { from, to, bulge } = pieceOf(outline, 0);
    const text = `Ø${tape(2 * arcOf(from, to, bulge).radius)}`;
    return [radiusTexts(at(pointOn({ from, to, bulge }, 0.3)), text)];
  }
  const told = roundingsOf(sizes);
  const [first] = told;
  const count = told.length > 1 ? `${told.length} x ` : '';
  return first === undefined ? [] : [radiusTexts(at(first.at), `${count}R${tape(first.radiusMm)}`)];
};

const radiusTexts = (at: Vec2, text: string): Batch<NamePlace>[] =>
  RADIUS_MM.flatMap((sizeMm, i) => ledByLine(at, 0, text, sizeMm, 20 * i));

/** The arcs of the outline that begin at a told corner, or round one. */
const roundingsOf = ({ corners, drawn: { flat } }: BlankSizes): Rounding[] => {
  const arcs = flat.outline.flatMap((v, i) => {
    if (v.bulge === 0) return [];
    const piece = pieceOf(flat.outline, i);
    return [
      {
        from: piece.from,
        at: pointOn(piece, 0.5),
        radius: arcOf(piece.from, piece.to, v.bulge).radius,
      },
    ];
  });
  return corners.flatMap((corner): Rounding[] => {
    const radiusMm = corner.roundMm ?? corner.arc?.radiusMm;
    if (radiusMm === undefined) return [];
    const own = arcs
      .filter((a) => Math.abs(a.radius - radiusMm) < SAME_LENGTH_MM)
      .toSorted((a, b) => nearness(a, corner) - nearness(b, corner))[0];
    return own === undefined ? [] : [{ at: own.at, radiusMm }];
  });
};

const nearness = (
  arc: { readonly from: Vec2; readonly at: Vec2 },
  { at, roundMm }: OutlineCorner,
): number => distance(roundMm === undefined ? arc.from : arc.at, at);
