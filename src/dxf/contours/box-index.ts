import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { PointIndex } from './point-index.ts';

/** Factors that no grid of holes has, so that few boxes fall together that are not alike. */
const [LOW, HIGH] = [Math.PI, Math.E] as const;

/** Boxes by where they lie and how large they are, for finding those that are alike. */
export class BoxIndex {
  private readonly points: PointIndex;

  /** Sides of boxes that are alike lie no farther apart than this, mm. */
  constructor(withinMm: number) {
    this.points = new PointIndex((1 + LOW) * withinMm * Math.SQRT2);
  }

  /** Gives the number of the box. */
  add(box: Extents): number {
    return this.points.add(pointOf(box));
  }

  /** Numbers of boxes that may be alike, the most likely first. */
  near(box: Extents): number[] {
    return this.points.near(pointOf(box)).slice(0, MOST);
  }
}

/** Of thousands that are alike, more say no more. */
const MOST = 50;

const pointOf = ({ minX, minY, maxX, maxY }: Extents): Vec2 => [
  minX + LOW * minY,
  maxX + HIGH * maxY,
];
