import type { Piece } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import type { Curve, Picture, Stroke } from '../../model/picture.ts';
import type { Camera } from './camera.ts';
import { LEAST_LINE_MM } from './line-types.ts';
import { bestCamera, boxOf } from './view-direction.ts';
import { viewLabels } from './view-labels.ts';
import { besideMm, sizeCorners, sizeLines } from './view-sizes.ts';
import { type VisibleEdge, visibleEdges } from './visible-edges.ts';
import { scaleToFill } from './scales.ts';

export interface ViewOptions {
  /** The box that the picture fills. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** Where it is looked at from; from where most is seen, when left out. */
  readonly camera?: Camera;
  /** What is to be written at folds and panels that are seen, by their names. */
  readonly labels?: ReadonlyMap<string, string>;
  /**
   * Overall sizes in the directions of x, y and z, in words of their own; not drawn when left out.
   */
  readonly sizes?: readonly [x: string, y: string, z: string];
}

/** How things stand on the paper: what is seen at a point is drawn there, `scale` to one. */
export interface Placing {
  readonly scale: number;
  readonly at: (p: Vec3) => Vec2;
}

/** Room round the part for its sizes, and for labels, mm. */
const SIZES_ROOM_MM = 15;
const LABELS_ROOM_MM = 8;
const BARE_ROOM_MM = 1;

/**
 * The folded part as a drawing in parallel projection: edges that are seen heavy, lines where bends
 * begin thin, hidden lines left out.
 */
export const foldedView = (mesh: Mesh, options: ViewOptions): Picture => {
  const camera = options.camera ?? bestCamera(mesh);
  const view = visibleEdges(mesh, camera);
  const corners = options.sizes === undefined ? undefined : sizeCorners(boxOf(mesh.points), camera);
  const placing = placingOf(
    [
      ...view.edges.flatMap((e) => [e.from, e.to]),
      ...(corners === undefined
        ? []
        : [corners.near, corners.alongX, corners.alongY, corners.foot, corners.top]),
    ],
    options,
  );
  const heavyMm = heavyLine(mesh, placing.scale);
  const sizes =
    corners === undefined || options.sizes === undefined
      ? []
      : sizeLines(corners, placing, options.sizes);
  const lines = viewLines(view.edges, placing, heavyMm);
  const labels =
    options.labels === undefined
      ? []
      : viewLabels(mesh, camera, view, placing, options.labels, sizes, options);
  return {
    widthMm: options.widthMm,
    heightMm: options.heightMm,
    items: [...lines, ...sizes, ...labels],
  };
};

/** The lines of a view, thin ones first. */
export const viewLines = (
  edges: readonly VisibleEdge[],
  placing: Placing,
  heavyMm: number,
): Curve[] =>
  KINDS.flatMap((kind) =>
    curves(
      edges.filter((e) => e.kind === kind),
      placing,
      strokeOf(kind, heavyMm),
    ),
  );

const KINDS = ['bend', 'edge', 'contour'] as const;

const strokeOf = (kind: VisibleEdge['kind'], heavyMm: number): Stroke => {
  if (kind === 'bend') return { widthMm: LEAST_LINE_MM, shade: 0.35 };
  return { widthMm: kind === 'contour' ? heavyMm * 1.25 : heavyMm };
};

/** Lines no heavier than leaves the thickness of the sheet to be seen between them. */
export const heavyLine = ({ points }: Mesh, scale: number): number => {
  const [p, q] = [points[0], points[1]];
  const thicknessMm =
    p === undefined || q === undefined ? 1 : Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  return Math.min(0.35, Math.max(LEAST_LINE_MM, 0.35 * thicknessMm * scale));
};

const placingOf = (
  points: readonly Vec3[],
  { widthMm, heightMm, sizes, labels }: ViewOptions,
): Placing => {
  const room =
    sizes !== undefined ? SIZES_ROOM_MM : labels !== undefined ? LABELS_ROOM_MM : BARE_ROOM_MM;
  // The height may be written beside its line, level.
  const aside = sizes === undefined ? room : Math.max(room, besideMm(sizes[2]));
  const [low, high] = boxOf(points);
  const scale = scaleToFill(
    [high[0] - low[0], high[1] - low[1]],
    [widthMm - 2 * aside, heightMm - 2 * room],
  );
  const [dx, dy] = [
    widthMm / 2 - (scale * (low[0] + high[0])) / 2,
    heightMm / 2 - (scale * (low[1] + high[1])) / 2,
  ];
  return { scale, at: ([x, y]) => [scale * x + dx, scale * y + dy] };
};

/** Points nearer to each other than this on paper, mm, are one. */
const JOIN_MM = 1e-3;

/** Edges as few curves as can be, so that a pen goes round them without lifting. */
const curves = (edges: readonly VisibleEdge[], { at }: Placing, stroke: Stroke): Curve[] => {
  const pieces = edges.map((e): Piece => ({ from: at(e.from), to: at(e.to), bulge: 0 }));
  const key = ([x, y]: Vec2): string => `${Math.round(x / JOIN_MM)} ${Math.round(y / JOIN_MM)}`;
  const touching = new Map<string, number[]>();
  pieces.forEach((p, i) => {
    for (const end of [key(p.from), key(p.to)])
      touching.set(end, [...(touching.get(end) ?? []), i]);
  });
  const used = new Set<number>();
  const runFrom = (start: Vec2): Piece[] => {
    const run: Piece[] = [];
    for (let end = start; ;) {
      const next = touching.get(key(end))?.find((i) => !used.has(i));
      if (next === undefined) return run;
      used.add(next);
      const { from, to } = pieces[next] as Piece;
      const piece =
        key(from) === key(end) ? { from: end, to, bulge: 0 } : { from: end, to: from, bulge: 0 };
      run.push(piece);
      end = piece.to;
    }
  };
  return pieces.flatMap((piece, i): Curve[] => {
    if (used.has(i)) return [];
    used.add(i);
    const forward = runFrom(piece.to);
    const back = runFrom(piece.from)
      .map(({ from, to }): Piece => ({ from: to, to: from, bulge: 0 }))
      .toReversed();
    return [{ kind: 'curve', pieces: [...back, piece, ...forward], stroke }];
  });
};
