import { polygon } from '../../src/template.ts';
import type { Loop, PolygonPoint, Vec2 } from '../../src/template.ts';
import type { Shell } from './shell.ts';
import { type Hand, type SideCorner, sideCorner } from './side.ts';
import type { DuctBox } from './inputs.ts';

/**
 * The panel of a wall as seen from inside, in mm: x from the middle of the aperture to the right, y
 * down the wall from the outside edge of the aperture. Its edges are `aperture`, `right`, `end` and
 * `left`.
 */
export interface WallShape {
  readonly outline: Loop;
  readonly corners: Readonly<
    Record<'apertureLeft' | 'apertureRight' | 'endRight' | 'endLeft', SideCorner>
  >;
}

export const wallShape = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
): WallShape => {
  const at = (hand: Hand, end: 'aperture' | 'end'): SideCorner => {
    const { onEnd, onSide } = sideCorner(v, shell, seams, i, hand, end);
    const seen = ([x, y]: Vec2): Vec2 => [hand === 'right' ? x : -x, y];
    return { onEnd: seen(onEnd), onSide: seen(onSide) };
  };
  const corners = {
    apertureLeft: at('left', 'aperture'),
    apertureRight: at('right', 'aperture'),
    endRight: at('right', 'end'),
    endLeft: at('left', 'end'),
  };
  const { apertureLeft, apertureRight, endRight, endLeft } = corners;
  const rightSide = points(apertureRight.onEnd, apertureRight.onSide, 'right');
  const endSide = points(endRight.onSide, endRight.onEnd, 'end');
  const leftSide = points(endLeft.onEnd, endLeft.onSide, 'left');
  const start = points(apertureLeft.onSide, apertureLeft.onEnd, 'aperture');
  const outline = polygon(
    ...start.slice(-1),
    ...rightSide,
    ...endSide,
    ...leftSide,
    ...start.slice(0, -1),
  );
  return { outline, corners };
};

/**
 * Two points, or a single one where nothing is cut off between them; the named edge begins at the
 * last.
 */
const points = (a: Vec2, b: Vec2, edge: string): PolygonPoint[] =>
  a[0] === b[0] && a[1] === b[1] ? [[...a, edge]] : [a, [...b, edge]];

/** Least length of straight metal on an edge, mm, that the outline needs. */
export const LEAST_EDGE_MM = 1;

/** Lengths of the four edges of a wall; below 0 where its corners have passed each other. */
export const edgeLengths = ({
  corners: { apertureLeft, apertureRight, endRight, endLeft },
}: WallShape) => ({
  aperture: apertureRight.onEnd[0] - apertureLeft.onEnd[0],
  end: endRight.onEnd[0] - endLeft.onEnd[0],
  right: endRight.onSide[1] - apertureRight.onSide[1],
  left: endLeft.onSide[1] - apertureLeft.onSide[1],
});
