import { type Arc, arcOf } from '../geometry/arc.ts';
import { movePoint } from '../geometry/motion2.ts';
import type { Loop } from '../geometry/loop.ts';
import { type Piece, pieceOf, piecesOf, pointOn } from '../geometry/piece.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Panel, Part } from '../model/part.ts';
import type { AskedMeasure } from '../contract/asked.ts';
import { type AskedHole, datumsOf, sizesOf } from './asked-holes.ts';
import { centroidOf } from './centroid.ts';
import { contourOf } from './contours.ts';
import { fromLine } from './ideal.ts';
import {
  cornersOf,
  isSteady,
  type PanelLine,
  placementOf,
  SAME_BLANK_POINT_MM,
  widthsOf,
} from './panel-lines.ts';
import { PARALLEL_SINE } from '../geometry/tolerance.ts';

/** Widths, radii or diameter, and slants of a panel, and the places of its holes. */
export const ofPanel = (
  part: Part,
  flat: FlatPattern,
  panel: Panel,
  lines: readonly PanelLine[],
  all: readonly AskedHole[],
): AskedMeasure[] => {
  const holes = all.filter((h) => h.panel === panel.id);
  const placement = placementOf(flat, panel);
  const around = contourOf(panel.outline).circle;
  const whole =
    part.folds.length === 0
      ? {
          name: 'the middle of the part',
          centre: centroidOf(panel.outline),
          middle: { kind: 'centre', panel: panel.id, of: -1 } as const,
        }
      : undefined;
  return [
    ...widthsOf(panel, lines),
    ...(around === undefined
      ? // The ends of a rolled wall are curves, whose points are measured when it is rolled up.
        [
          ...radiiOf(flat, panel),
          ...(part.rolled?.panel === panel.id ? [] : slantsOf(flat, panel, lines)),
        ]
      : [
          {
            name: `diameter of ${panel.id}`,
            askedMm: 2 * around.radius,
            between: [{ kind: 'diameter', of: -1 } as const],
          },
        ]),
    ...holes.flatMap((hole, i) => {
      const before = holes[i - 1];
      return [
        ...sizesOf(hole, placement),
        ...datumsOf(hole, lines, before === undefined ? whole : before),
      ];
    }),
  ];
};

/**
 * Bulge of an arc of 40 degrees; in a shorter arc the rounding of its ends outweighs its radius.
 */
const LEAST_ROUND = 0.175;

/** Radii of a panel's round edges, as far as they are left on the blank. */
const radiiOf = (flat: FlatPattern, panel: Panel): AskedMeasure[] =>
  panel.outline.flatMap((v, edge): AskedMeasure[] => {
    if (Math.abs(v.bulge) < LEAST_ROUND) return [];
    const p = pieceOf(panel.outline, edge);
    const { centre, radius } = arcOf(p.from, p.to, p.bulge);
    const at = movePoint(placementOf(flat, panel), centre);
    const cut = piecesOf(flat.outline).find(
      (q) =>
        q.bulge * v.bulge > 0 &&
        Math.abs(q.bulge) > LEAST_ROUND &&
        distance(arcOf(q.from, q.to, q.bulge).centre, at) < SAME_BLANK_POINT_MM,
    );
    return cut === undefined
      ? []
      : [
          {
            name: `radius ${edge + 1} of ${panel.id}`,
            askedMm: radius,
            between: [{ kind: 'radius', of: -1, at: pointOn(cut, 0.5) }],
          },
        ];
  });

/** Whether an arc of an outline runs on in a point where another one ends: it is no corner. */
const isOnArc = (outline: Loop, [x, y]: Vec2): boolean => {
  const k = outline.findIndex((v) => v.x === x && v.y === y);
  const [before, after] = [(k + outline.length - 1) % outline.length, k].map((i) =>
    pieceOf(outline, i),
  ) as [Piece, Piece];
  if (before.bulge * after.bulge <= 0) return false;
  const [a, b] = [before, after].map((p) => arcOf(p.from, p.to, p.bulge)) as [Arc, Arc];
  return distance(a.centre, b.centre) < SAME_BLANK_POINT_MM;
};

/**
 * Distances of corners beside an edge that is parallel to no other; each is measured from the fold,
 * or from an edge.
 */
const slantsOf = (flat: FlatPattern, panel: Panel, lines: readonly PanelLine[]): AskedMeasure[] => {
  const base = lines.find((l) => l.fold !== undefined) ?? lines[0];
  if (base === undefined) return [];
  const square = (a: PanelLine): boolean =>
    lines.some(
      (b) => b !== a && Math.abs(a.dir[0] * b.dir[1] - a.dir[1] * b.dir[0]) < PARALLEL_SINE,
    );
  if (lines.every(square)) return [];
  return cornersOf(flat, panel).flatMap(({ own, at }, i): AskedMeasure[] => {
    const askedMm = fromLine(own, base);
    if (askedMm < 0.1 || !isSteady(base, own) || isOnArc(panel.outline, own)) return [];
    return [
      {
        name: `corner ${i + 1} of ${panel.id} from ${base.fold === undefined ? 'its first edge' : `fold ${base.fold}`}`,
        askedMm,
        between: [{ kind: 'corner', panel: panel.id, at }, base.place],
      },
    ];
  });
};
