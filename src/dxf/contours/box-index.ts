import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { PointIndex } from './point-index.ts';

/** No grid of holes has these factors, so boxes that are not alike seldom fall together. */
const [LOW, HIGH] = [Math.PI, Math.E] as const;

/** Boxes by their place and size, for finding those that are alike. */
export class BoxIndex {
  private readonly points: PointIndex;

  /** Two boxes are alike when their sides lie no farther apart than `withinMm`. */
  constructor(withinMm: number) {
    this.points = new PointIndex((1 + LOW) * withinMm * Math.SQRT2);
  }

  /** Adds a box and returns its number. */
  add(box: Extents): number {
    return this.points.add(pointOf(box));
  }

  /** Numbers of boxes that may be alike, the most likely first. */
  near(box: Extents): number[] {
    return this.points.near(pointOf(box)).slice(0, MOST);
  }
}

/** A search stops at this many; where thousands are alike, more of them tell nothing new. */
const MOST = 50;

const pointOf = ({ minX, minY, maxX, maxY }: Extents): Vec2 => [
  minX + LOW * minY,
  maxX + HIGH * maxY,
];
