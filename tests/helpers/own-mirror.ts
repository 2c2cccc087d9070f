import { pieceOf, pointOn } from '../../src/geometry/piece.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import type { Shape } from './saved-dxf.ts';

/** A point of a drawing, and the sort of thing that it belongs to. */
interface Mark {
  readonly at: Vec2;
  readonly sort: string;
}

/**
 * Whether a drawing is its own mirror image: some line through its middle takes every point of it
 * to another of the same sort, to within some mm. All lines are tried, without any code of the tool's own.
 */
export const isOwnMirror = (shapes: readonly Shape[], withinMm: number): boolean => {
  const marks = shapes.flatMap(marksOf);
  const middle: Vec2 = [mean(marks.map((m) => m.at[0])), mean(marks.map((m) => m.at[1]))];
  const [first] = marks.toSorted((a, b) => distance(b.at, middle) - distance(a.at, middle));
  if (first === undefined) return true;
  const angle = ([x, y]: Vec2): number => Math.atan2(y - middle[1], x - middle[0]);
  const axes = marks
    .filter(
      (m) =>
        m.sort === first.sort &&
        Math.abs(distance(m.at, middle) - distance(first.at, middle)) < withinMm,
    )
    .map((m) => (angle(m.at) + angle(first.at)) / 2);
  return axes.some((axis) =>
    marks.every((m) => {
      const [x, y] = [m.at[0] - middle[0], m.at[1] - middle[1]];
      const [c, s] = [Math.cos(2 * axis), Math.sin(2 * axis)];
      const image: Vec2 = [middle[0] + c * x + s * y, middle[1] + s * x - c * y];
      return marks.some((other) => other.sort === m.sort && distance(other.at, image) < withinMm);
    }),
  );
};

const mean = (values: readonly number[]): number =>
  values.reduce((a, b) => a + b, 0) / values.length;

const marksOf = (s: Shape): Mark[] => {
  switch (s.kind) {
    case 'circle':
      return [{ at: s.centre, sort: `${s.layer} ${s.radius.toFixed(2)}` }];
    case 'line':
      return [
        {
          at: [(s.from[0] + s.to[0]) / 2, (s.from[1] + s.to[1]) / 2],
          sort: `${s.layer} ${distance(s.from, s.to).toFixed(1)}`,
        },
      ];
    case 'loop':
      return s.loop.flatMap((v, i): Mark[] => [
        { at: [v.x, v.y], sort: s.layer },
        { at: pointOn(pieceOf(s.loop, i), 0.5), sort: `${s.layer} middle` },
      ]);
    case 'text':
      return [];
  }
};
