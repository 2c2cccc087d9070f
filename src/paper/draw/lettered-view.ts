import type { Extents } from '../../geometry/extents.ts';
import { add, cross, dot, leftOf, scale, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { along3, dot3, scale3, sub3, unit3, type Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import type { Label, Picture, PictureItem } from '../../model/picture.ts';
import { type Camera, seen } from './camera.ts';
import { arrow, dimensionItems, dimensionLines } from './dimension-line.ts';
import { heavyLine, type Placing, viewLines } from './folded-view.ts';
import { discGround, type Line2 } from './ground.ts';
import { NARROW } from './line-types.ts';
import { type Candidate, type LineCosts, Placer } from './placer.ts';
import { readableWay } from './readable.ts';
import { scaleToFill } from './scales.ts';
import { line } from './strokes.ts';
import { bestCamera, boxOf } from './view-direction.ts';
import { metalOf } from './view-labels.ts';
import { visibleEdges } from './visible-edges.ts';

/**
 * A length or an angle of a folded part, in the coordinates of its mesh, mm, and the letter it is known
 * by.
 */
export interface LetteredMeasure {
  /** Name of what it is: the input. */
  readonly of: string;
  readonly letter: string;
  /** From where to where it may be drawn; the same measure at each place. */
  readonly places: readonly (LengthPlace | AnglePlace)[];
}

export interface LengthPlace {
  readonly from: Vec3;
  readonly to: Vec3;
  /** Unit vectors square to the length, in which its line may be moved off the part. */
  readonly aside: readonly Vec3[];
}

/** An angle at its tip, between two unit vectors. */
export interface AnglePlace {
  readonly tip: Vec3;
  readonly arms: readonly [Vec3, Vec3];
}

/** Something of a picture that can be pointed at, and the box it takes up, mm, y up. */
export interface Spot {
  readonly of: string;
  readonly box: Extents;
}

export interface LetteredView {
  readonly picture: Picture;
  /** One for each measure that found room. */
  readonly spots: readonly Spot[];
}

/** Room round the part for the letters, mm. */
const ROOM_MM = 17;
const LETTER_MM = 6;
/** Clear paper round a letter, and room for the arrows beside it. */
const DISC_MM = 3.4;
const ARROWS_MM = 6;
/** How far from the part a line may lie, on the paper, mm. */
const OFFS_MM = [6, 11, 16];
/** What a place costs: the farther off, across a line of the part, over its metal. */
const COSTS: LineCosts = { across: 14, crossing: 10 };
const ON_LINE = 3;
const ON_METAL = 2.5;
const SAMPLES = 5;
/** A length that is seen shorter than this, mm on paper, or askew by less than this, is not read. */
const LEAST_SEEN_MM = 3;
const LEAST_SKEW = 0.3;

interface Place extends Candidate {
  /** The middle of its letter. */
  readonly middle: Vec2;
  /** What is drawn of it, its letter last. */
  readonly items: () => readonly PictureItem[];
}

/**
 * The folded part with measures lettered beside it, each on a line or an arc of its own from where to
 * where it is measured, with arrows. What finds no room is left out, and has no spot.
 */
export const letteredView = (
  mesh: Mesh,
  measures: readonly LetteredMeasure[],
  size: { readonly widthMm: number; readonly heightMm: number },
): LetteredView => {
  const camera = bestCamera(mesh);
  const view = visibleEdges(mesh, camera);
  const placing = placingOf(
    view.edges.flatMap((e) => [e.from, e.to]),
    size,
  );
  const isMetal = metalOf(view, placing);
  const placer = new Placer({ minX: 0, minY: 0, maxX: size.widthMm, maxY: size.heightMm }, COSTS);
  for (const { kind, from, to } of view.edges)
    if (kind !== 'bend') placer.avoid({ line: [placing.at(from), placing.at(to)], cost: ON_LINE });
  const items: PictureItem[] = viewLines(view.edges, placing, heavyLine(mesh, placing.scale));
  const spots: Spot[] = [];
  for (const { of, letter, places } of measures) {
    const placed = placer.place(
      places.flatMap((p) =>
        'tip' in p
          ? arcPlaces(p, letter, camera, placing, isMetal)
          : placesOf(p, letter, camera, placing, isMetal),
      ),
    );
    if (placed === undefined) continue;
    const drawn = placed.items();
    const disc = { kind: 'round', centre: placed.middle, radiusMm: DISC_MM, fill: 1 } as const;
    items.push(...drawn.slice(0, -1), disc, ...drawn.slice(-1));
    spots.push({ of, box: discGround(placed.middle, DISC_MM + 1).box });
  }
  return { picture: { ...size, items }, spots };
};

const placingOf = (
  points: readonly Vec3[],
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
): Placing => {
  const [low, high] = boxOf(points);
  const s = scaleToFill(
    [high[0] - low[0], high[1] - low[1]],
    [widthMm - 2 * ROOM_MM, heightMm - 2 * ROOM_MM],
  );
  const [dx, dy] = [
    widthMm / 2 - (s * (low[0] + high[0])) / 2,
    heightMm / 2 - (s * (low[1] + high[1])) / 2,
  ];
  return { scale: s, at: ([x, y]) => [s * x + dx, s * y + dy] };
};

/** Where a length may be drawn from one place: to each side that is seen askew enough, near or far. */
const placesOf = (
  { from, to, aside }: LengthPlace,
  letter: string,
  camera: Camera,
  { at }: Placing,
  isMetal: (p: Vec2) => boolean,
): Place[] => {
  const foot = (p: Vec3): Vec2 => at(seen(camera, p));
  const [a, b] = [foot(from), foot(to)];
  if (Math.hypot(...sub(b, a)) < LEAST_SEEN_MM) return [];
  const way = readableWay(unit(sub(b, a)));
  const feet = dot(sub(b, a), way) > 0 ? ([a, b] as const) : ([b, a] as const);
  return aside.flatMap((out) => {
    const flat: Vec2 = [dot3(camera.right, out), dot3(camera.up, out)];
    const seenLong = Math.hypot(...flat);
    if (seenLong < LEAST_SKEW || Math.abs(dot(leftOf(way), flat)) < LEAST_SKEW * seenLong)
      return [];
    return OFFS_MM.flatMap((off) => {
      const shift = scale(unit(flat), off);
      const ends = [add(feet[0], shift), add(feet[1], shift)] as const;
      return letterMiddles(ends, way).map((middle): Place => {
        const dimension = { feet, ends, way, text: levelLetter(letter, middle) };
        const lines = dimensionLines(dimension);
        return {
          items: () => dimensionItems(dimension),
          middle,
          grounds: [discGround(middle, DISC_MM + 0.5)],
          lines,
          cost: off,
          more: () => metalUnder(lines, isMetal) + (isMetal(middle) ? 3 * ON_METAL : 0),
        };
      });
    });
  });
};

/** Radii of arcs on the paper, mm: far enough out for a letter between the arms. */
const RADII_MM = [9, 13, 17, 22];
/** An arc that is seen shorter or flatter than this, mm, shows no angle. */
const LEAST_ARC_MM = 2;
const CHORDS = 12;

/** The arcs by which an angle may be shown at one place, with the letter on them or beyond an end. */
const arcPlaces = (
  { tip, arms }: AnglePlace,
  letter: string,
  camera: Camera,
  { at, scale: s }: Placing,
  isMetal: (p: Vec2) => boolean,
): Place[] => {
  const [u, v] = arms;
  const across = unit3(sub3(v, scale3(u, dot3(u, v))));
  const open = Math.acos(Math.max(-1, Math.min(1, dot3(u, v))));
  const foot = (p: Vec3): Vec2 => at(seen(camera, p));
  return RADII_MM.flatMap((radius): Place[] => {
    const pointAt = (turn: number, reach = radius): Vec2 =>
      foot(
        along3(along3(tip, u, (reach / s) * Math.cos(turn)), across, (reach / s) * Math.sin(turn)),
      );
    const points = Array.from({ length: CHORDS + 1 }, (_, i) => pointAt((open * i) / CHORDS));
    const chords = points.slice(1).map((to, i) => [points[i] as Vec2, to] as const);
    const long = chords.reduce((sum, [p, q]) => sum + Math.hypot(...sub(q, p)), 0);
    const wide = Math.abs(
      cross(sub(points[0] as Vec2, foot(tip)), sub(points.at(-1) as Vec2, foot(tip))),
    );
    if (long < LEAST_ARC_MM || wide < LEAST_ARC_MM * radius) return [];
    const limbs = [0, open].map((turn): Line2 => [foot(tip), pointAt(turn, radius + 3)]);
    const isShort = long < 2 * DISC_MM + ARROWS_MM;
    const beyond = (DISC_MM + ARROWS_MM) / radius;
    const middles = isShort ? [pointAt(open + beyond), pointAt(-beyond)] : [pointAt(open / 2)];
    return middles.map((middle) => ({
      middle,
      grounds: [discGround(middle, DISC_MM + 0.5)],
      lines: [...limbs, ...chords],
      cost: radius,
      more: () => (isMetal(middle) ? ON_METAL : 0),
      items: () => [
        ...[...limbs, ...chords].map((l) => line(...l, NARROW)),
        ...arcArrows(points, isShort),
        levelLetter(letter, middle),
      ],
    }));
  });
};

/** Heads at both ends of an arc; from outside where it is short. */
const arcArrows = (points: readonly Vec2[], isShort: boolean): PictureItem[] => {
  const [a, b] = [points[0] as Vec2, points[1] as Vec2];
  const [y, z] = [points.at(-2) as Vec2, points.at(-1) as Vec2];
  const side = isShort ? -1 : 1;
  return [arrow(a, unit(sub(b, a)), side), arrow(z, unit(sub(y, z)), side)];
};

/** Metal under a line and its letter makes both hard to read. */
const metalUnder = (
  lines: readonly (readonly [Vec2, Vec2])[],
  isMetal: (p: Vec2) => boolean,
): number =>
  lines
    .flatMap(([p, q]) =>
      Array.from({ length: SAMPLES }, (_, i) => add(p, scale(sub(q, p), (i + 1) / (SAMPLES + 1)))),
    )
    .filter(isMetal).length * ON_METAL;

/** On its line, or beyond an end of one that is too short for it. */
const letterMiddles = ([a, b]: readonly [Vec2, Vec2], way: Vec2): Vec2[] => {
  const long = dot(sub(b, a), way);
  return long > 2 * DISC_MM + ARROWS_MM
    ? [add(a, scale(way, long / 2))]
    : [add(b, scale(way, DISC_MM + ARROWS_MM)), add(a, scale(way, -DISC_MM - ARROWS_MM))];
};

/** Letters stand upright whichever way their line runs: a turned b is a q. */
const levelLetter = (text: string, [x, y]: Vec2): Label => ({
  kind: 'label',
  at: [x, y - 0.3 * LETTER_MM],
  sizeMm: LETTER_MM,
  text,
  align: 'middle',
  isBold: true,
});
