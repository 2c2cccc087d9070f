import { along, type Vec2 } from '../../geometry/vec2.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import { type Line2, textGround } from './ground.ts';
import { NARROW } from './line-types.ts';
import type { Batch, Candidate, Obstacle } from './placer.ts';
import { line, ring } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

/** A place for a name, and the line from it to what it names where they stand apart. */
export interface NamePlace extends Candidate {
  readonly label: Label;
  readonly leader?: Line2;
}

/** Clear paper before a name and behind it, in sizes of its letters: two of them make a space. */
export const ASIDE = 0.15;

export const namePlace = (label: Label, cost: number, leader?: Line2): NamePlace => ({
  label,
  cost,
  grounds: [textGround(label, { aside: ASIDE * label.sizeMm, over: 0 })],
  ...(leader !== undefined && { leader, lines: [leader] }),
});

const DIRECTIONS = Array.from({ length: 16 }, (_, i): Vec2 => {
  const lean = (2 * Math.PI * (i + 0.5)) / 16;
  return [Math.cos(lean), Math.sin(lean)];
});
const REACHES = [2, 5, 9, 14, 20, 28];
/** Distance of the letters from the end of their leader, mm. */
const GAP_MM = 0.6;

/** A name beside a point, in letters of a size; the nearest place costs least. */
interface Beside {
  readonly centre: Vec2;
  readonly radius: number;
  readonly text: string;
  readonly sizeMm: number;
  readonly cost: number;
}

/** Level texts in rings about a point, with a line to it from where they stand. */
export const led = (
  centre: Vec2,
  radius: number,
  text: string,
  sizeMm: number,
  cost: number,
): Batch<NamePlace>[] =>
  REACHES.map((reach, far) => {
    const beside = { centre, radius, text, sizeMm, cost: cost + 6 * far };
    return { leastCost: beside.cost, places: () => ringOf(beside, reach) };
  });

/** As `led`, none without its line. */
export const ledByLine = (...beside: Parameters<typeof led>): Batch<NamePlace>[] =>
  led(...beside).filter((_, far) => isLed(REACHES[far] as number));

/** Nearer than this, mm, it is seen without a line what is named. */
const isLed = (reach: number): boolean => reach > 2;

const ringOf = ({ centre, radius, text, sizeMm, cost }: Beside, reach: number): NamePlace[] => {
  const wide = textWidthMm(text, sizeMm, true);
  return DIRECTIONS.map((dir) => {
    const end = along(centre, dir, radius + reach);
    const label: Label = {
      kind: 'label',
      at: [dir[0] >= 0 ? end[0] + GAP_MM : end[0] - GAP_MM - wide, end[1] - 0.36 * sizeMm],
      sizeMm,
      text,
      isBold: true,
    };
    return namePlace(label, cost, isLed(reach) ? [along(centre, dir, radius), end] : undefined);
  });
};

/** A name with its leader; lines that were drawn before it are broken under it. */
export const nameItems = ({ label, leader, grounds }: NamePlace): PictureItem[] => [
  ...(leader === undefined ? [] : [line(...leader, NARROW)]),
  ...grounds.map(({ corners }): PictureItem => ({ kind: 'area', rims: [ring(corners)], fill: 1 })),
  label,
];

const CHORDS = 8;

/** The rim of a circle, for names to be kept off. */
export const rimObstacles = ([x, y]: Vec2, radiusMm: number, cost: number): Obstacle[] => {
  const corner = (i: number): Vec2 => {
    const turn = (2 * Math.PI * i) / CHORDS;
    return [x + radiusMm * Math.cos(turn), y + radiusMm * Math.sin(turn)];
  };
  return Array.from({ length: CHORDS }, (_, i) => ({ line: [corner(i), corner(i + 1)], cost }));
};
