import { pointExtents } from '../../geometry/extents.ts';
import { SAME_POINT_MM } from '../../geometry/tolerance.ts';
import { sub, unit, distance, type Vec2 } from '../../geometry/vec2.ts';
import { cross3, length3, scale3, type Vec3 } from '../../geometry/vec3.ts';
import type { Mesh, MeshFace } from '../../model/mesh.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import { type Camera, seen } from './camera.ts';
import { arrow } from './dimension-line.ts';
import type { FoldScene } from './fold-scene.ts';
import { labelled, type Named } from './fold-labels.ts';
import type { CellSize } from './fold-cells.ts';
import { moveItems } from './fold-moves.ts';
import type { Line2 } from './ground.ts';
import { LEAST_LINE_MM, strokeFold } from './line-types.ts';
import { scaleToFill } from './scales.ts';
import { line } from './strokes.ts';
import { anchorOf } from './view-labels.ts';
import { type Seen, visibleEdges } from './visible-edges.ts';

/**
 * From the left end of the machine, its front and above, as whoever stands there sees it from the left:
 * the leaf is on the right, as in the sections.
 */
export const FROM_LEFT: Camera = (() => {
  const toward = scale3([0.5, 0.62, 0.6], 1 / length3([0.5, 0.62, 0.6]));
  const level: Vec3 = [toward[2], 0, -toward[0]];
  const right = scale3(level, 1 / length3(level));
  return { right, up: cross3(toward, right), toward };
})();

const EDGE: Stroke = { widthMm: 0.35 };
const CONTOUR: Stroke = { widthMm: 0.5 };
const TANGENT: Stroke = { widthMm: LEAST_LINE_MM };
const HATCH: Stroke = { widthMm: LEAST_LINE_MM, shade: 0.45 };
const THIN: Stroke = { widthMm: 0.2 };
const HATCH_MM = 2.6;
const ZONE_HATCH_MM = 1.1;
/** Room round the part for its names, mm. */
const MARGIN_MM = 9;

/**
 * The part as it lies for a stroke: the held side hatched, the bend zone hatched close the other way,
 * its fold a heavy line, full for UP, broken for DOWN, names of panels and folds, the mark with what it is measured from, and
 * the axis about which it was turned over.
 */
export const layItems = (scene: FoldScene, size: CellSize, isLabelled: boolean): PictureItem[] => {
  const mesh = scene.before;
  const view = visibleEdges(mesh, FROM_LEFT);
  const ends = view.edges.flatMap((e) => [e.from, e.to]);
  const box = pointExtents(ends.map(([x, y]): Vec2 => [x, y])) ?? NO_BOX;
  const margin = isLabelled ? MARGIN_MM : 3;
  const scale = scaleToFill(
    [box.maxX - box.minX, box.maxY - box.minY],
    [size.widthMm - 2 * margin, size.heightMm - 2 * margin],
  );
  const place = ([x, y]: readonly number[]): Vec2 => [
    size.widthMm / 2 + ((x as number) - (box.minX + box.maxX) / 2) * scale,
    size.heightMm / 2 + ((y as number) - (box.minY + box.maxY) / 2) * scale,
  ];
  const isHeld = (f: MeshFace): boolean =>
    f.kind === 'panel' && f.side !== 'rim' && !scene.swung.has(f.of);
  const isZone = (f: MeshFace): boolean =>
    f.kind === 'bend' && f.side !== 'rim' && scene.folds.includes(f.of);
  const hatch = [
    ...hatching(mesh, view, isHeld, [1, 1], HATCH_MM / scale),
    ...hatching(mesh, view, isZone, [1, -1], ZONE_HATCH_MM / scale),
  ].map(([a, b]) => line(place(a), place(b), HATCH));
  const edges = view.edges.map((e): { readonly line: Line2; readonly stroke: Stroke } => ({
    line: [place(e.from), place(e.to)],
    stroke: e.kind === 'bend' ? TANGENT : e.kind === 'edge' ? EDGE : CONTOUR,
  }));
  const drawn = edges.map(({ line: l, stroke }) => line(...l, stroke));
  const fold = foldLines(scene, place).map((l) => line(...l, strokeFold(scene.direction)));
  if (!isLabelled) return [...hatch, ...drawn, ...fold];
  const mark = markItems(scene, (p) => place(seen(FROM_LEFT, p)), size);
  const moves = moveItems(scene, size, [
    ...edges.map((e) => e.line),
    ...linesOf(mark),
    ...foldLines(scene, place),
  ]);
  const names = namesOf(scene, mesh, view, place);
  const bounds = { minX: 1, minY: 1, maxX: size.widthMm - 1, maxY: size.heightMm - 1 };
  return [
    ...hatch,
    ...drawn,
    ...fold,
    ...mark,
    ...moves,
    ...labelled(
      names,
      bounds,
      [...edges.map((e) => e.line), ...foldLines(scene, place)],
      [...mark, ...moves],
    ),
  ];
};

/** The straight lines among items, and those round its filled areas. */
const linesOf = (items: readonly PictureItem[]): Line2[] =>
  items.flatMap((item) =>
    item.kind === 'curve'
      ? item.pieces.map(({ from, to }): Line2 => [from, to])
      : item.kind === 'area'
        ? item.rims.flatMap((rim) => rim.map(({ from, to }): Line2 => [from, to]))
        : [],
  );

const NO_BOX = { minX: 0, minY: 0, maxX: 1, maxY: 1 };

