import type { Loop, Vec2 } from '../../src/template.ts';
import { insetMm, notchMm, runsOn, setback90Mm, type Side, spanMm, tabStretch } from './sizes.ts';
import type { Tray } from './inputs.ts';

/** The panel of a side, folded edge first, and where its other folds stand on it. */
export interface WallShape {
  readonly outline: Loop;
  readonly top: number;
  /** The pieces from which the tabs of a lapped tray are folded. */
  readonly rightTab: number;
  readonly leftTab: number;
}

/**
 * `atRight` is the side that stands at the right end of the panel, which is drawn as seen from
 * inside.
 */
export function wallShape(v: Tray, side: Side, atRight: Side, atLeft: Side): WallShape {
  const width = spanMm(v, side) - 2 * insetMm(v, side);
  const right = endOf(v, side, atRight).map(([in_, up]): Vec2 => [width - in_, up]);
  const left = endOf(v, side, atLeft).reverse();
  const outline = [...left.slice(-1), ...right].map(([x, y]) => ({ x, y, bulge: 0 }));
  const rest = left.slice(0, -1).map(([x, y]) => ({ x, y, bulge: 0 }));
  const whole = [...outline, ...cableCut(v, side), ...rest];
  return { outline: whole, top: right.length, rightTab: 5, leftTab: whole.length - 5 };
}

/**
 * One end of a side from the fold up: how far in, how high. Where a tab begins or ends beside
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
