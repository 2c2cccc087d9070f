import { pointExtents, type Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import type { Camera } from './camera.ts';
import type { CellSize } from './fold-cells.ts';
import { LABEL_MM, labelled } from './fold-labels.ts';
import type { FoldScene } from './fold-scene.ts';
import type { Line2 } from './ground.ts';
import { strokeFold } from './line-types.ts';
import { scaleToFill } from './scales.ts';
import { boxRing, line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';
import { visibleEdges } from './visible-edges.ts';

/** From where whoever works stands. */
const FROM_FRONT: Camera = { right: [0, 0, -1], up: [0, 1, 0], toward: [1, 0, 0] };
const PART: Stroke = { widthMm: 0.35 };
const TOOL: Stroke = { widthMm: 0.3 };
/** Of the tools at least so much is shown over the sheet, mm. */
const TOOL_MM = 30;
const MARGIN_MM = 4;

/** The machine from the front: which fingers or tool sections stand where, between what stands up. */
export const frontItems = (scene: FoldScene, size: CellSize): PictureItem[] => {
  const { edges } = visibleEdges(scene.before, FROM_FRONT);
  const part = edges
    .filter((e) => e.kind !== 'bend')
    .map(({ from, to }): readonly [Vec2, Vec2] => [
      [from[0], from[1]],
      [to[0], to[1]],
    ]);
  const toolBox = scene.tools.flatMap(({ from, widthsMm }): Vec2[] => [
    [-from, 0],
    [-from + widthsMm.reduce((s, w) => s + w, 0), TOOL_MM],
  ]);
  const box = pointExtents([...part.flat(), ...toolBox, [0, -8]]) as Extents;
  const scale = scaleToFill(
    [box.maxX - box.minX, box.maxY - box.minY],
    [size.widthMm - 2 * MARGIN_MM, size.heightMm - 2 * MARGIN_MM - 10],
  );
  const place = ([x, y]: Vec2): Vec2 => [
    size.widthMm / 2 + (x - (box.minX + box.maxX) / 2) * scale,
    size.heightMm / 2 - 4 + (y - (box.minY + box.maxY) / 2) * scale,
  ];
  const top = place([0, Math.max(box.maxY, TOOL_MM)])[1];
  const foot = place([0, 0])[1];
  const blocks = scene.tools.flatMap((tool) => blockItems(tool, place, foot, top));
  const bed = bedExtents(scene, place, { minX: 0, maxX: size.widthMm, minY: 0, maxY: foot });
  const lines = part.map(([a, b]): Line2 => [place(a), place(b)]);
  return [
    { kind: 'area', rims: [boxRing(bed)], fill: 0.88 },
    ...blocks.filter((b) => b.kind !== 'label'),
    ...lines.map((l) => line(...l, PART)),
    ...scene.foldLines.map(([a, b]) =>
      line(place([-a[2], 0]), place([-b[2], 0]), strokeFold(scene.direction)),
    ),
    ...widthItems(scene, place, top),
    ...endItems(scene, place, bed, lines, size),
  ];
};

/** The bed from the front: all across, but for a part that hangs off its end. */
const bedExtents = ({ end }: FoldScene, place: (p: Vec2) => Vec2, all: Extents): Extents => {
  if (end === undefined) return all;
  const [x] = place([-end.atMm, 0]);
  return end.isLow ? { ...all, maxX: x } : { ...all, minX: x };
};

/** The end of bed and leaf, and the names of what hangs beyond it. */
const endItems = (
  { end, before }: FoldScene,
  place: (p: Vec2) => Vec2,
  bed: Extents,
  lines: readonly Line2[],
  size: CellSize,
): PictureItem[] => {
  if (end === undefined) return [];
  const x = end.isLow ? bed.maxX : bed.minX;
  const names = end.panels.map((panel) => ({
    text: `${panel} hangs outside`,
    at: [place(middleOf(before, panel))],
    isOn: false,
  }));
  const bounds = { minX: 1, minY: 1, maxX: size.widthMm - 1, maxY: size.heightMm - 1 };
  const atEnd = { text: 'end of bed and leaf', at: [[x, bed.maxY / 2] as Vec2], isOn: false };
  return [line([x, bed.minY], [x, bed.maxY], PART), ...labelled([...names, atEnd], bounds, lines)];
};

/** The middle of a panel as it is seen from the front. */
const middleOf = (mesh: Mesh, panel: string): Vec2 => {
  const own = mesh.triangles
    .filter(({ face }) => mesh.faces[face]?.kind === 'panel' && mesh.faces[face].of === panel)
    .flatMap(({ corners }) => corners.map((c) => mesh.points[c] as Vec3));
  const box = pointExtents(own.map(([, y, z]): Vec2 => [-z, y]));
  return box === undefined ? [0, 0] : [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
};

type Tool = FoldScene['tools'][number];

const blockItems = (
  { from, widthsMm }: Tool,
  place: (p: Vec2) => Vec2,
  foot: number,
  top: number,
): PictureItem[] => {
  let at = -from;
  return widthsMm.map((wide): PictureItem => {
    const [left] = place([at, 0]);
    at += wide;
    const [right] = place([at, 0]);
    return {
      kind: 'area',
      rims: [boxRing({ minX: left, maxX: right, minY: foot, maxY: top })],
      fill: 0.78,
      stroke: TOOL,
    };
  });
};

/** Widths over the blocks, in steps where they are wider than their blocks. */
const widthItems = (
  { tools, print }: FoldScene,
  place: (p: Vec2) => Vec2,
  top: number,
): PictureItem[] => {
  let last = -Infinity;
  let row = 0;
  return tools.flatMap(({ from, widthsMm }): PictureItem[] => {
    const wide = widthsMm.reduce((s, w) => s + w, 0);
    const text = widthsMm.map((w) => print.tape(w, 0)).join(' + ');
    const [x] = place([-from + wide / 2, 0]);
    const half = textWidthMm(text, LABEL_MM, true) / 2;
    row = x - half < last + 1 ? 1 - row : 0;
    last = Math.max(last, x + half);
    return [
      {
        kind: 'label',
        at: [x, top + 1.2 + 4.4 * row],
        sizeMm: LABEL_MM,
        text,
        align: 'middle',
        isBold: true,
      },
    ];
  });
};