/** Level lines across faces that are seen, hidden stretches taken out. */
const hatching = (
  { points, triangles, faces }: Mesh,
  { occluders }: Seen,
  isHatched: (face: MeshFace) => boolean,
  [u, v]: Vec2,
  step: number,
): (readonly [Vec3, Vec3])[] => {
  const level = ([x, y]: Vec3): number => (u * x + v * y) / Math.SQRT2;
  return triangles.flatMap(({ corners, face }) => {
    if (!isHatched(faces[face] as MeshFace)) return [];
    const at = corners.map((i) => seen(FROM_LEFT, points[i] as Vec3)) as [Vec3, Vec3, Vec3];
    const [a, b, c] = at;
    if ((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]) <= 0) return [];
    const levels = at.map(level);
    const first = Math.ceil(Math.min(...levels) / step);
    const count = Math.max(0, Math.floor(Math.max(...levels) / step) - first + 1);
    return Array.from({ length: count }, (_, k) => (first + k) * step).flatMap((h) => {
      const cut = at.flatMap((p, i): Vec3[] => {
        const q = at[(i + 1) % 3] as Vec3;
        if (level(p) < h === level(q) < h) return [];
        return [between(p, q, (h - level(p)) / (level(q) - level(p)))];
      });
      const [from, to] = cut;
      return from === undefined || to === undefined ? [] : shown(occluders, from, to);
    });
  });
};

const between = (p: Vec3, q: Vec3, t: number): Vec3 => [
  p[0] + t * (q[0] - p[0]),
  p[1] + t * (q[1] - p[1]),
  p[2] + t * (q[2] - p[2]),
];

const shown = (occluders: Seen['occluders'], from: Vec3, to: Vec3): (readonly [Vec3, Vec3])[] => {
  if (distance([from[0], from[1]], [to[0], to[1]]) < SAME_POINT_MM) return [];
  let start = 0;
  const found: (readonly [Vec3, Vec3])[] = [];
  for (const [a, b] of [...occluders.hidden(from, to), [1, 1] as const]) {
    if (a > start) found.push([between(from, to, start), between(from, to, a)]);
    start = b;
  }
  return found;
};

/** The line of the fold on the upper face, over the whole length of the stroke's folds. */
const foldLines = (scene: FoldScene, place: (p: readonly number[]) => Vec2): Line2[] =>
  scene.foldLines.map(([a, b]) => [place(seen(FROM_LEFT, a)), place(seen(FROM_LEFT, b))]);

/** The distance of the mark, drawn on the sheet a third of the fold from its end. */
const markItems = (scene: FoldScene, place: (p: Vec3) => Vec2, size: CellSize): PictureItem[] => {
  const { step } = scene;
  const mark = step?.card.mark;
  if (step === undefined || mark === null || mark === undefined || step.sightLineMm === null)
    return [];
  const [[a, b]] = scene.foldLines as unknown as readonly [readonly [Vec3, Vec3]];
  const shift = scale3([b[0] - a[0], b[1] - a[1], b[2] - a[2]], 0.3);
  const at = (p: Vec2): Vec2 => {
    const [x, y, z] = scene.onSheet(p);
    return place([x + shift[0], y + shift[1], z + shift[2]]);
  };
  const [from, to] = [at(mark.from), at(mark.at)];
  if (distance(from, to) < 1) return [];
  const way = unit(sub(to, from));
  return [
    line(from, to, THIN),
    ...(distance(from, to) < 8 ? [] : [arrow(from, way, 1), arrow(to, way, -1)]),
    ...markText(from, to, scene.print.tape(step.sightLineMm, 1), size),
  ];
};

const markText = (from: Vec2, to: Vec2, text: string, size: CellSize): PictureItem[] => {
  const middle: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return labelled(
    [{ text, at: [middle], isOn: distance(from, to) > 20 }],
    { minX: 1, maxX: size.widthMm - 1, minY: 1, maxY: size.heightMm - 1 },
    [],
  );
};

const namesOf = (
  scene: FoldScene,
  mesh: Mesh,
  view: Seen,
  place: (p: readonly number[]) => Vec2,
): Named[] => {
  const ofs = [...new Set(mesh.faces.map((f) => `${f.kind} ${f.of}`))];
  const named = (kind: MeshFace['kind']): string[] =>
    ofs.filter((o) => o.startsWith(`${kind} `)).map((o) => o.slice(kind.length + 1));
  const clamped = scene.step?.clampedSide;
  const swung = scene.step?.card.swungSide;
  const panelText = (id: string): string =>
    id === clamped
      ? scene.isFolder
        ? `CLAMP ${id}`
        : id
      : id === swung && scene.isFolder
        ? `SWING ${id}`
        : id;
  const anchor = (of: string, text: string, isOn: boolean): Named[] => {
    const found = anchorOf(mesh, FROM_LEFT, view, (name) => name === of);
    return found === undefined ? [] : [{ text, at: [place(found)], isOn }];
  };
  const first = [clamped, swung].filter((id): id is string => id !== undefined);
  const folds = named('bend');
  const others = named('panel').filter((id) => !first.includes(id));
  return [
    ...folds.filter((f) => scene.folds.includes(f)).flatMap((f) => anchor(f, f, false)),
    ...(folds.length > MOST_NAMED ? [] : folds)
      .filter((f) => !scene.folds.includes(f))
      .flatMap((f) => anchor(f, f, false)),
    ...first.flatMap((id) => anchor(id, panelText(id), true)),
    ...(others.length > MOST_NAMED ? [] : others).flatMap((id) => anchor(id, id, true)),
  ];
};

/** More names than these hide the part. */
const MOST_NAMED = 14;
