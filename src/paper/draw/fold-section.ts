import { tanDeg } from '../../geometry/degrees.ts';
import { type Extents, pointExtents } from '../../geometry/extents.ts';
import { along, distance, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import type { MachinePart } from '../../plan/machines/section.ts';
import { figure } from '../../text/figures.ts';
import type { Camera } from './camera.ts';
import { arrow } from './dimension-line.ts';
import type { CellSize } from './fold-cells.ts';
import { labelled, type Named } from './fold-labels.ts';
import type { FoldScene } from './fold-scene.ts';
import type { Line2 } from './ground.ts';
import { LEAST_LINE_MM } from './line-types.ts';
import { meshSection } from './mesh-section.ts';
import { scaleToFill } from './scales.ts';
import { line, ring } from './strokes.ts';
import { visibleEdges } from './visible-edges.ts';

/** Along the machine from its left end, as the section is drawn. */
const ALONG: Camera = { right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1] };

const BEHIND: Stroke = { widthMm: LEAST_LINE_MM, shade: 0.45 };
const OUTLINE: Stroke = { widthMm: 0.2 };
const TOOL: Stroke = { widthMm: LEAST_LINE_MM, shade: 0.5 };
const SHADES = { held: 0, swung: 1, bend: 0.6, inTheWay: 0.6 } as const;
const THIN: Stroke = { widthMm: 0.2 };

/** What of a machine is always shown round its fold, in its own coordinates. */
const TOOLS: readonly Vec2[] = [
  [-45, -20],
  [45, 60],
];
/** Level sheet farther behind the fold than this is cut off, mm. */
const BEHIND_MM = 110;
const MARGIN_MM = 5;
/** Room for the dimensions of the check. */
const DIMENSION_MM = 14;

/** How a section stands on the paper: the same before a stroke, after it and at its check. */
export interface SectionFrame {
  readonly scale: number;
  readonly place: (p: Vec2) => Vec2;
  readonly size: CellSize;
}

export const sectionFrame = (scene: FoldScene, size: CellSize): SectionFrame => {
  const parts = [scene.before, scene.after, scene.checked].flatMap(({ points }) =>
    points.map(([x, y]): Vec2 => [Math.max(x, -BEHIND_MM), y]),
  );
  const box = pointExtents([...parts, ...TOOLS]) as Extents;
  const room = size.widthMm < 50 ? MARGIN_MM : DIMENSION_MM;
  const scale = scaleToFill(
    [box.maxX - box.minX, box.maxY - box.minY],
    [size.widthMm - MARGIN_MM - room, size.heightMm - MARGIN_MM - room],
  );
  const middle: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  return {
    scale,
    size,
    place: ([x, y]) => [
      size.widthMm / 2 + (x - middle[0]) * scale - (room - MARGIN_MM) / 2,
      size.heightMm / 2 + (y - middle[1]) * scale + (room - MARGIN_MM) / 2,
    ],
  };
};

/** The machine's section with the part in it, before the stroke or where it stops. */
export const sectionItems = (
  scene: FoldScene,
  when: 'before' | 'after',
  frame: SectionFrame,
  isLabelled: boolean,
): PictureItem[] => {
  const mesh = when === 'before' ? scene.before : scene.after;
  const machine = when === 'before' ? scene.machineBefore : scene.machineAfter;
  const tools = machine.flatMap((part) => machineItems(part, scene.stopDeg, frame));
  const { items, lines } = sheetItems(scene, mesh, frame);
  if (!isLabelled) return [...tools, ...items];
  const swing = when === 'after' && scene.isFolder ? swingArrow(scene, frame) : [];
  const names = [
    ...(when === 'before' ? gapName(scene, frame) : stopName(scene, frame)),
    ...machine.flatMap((part) => machineName(part, frame)),
    ...hangingNames(scene, mesh, frame),
  ];
  return [...tools, ...items, ...swing, ...labelled(names, boundsOf(frame), lines, swing)];
};

export const boundsOf = ({ size }: SectionFrame): Extents => ({
  minX: 1,
  minY: 1,
  maxX: size.widthMm - 1,
  maxY: size.heightMm - 1,
});

