import { piecesOf } from '../../geometry/piece.ts';
import type { Loop } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { formMarks } from '../../model/formed.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { PictureItem } from '../../model/picture.ts';
import type { HoleGroup } from '../sizes/hole-patterns.ts';
import type { Fitting } from './dimensioned-blank.ts';
import { CENTRE, EDGE, FOLDS, HOLE, ROLL } from './line-types.ts';
import { line } from './strokes.ts';

/** How far the cross of a hole reaches beyond its rim, mm. */
const CROSS_MM = 1.2;

/** The blank itself: its edges, its holes with their middles, and where it is folded or rolled. */
export const shapeItems = (flat: FlatPattern, fitting: Fitting): PictureItem[] => [
  { kind: 'area', rims: [fittedPieces(flat.outline, fitting)], stroke: EDGE },
  ...flat.cutouts.flatMap((hole): PictureItem[] => {
    if (hole.kind === 'loop')
      return [{ kind: 'area', rims: [fittedPieces(hole.loop, fitting)], stroke: HOLE }];
    const [centre, radiusMm] = [fitting.at(hole.centre), (hole.diameterMm / 2) * fitting.scale];
    return [
      { kind: 'round', centre, radiusMm, stroke: HOLE },
      ...crossItems(centre, radiusMm + CROSS_MM),
    ];
  }),
  ...flat.bends.map(({ centreLine: [from, to], direction }) =>
    line(fitting.at(from), fitting.at(to), FOLDS[direction]),
  ),
  ...formMarks(flat).map(({ from, to }) => line(fitting.at(from), fitting.at(to), ROLL)),
];

/** Pitch circles, with their middles. */
export const pitchCircleItems = (
  groups: readonly HoleGroup[],
  { at, scale }: Fitting,
): PictureItem[] =>
  groups.flatMap(({ pattern, at: middle }): PictureItem[] =>
    pattern?.kind !== 'circle'
      ? []
      : [
          {
            kind: 'round',
            centre: at(middle),
            radiusMm: (pattern.diameterMm / 2) * scale,
            stroke: CENTRE,
          },
          ...crossItems(at(middle), 2 * CROSS_MM),
        ],
  );

const crossItems = ([x, y]: Vec2, reach: number): PictureItem[] => [
  line([x - reach, y], [x + reach, y], CENTRE),
  line([x, y - reach], [x, y + reach], CENTRE),
];

const fittedPieces = (loop: Loop, { at }: Fitting) =>
  piecesOf(loop).map(({ from, to, bulge }) => ({ from: at(from), to: at(to), bulge }));
