import { pointGap } from '../../geometry/gap.ts';
import { along, distance, type Vec2 } from '../../geometry/vec2.ts';
import { isInside } from '../../geometry/inside.ts';
import type { FlatCutout } from '../../model/flat.ts';
import type { PictureItem, Round } from '../../model/picture.ts';
import type { Fitting } from './dimensioned-blank.ts';
import { ASIDE, led, nameItems, type NamePlace, namePlace, rimObstacles } from './name-places.ts';
import type { Obstacle, Placer } from './placer.ts';
import { textWidthMm } from './text-width.ts';

/** A place where something was found, and the number by which the text about it is found. */
export interface FindingMark {
  readonly at: Vec2;
  readonly number: number;
}

const RING_MM = 2;
const TEXT_MM = 3;

/** The ring round a place where something was found, on paper; broken and grey, for it is not cut. */
const markRing = ([x, y]: Vec2): Round => ({
  kind: 'round',
  centre: [x, y],
  radiusMm: RING_MM,
  stroke: { widthMm: 0.6, shade: 0.45, dashMm: [0.9, 0.67] },
});

/** Rings nearer to each other than this on paper, mm, are one, with all their numbers. */
const SAME_PLACE_MM = 2;
/** The number of a ring in a hole stands beside the hole, but for one larger than this on paper, mm. */
const LARGE_HOLE_MM = 12;
const RING_COST = 300;
/** Clear paper round a ring, half of its line included. */
const RING_CLEAR_MM = 0.5;

export interface Ring {
  readonly centre: Vec2;
  /** How far from its middle the numbers stand. */
  readonly clearMm: number;
  readonly numbers: readonly number[];
}

/** Where the marks lie on the paper; the first of those in one place. */
export function ringsOf(
  marks: readonly FindingMark[],
  holes: readonly FlatCutout[],
  { at, scale }: Fitting,
): Ring[] {
  const rings: Ring[] = [];
  for (const mark of marks) {
    const centre = at(mark.at);
    const same = rings.findIndex((other) => distance(other.centre, centre) < SAME_PLACE_MM);
    const known = rings[same];
    if (known !== undefined) rings[same] = { ...known, numbers: [...known.numbers, mark.number] };
    else rings.push({ centre, clearMm: clearAt(mark.at, holes, scale), numbers: [mark.number] });
  }
  return rings;
}

const clearAt = (at: Vec2, holes: readonly FlatCutout[], scale: number): number => {
  const reach = Math.max(0, ...holes.map((hole) => reachRound(at, hole))) * scale;
  return reach > LARGE_HOLE_MM ? RING_MM : Math.max(RING_MM, reach);
};

/** How far it is out of a hole from a place in it, a slot the short way; 0 where that is in none. */
const reachRound = (at: Vec2, hole: FlatCutout): number => {
  if (hole.kind === 'loop') return isInside(hole.loop, at) ? pointGap(at, hole.loop) : 0;
  const [off, radius] = [distance(hole.centre, at), hole.diameterMm / 2];
  return off < radius ? off + radius : 0;
};

/** Lines that the other texts of the picture are kept off. */
export const ringObstacles = (rings: readonly Ring[]): Obstacle[] =>
  rings.flatMap(({ centre }) => rimObstacles(centre, RING_MM + RING_CLEAR_MM, RING_COST));

/** `1, 2`; more of them than two in a row are `1-4`. */
const numbersText = (numbers: readonly number[]): string => {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .flatMap(([from, to]): (string | number)[] =>
      to - from > 1 ? [`${from}-${to}`] : from === to ? [from] : [from, to],
    )
    .join(', ');
};

const DIRECTIONS = 16;

/** Right beside a ring, on the right if that is free. */
const closeTo = (centre: Vec2, clearMm: number, text: string): NamePlace[] => {
  const half: Vec2 = [textWidthMm(text, TEXT_MM, true) / 2, 0.36 * TEXT_MM];
  return Array.from({ length: DIRECTIONS }, (_, i): NamePlace => {
    const lean = (2 * Math.PI * (i % 2 === 0 ? i : -i - 1)) / 2 / DIRECTIONS;
    const dir: Vec2 = [Math.cos(lean), Math.sin(lean)];
    const reach =
      clearMm +
      RING_CLEAR_MM +
      Math.abs(dir[0]) * (half[0] + ASIDE * TEXT_MM) +
      Math.abs(dir[1]) * half[1];
    const [x, y] = along(centre, dir, reach);
    return namePlace(
      { kind: 'label', at: [x - half[0], y - half[1]], sizeMm: TEXT_MM, text, isBold: true },
      i,
    );
  });
};

/** Rings, and their numbers where there is room for them: those without are counted. */
export function markItems(
  rings: readonly Ring[],
  placer: Placer,
  sign: (ring: Ring) => readonly PictureItem[] = ({ centre }) => [markRing(centre)],
): { readonly items: readonly PictureItem[]; readonly leftOut: number } {
  const placed = rings.flatMap(({ centre, clearMm, numbers }) => {
    const text = numbersText(numbers);
    return (
      placer.place([
        ...closeTo(centre, clearMm, text),
        ...led(centre, clearMm, text, TEXT_MM, 30),
      ]) ?? []
    );
  });
  return {
    items: [...rings.flatMap(sign), ...placed.flatMap(nameItems)],
    leftOut: rings.length - placed.length,
  };
}
