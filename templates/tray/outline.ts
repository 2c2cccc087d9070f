import { polygon } from '../../src/template.ts';
import type { Loop, Vec2, Vertex } from '../../src/template.ts';
import { insetMm, notchMm, runsOn, setback90Mm, type Side, spanMm, tabStretch } from './sizes.ts';
import type { Tray } from './inputs.ts';

/** The base; each edge is named after the side that is folded up from it. */
export const baseOutline = ({ length, depth }: Tray): Loop =>
  polygon([0, 0, 'front'], [length, 0, 'right'], [length, depth, 'back'], [0, depth, 'left']);

/**
 * The panel of a side: its folded edge is `bottom`, its lip is folded from `top`, and the tabs of a
 * lapped tray from its `left end` and `right end`. `atRight` is the side that stands at the right
 * end of the panel, which is drawn as seen from inside.
 */
export function wallShape(v: Tray, side: Side, atRight: Side, atLeft: Side): Loop {
  const width = spanMm(v, side) - 2 * insetMm(v, side);
  const right = endOf(v, side, atRight).map(([in_, y], i, end): Vertex => {
    const named = i === end.length - 1 ? { edge: 'top' } : i === TAB_FROM && { edge: 'right end' };
    return { x: width - in_, y, bulge: 0, ...named };
  });
  const left = endOf(v, side, atLeft).map(([x, y], i): Vertex => {
    const named = i === 0 ? { edge: 'bottom' } : i === TAB_TO && { edge: 'left end' };
    return { x, y, bulge: 0, ...named };
  });
  const [corner, ...down] = left as [Vertex, ...Vertex[]];
  return [corner, ...right, ...cableCut(v, side), ...down.toReversed()];
}

/** Indices of the points of an end at which its tab begins and ends. */
const [TAB_FROM, TAB_TO] = [4, 5];

/**
 * One end of a side from the fold up: distance in, height. Where a tab begins or ends beside
 * another fold, a notch is cut half a thickness past the tangent line of the tab's bend (common
 * practice), so that neither tears the other.
 */
function endOf(v: Tray, side: Side, neighbour: Side): Vec2[] {
  if (v.corner !== 'lapped' || runsOn(side))
    return [
      [0, 0],
      [0, v.height],
    ];
  const [low, high] = tabStretch(v, side, neighbour);
  const [n, deep] = [notchMm(v), setback90Mm(v) + v.thicknessMm / 2];
  const foot: Vec2[] = [
    [0, 0],
    [0, low - n],
    [deep, low - n],
    [deep, low],
    [0, low],
  ];
  return high === v.height
    ? [...foot, [0, v.height]]
    : [...foot, [0, high], [deep, high], [deep, high + n], [0, high + n], [0, v.height]];
}

/**
 * The U for the cables in the top edge, from right to left; its bottom is a half circle with the
 * metal outside it.
 */
function cableCut(v: Tray, side: Side): Loop {
  if (v.cableSide !== side) return [];
  const span = spanMm(v, side);
  const middle = span - insetMm(v, side) - (v.cableAt ?? span / 2);
  const [half, round] = [v.cableWidth / 2, v.height - v.cableDepth + v.cableWidth / 2];
  const bottom = [
    { x: middle + half, y: round, bulge: -1 },
    { x: middle - half, y: round, bulge: 0 },
  ];
  if (round >= v.height) return bottom;
  return [
    { x: middle + half, y: v.height, bulge: 0 },
    ...bottom,
    { x: middle - half, y: v.height, bulge: 0 },
  ];
}
