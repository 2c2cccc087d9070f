import { pointExtents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Area, Curve, Picture, Stroke } from '../../model/picture.ts';
import type { Shape, ShapeRole, StepPicture } from './fold-step.ts';
import { boxRing, ring } from './strokes.ts';
import { scaleToFill } from './scales.ts';

export interface CellSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Told apart by shade and line, so that they read in black and white. */
const STYLES: Readonly<Record<ShapeRole, { readonly fill?: number; readonly stroke: Stroke }>> = {
  machine: { fill: 0.85, stroke: { widthMm: 0.15, shade: 0.5 } },
  held: { fill: 0, stroke: { widthMm: 0.5 } },
  swung: { fill: 1, stroke: { widthMm: 0.5 } },
  'in-the-way': { fill: 0.6, stroke: { widthMm: 0.3, shade: 0.4 } },
  broadside: { stroke: { widthMm: 0.25, dashMm: [1, 0.6] } },
  face: { fill: 1, stroke: { widthMm: 0.2 } },
  'swung-face': { fill: 0.91, stroke: { widthMm: 0.2 } },
  'fold-line': { stroke: { widthMm: 0.9, dashMm: [2.5, 1.2] } },
};

const FRAME: Stroke = { widthMm: 0.15, shade: 0.5 };
const MARGIN_MM = 4;
/** What of a machine is always shown round its fold, in its own coordinates. */
const TOOLS: readonly Vec2[] = [
  [-45, -20],
  [45, 60],
];

/**
 * The section before a stroke, the one after it, and the part in view: three framed pictures of one
 * size, not to scale.
 */
export const stepCells = (
  { before, after, view }: StepPicture,
  size: CellSize,
): readonly [before: Picture, after: Picture, view: Picture] => [
  cell(before, true, size),
  cell(after, true, size),
  cell(view, false, size),
];

/** Sections show the part and what of the machine is near it; views show all of it. */
const cell = (
  shapes: readonly Shape[],
  isSection: boolean,
  { widthMm, heightMm }: CellSize,
): Picture => {
  const near = shapes.filter((s) => s.role !== 'machine').flatMap((s) => s.points);
  const box = pointExtents(isSection ? [...near, ...TOOLS] : near) ?? {
    minX: 0,
    minY: 0,
    maxX: 1,
    maxY: 1,
  };
  const scale = scaleToFill(
    [box.maxX - box.minX, box.maxY - box.minY],
    [widthMm - MARGIN_MM, heightMm - MARGIN_MM],
  );
  const middle: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  const place = ([x, y]: Vec2): Vec2 => [
    widthMm / 2 + (x - middle[0]) * scale,
    heightMm / 2 + (y - middle[1]) * scale,
  ];
  const frame = { minX: 0, minY: 0, maxX: widthMm, maxY: heightMm };
  return {
    widthMm,
    heightMm,
    items: [
      { kind: 'group', at: [0, 0], clip: frame, items: shapes.map((shape) => drawn(shape, place)) },
      { kind: 'area', rims: [boxRing(frame)], stroke: FRAME },
    ],
  };
};

const drawn = ({ role, points }: Shape, place: (p: Vec2) => Vec2): Area | Curve => {
  const at = ring(points.map(place));
  if (role === 'fold-line')
    return { kind: 'curve', pieces: at.slice(0, -1), stroke: STYLES[role].stroke };
  return { kind: 'area', rims: [at], ...STYLES[role] };
};