const machineItems = (
  { name, pieces }: MachinePart,
  stopDeg: number,
  { place }: SectionFrame,
): PictureItem[] =>
  (name === 'die' ? vDie(pieces, stopDeg) : pieces).map((piece) => ({
    kind: 'area',
    rims: [ring(piece.map(place))],
    fill: name === 'packers' ? 0.6 : name === 'leaf' ? 0.78 : 0.88,
    stroke: TOOL,
  }));

/**
 * The two shoulders of a die as the search for contact has them, joined by the V between them: as steep
 * as the bend asks, and no wider than the usual 88 degrees.
 */
const vDie = (pieces: MachinePart['pieces'], stopDeg: number): MachinePart['pieces'] => {
  const [left, right, ...rest] = pieces;
  if (left === undefined || right === undefined) return pieces;
  const [lx, ly] = [Math.max(...left.map((p) => p[0])), Math.max(...left.map((p) => p[1]))];
  const rx = Math.min(...right.map((p) => p[0]));
  const low = Math.min(...left.map((p) => p[1]));
  const half = (rx - lx) / 2;
  const halfDeg = Math.max(15, Math.min(44, (178 - stopDeg) / 2));
  const tip: Vec2 = [(lx + rx) / 2, Math.max(low + 3, ly - half / tanDeg(halfDeg))];
  const outer = [Math.min(...left.map((p) => p[0])), Math.max(...right.map((p) => p[0]))] as const;
  return [
    [[outer[0], ly], [lx, ly], tip, [rx, ly], [outer[1], ly], [outer[1], low], [outer[0], low]],
    ...rest,
  ];
};

/** The part: what is seen of it from the left end, thin, and what the section cuts, filled. */
export const sheetItems = (
  scene: FoldScene,
  mesh: Mesh,
  { place }: SectionFrame,
): { readonly items: PictureItem[]; readonly lines: Line2[] } => {
  const [[a, b]] = scene.foldLines as unknown as readonly [readonly [Vec3, Vec3]];
  const z = (a[2] + b[2]) / 2 + OFF_SEAM_MM;
  const { cut, lines } = meshSection(mesh, z);
  const role = (of: string, kind: 'panel' | 'bend'): keyof typeof SHADES => {
    if (of === scene.inTheWay) return 'inTheWay';
    if (kind === 'bend') return 'bend';
    return scene.swung.has(of) ? 'swung' : 'held';
  };
  const behind = visibleEdges(mesh, ALONG).edges.filter((e) => e.kind !== 'bend');
  const drawn = lines.map(({ line: [p, q] }): Line2 => [place(p), place(q)]);
  return {
    items: [
      ...behind.map(({ from, to }) =>
        line(place([from[0], from[1]]), place([to[0], to[1]]), BEHIND),
      ),
      ...cut.map(({ of, kind, slice }): PictureItem => ({
        kind: 'area',
        rims: [ring(slice.map(place))],
        fill: SHADES[role(of, kind)],
      })),
      ...drawn.map((l) => line(...l, OUTLINE)),
    ],
    lines: drawn,
  };
};

/** Off the middle by this, mm, so that no seam of triangles lies in the plane. */
const OFF_SEAM_MM = 0.0137;

const NAMES: Readonly<Record<MachinePart['name'], string>> = {
  beam: 'beam',
  fingers: 'fingers',
  clamp: 'clamp beam',
  bed: 'bed',
  leaf: 'leaf',
  ram: 'ram',
  punch: 'punch',
  die: 'die',
  block: 'block',
  bar: 'straight bar',
  packers: 'packers',
};

