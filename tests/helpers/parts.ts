import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import type { Direction, Fold, FoldSide, Panel, Part, Relief } from '../../src/model/part.ts';

/** A panel without holes. */
export const panel = (id: string, outline: Loop, cutouts: Panel['cutouts'] = []): Panel => ({
  id,
  outline,
  cutouts,
});

export const fold = (
  id: string,
  parent: FoldSide,
  child: FoldSide,
  angleDeg = 90,
  direction: Direction = 'up',
  insideRadiusMm = 3,
): Fold => ({ id, parent, child, angleDeg, direction, insideRadiusMm });

export const ROUND: Relief = { shape: 'round', widthMm: 3, leastSlotMm: 1.5 };

/** A part of 3 mm sheet whose first panel is the root. */
export const part = (
  panels: readonly Panel[],
  folds: readonly Fold[],
  rest: Partial<Part> = {},
): Part => ({
  name: 'test part',
  thicknessMm: 3,
  measure: 'outside',
  root: panels[0]?.id ?? '',
  panels,
  folds,
  relief: ROUND,
  cornerGapMm: 0.5,
  ...rest,
});

/** An angle bracket: leg A stands below, leg B above; the fold runs from left to right. */
export const angle = (
  legA: number,
  legB: number,
  width: number,
  angleDeg: number,
  radius: number,
  t: number,
  direction: Direction = 'up',
): Part =>
  part(
    [panel('leg A', rectangle(0, 0, width, legA)), panel('leg B', rectangle(0, 0, width, legB))],
    [
      fold(
        'A',
        { panel: 'leg A', edge: 2 },
        { panel: 'leg B', edge: 0 },
        angleDeg,
        direction,
        radius,
      ),
    ],
    { thicknessMm: t },
  );

/** Base `length` x `width` with a wall of the given height on each of its four sides. */
export const box = (
  length: number,
  width: number,
  height: number,
  angleDeg: number,
  radius: number,
  t: number,
  rest: Partial<Part> = {},
): Part => {
  const sides = [length, width, length, width];
  return part(
    [
      panel('base', rectangle(0, 0, length, width)),
      ...sides.map((s, i) => panel(`wall ${i}`, rectangle(0, 0, s, height))),
    ],
    sides.map((_, i) =>
      fold(
        `F${i}`,
        { panel: 'base', edge: i },
        { panel: `wall ${i}`, edge: 0 },
        angleDeg,
        'up',
        radius,
      ),
    ),
    { thicknessMm: t, ...rest },
  );
};

/**
 * A regular polygon with a tapered wall on each side; `flare` is how much wider the wall's far edge
 * is at each end.
 */
export const prism = (
  sides: number,
  edge: number,
  height: number,
  flare: number,
  angleDeg: number,
  radius: number,
  t: number,
  rest: Partial<Part> = {},
): Part => {
  const reach = edge / (2 * Math.sin(Math.PI / sides));
  const corners = Array.from({ length: sides }, (_, i): [number, number] => {
    const a = (2 * Math.PI * i) / sides;
    return [reach * Math.cos(a), reach * Math.sin(a)];
  });
  const wall = polygon([0, 0], [edge, 0], [edge + flare, height], [-flare, height]);
  return part(
    [panel('base', polygon(...corners)), ...corners.map((_, i) => panel(`wall ${i}`, wall))],
    corners.map((_, i) =>
      fold(
        `F${i}`,
        { panel: 'base', edge: i },
        { panel: `wall ${i}`, edge: 0 },
        angleDeg,
        'up',
        radius,
      ),
    ),
    { thicknessMm: t, ...rest },
  );
};
