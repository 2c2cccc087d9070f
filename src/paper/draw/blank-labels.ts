import { figure } from '../../text/figures.ts';
import { arcOf } from '../../geometry/arc.ts';
import { pieceOf, pointOn } from '../../geometry/piece.ts';
import { along, distance, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { PictureItem } from '../../model/picture.ts';
import { MOST_HOLES } from './blank-ticks.ts';
import type { Fitting } from './dimensioned-blank.ts';
import type { KeyedHole } from './hole-keys.ts';
import { led, nameItems, type NamePlace, namePlace } from './name-places.ts';
import type { Placer } from './placer.ts';
import { textWidthMm } from './text-width.ts';
import { readableLine } from './readable.ts';

const FOLD_MM = [4.6, 3.6, 2.8] as const;
const HOLE_MM = [4.6, 3.6, 2.8] as const;
const RADIUS_MM = [3.6, 2.8] as const;
/** More different radii than these say little. */
const MOST_RADII = 4;

/**
 * Names and sizes of folds, holes and round corners, each where it is cheapest, lines broken under
 * it; those without room are counted.
 */
export const blankLabels = (
  flat: FlatPattern,
  holes: readonly KeyedHole[],
  fitting: Fitting,
  placer: Placer,
): { readonly items: readonly PictureItem[]; readonly leftOut: number } => {
  const asked: readonly (readonly NamePlace[])[] = [
    ...flat.bends.map((bend) => foldPlaces(bend, fitting)),
    ...holeNames(holes).map(({ hole, text }) => holePlaces(hole, fitting, text)),
    ...radiusPlaces(flat, fitting),
  ];
  const placed = asked.flatMap((places) => placer.place(places) ?? []);
  return { items: placed.flatMap(nameItems), leftOut: asked.length - placed.length };
};

/** From so many holes of one size on, names of their own would hide the blank. */
const PATTERN = 12;

/**
 * What is written beside which hole: its name, or of a pattern how many there are, once: the table
 * has the place of each.
 */
const holeNames = (
  holes: readonly KeyedHole[],
): { readonly hole: KeyedHole; readonly text: string }[] =>
  holes.flatMap((hole) => {
    const same = holes.filter(({ kind, size }) => kind === hole.kind && size === hole.size);
    if (same.length < PATTERN)
      return [{ hole, text: holes.length > MOST_HOLES ? hole.key : `${hole.key} ${hole.size}` }];
    return hole === same[0] ? [{ hole, text: `${same.length} x ${hole.size}` }] : [];
  });

/**
 * Beside its line and along it: the name, the angle and the direction; the name alone, or beside
 * the blank, where that has no room.
 */
const foldPlaces = (
  { id, angleDeg, direction, centreLine }: FlatBend,
  { at }: Fitting,
): NamePlace[] => {
  const line = readableLine(centreLine.map(at) as [Vec2, Vec2]);
  const [from, to] = line;
  const middle: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return [
    `${id}  ${figure(angleDeg, 1)}° ${direction.toUpperCase()}`,
    `${id} ${direction.toUpperCase()}`,
    id,
  ].flatMap((text, shorter) =>
    FOLD_MM.flatMap((sizeMm, smaller) => {
      const own = (SHORTER_COST[shorter] as number) + 15 * smaller;
      return [...alongPlaces(line, text, sizeMm, own), ...led(middle, 0, text, sizeMm, own + 60)];
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
const SHORTER_COST = [0, 40, 250];

const holePlaces = (
  { hole, centre }: KeyedHole,
  { at, scale }: Fitting,
  text: string,
): NamePlace[] => {
  const radius =
    hole.kind === 'round'
      ? (hole.diameterMm / 2) * scale
      : Math.max(...hole.loop.map(({ x, y }) => distance([x, y], centre))) * scale;
  return HOLE_MM.flatMap((sizeMm, i) => led(at(centre), radius, text, sizeMm, 25 * i));
};

/** One of each radius of the outline, with how often it comes; a circle is told by its diameter. */
const radiusPlaces = ({ outline }: FlatPattern, { at }: Fitting): NamePlace[][] => {
  const found = new Map<string, { readonly at: Vec2; readonly isFull: boolean; count: number }>();
  outline.forEach((vertex, i) => {
    if (vertex.bulge === 0 || vertex.origin.kind === 'relief') return;
    const piece = pieceOf(outline, i);
    const isFull = outline.every((v) => v.bulge !== 0) && outline.length <= 4;
    const name = figure(arcOf(piece.from, piece.to, piece.bulge).radius * (isFull ? 2 : 1));
    const known = found.get(name);
    if (known === undefined) found.set(name, { at: pointOn(piece, 0.5), isFull, count: 1 });
    else known.count += 1;
  });
  if (found.size > MOST_RADII) return [];
  return [...found].map(([name, { at: p, isFull, count }]) => {
    const text = isFull ? `Ø${name}` : `${count > 1 ? `${count} x ` : ''}R${name}`;
    return RADIUS_MM.flatMap((sizeMm, i) =>
      led(at(p), 0, text, sizeMm, 20 * i).filter((c) => c.leader !== undefined),
    );
  });
};