/** In the middle of what is seen of the largest of its pieces. */
const machineName = ({ name, pieces }: MachinePart, frame: SectionFrame): Named[] => {
  const { widthMm, heightMm } = frame.size;
  const seen = pieces
    .map((piece) => pointExtents(piece.map(frame.place)) as Extents)
    .map((b) => ({
      minX: Math.max(1, b.minX),
      maxX: Math.min(widthMm - 1, b.maxX),
      minY: Math.max(1, b.minY),
      maxY: Math.min(heightMm - 1, b.maxY),
    }))
    .filter((b) => b.maxX - b.minX > 1 && b.maxY - b.minY > 1)
    .toSorted(
      (a, b) => (b.maxX - b.minX) * (b.maxY - b.minY) - (a.maxX - a.minX) * (a.maxY - a.minY),
    );
  return seen.length === 0
    ? []
    : [
        {
          text: name === 'packers' ? `packers ${heightOf(pieces)}` : NAMES[name],
          at: seen.flatMap((b): Vec2[] => [
            [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2],
            [b.minX + (b.maxX - b.minX) / 4, b.minY + (b.maxY - b.minY) / 4],
          ]),
          isOn: name !== 'packers',
        },
      ];
};

const heightOf = (pieces: MachinePart['pieces']): string => {
  const { minY, maxY } = pointExtents(pieces.flat()) as Extents;
  return `${figure(maxY - minY)} mm`;
};

/** What hangs off the machine's end, which the section looks past. */
const hangingNames = ({ end }: FoldScene, mesh: Mesh, { place }: SectionFrame): Named[] =>
  (end?.panels ?? []).flatMap((panel): Named[] => {
    const own = mesh.triangles
      .filter(({ face }) => mesh.faces[face]?.kind === 'panel' && mesh.faces[face].of === panel)
      .flatMap(({ corners }) => corners.map((c) => mesh.points[c] as Vec3));
    if (own.length === 0) return [];
    const { minX, maxX, minY, maxY } = pointExtents(own.map(([x, y]): Vec2 => [x, y])) as Extents;
    return [
      {
        text: `${panel} hangs outside the end`,
        at: [place([(minX + maxX) / 2, (minY + maxY) / 2])],
        isOn: false,
      },
    ];
  });

/** The gap between the front of the nose and the edge of the leaf, at the hinge. */
const gapName = ({ step, print }: FoldScene, { place }: SectionFrame): Named[] => {
  const nose = step?.nose;
  if (nose === null || nose === undefined) return [];
  return [
    {
      text: `nose gap ${print.machine(Math.max(0, nose.gapMm), 1)}`,
      at: [place([0, 0])],
      isOn: false,
    },
  ];
};

const stopName = ({ isFolder, stopDeg }: FoldScene, { place }: SectionFrame): Named[] =>
  isFolder ? [] : [{ text: `stop at ${figure(stopDeg, 1)}°`, at: [place([0, 0])], isOn: false }];

/** A swing of less than this shows no arc. */
const LEAST_SWING_DEG = 5;

/** From where the leaf lies to where it stops, about the hinge. */
const swingArrow = (scene: FoldScene, { place, scale }: SectionFrame): PictureItem[] => {
  const hinge = place([0, 0]);
  const reach = Math.max(...scene.after.points.map(([x, y]) => Math.hypot(x, y))) * scale;
  const radius = Math.max(10, Math.min(22, 0.75 * reach));
  const { startDeg, stopDeg } = scene;
  if (stopDeg - startDeg < LEAST_SWING_DEG) return [];
  const at = (deg: number): Vec2 =>
    along(hinge, [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)], radius);
  const [from, to] = [at(startDeg), at(stopDeg)];
  const turn = ((stopDeg - startDeg) * Math.PI) / 180;
  const head = at(stopDeg - (180 / Math.PI) * (3 / radius));
  const middle = at((startDeg + stopDeg) / 2);
  const text: Named = {
    text: `${figure(stopDeg, 1)}°`,
    at: [along(middle, unit(sub(middle, hinge)), 5)],
    isOn: true,
  };
  const arc: PictureItem = {
    kind: 'curve',
    pieces: [{ from, to, bulge: Math.tan(turn / 4) }],
    stroke: { ...THIN, widthMm: 0.45 },
  };
  return [
    arc,
    ...(distance(head, to) > 0.1 ? [arrow(to, unit(sub(to, head)), -1)] : []),
    ...labelled([text], { minX: -1e3, minY: -1e3, maxX: 1e3, maxY: 1e3 }, []),
  ];
};
