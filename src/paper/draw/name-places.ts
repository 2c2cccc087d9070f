import { along, type Vec2 } from '../../geometry/vec2.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import { type Line2, textGround } from './ground.ts';
import { NARROW } from './line-types.ts';
import type { Candidate, Obstacle } from './placer.ts';
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

const DIRECTIONS = 16;
const REACHES = [2, 5, 9, 14, 20, 28];
/** Distance of the letters from the end of their leader, mm. */
const GAP_MM = 0.6;

/** Level texts in rings about a point, with a line to it from where they stand. */
export const led = (
  centre: Vec2,
  radius: number,
  text: string,
  sizeMm: number,
  cost: number,
): NamePlace[] => {
  const wide = textWidthMm(text, sizeMm, true);
  return REACHES.flatMap((reach, far) =>
    Array.from({ length: DIRECTIONS }, (_, i): NamePlace => {
      const lean = (2 * Math.PI * (i + 0.5)) / DIRECTIONS;
      const dir: Vec2 = [Math.cos(lean), Math.sin(lean)];
      const end = along(centre, dir, radius + reach);
      const label: Label = {
        kind: 'label',
        at: [dir[0] >= 0 ? end[0] + GAP_MM : end[0] - GAP_MM - wide, end[1] - 0.36 * sizeMm],
        sizeMm,
        text,
        isBold: true,
      };
      const leader: Line2 = [along(centre, dir, radius), end];
      return namePlace(label, cost + 6 * far, reach > 2 ? leader : undefined);
    }),
  );
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
