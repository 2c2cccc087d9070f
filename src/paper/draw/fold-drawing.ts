import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Mesh } from '../../model/mesh.ts';
import { type SheetName, SHEETS, type SheetOfPaper } from '../../model/paper.ts';
import type { Picture, PictureItem, Stroke } from '../../model/picture.ts';
import type { Datum } from '../sizes/datum.ts';
import { blankPages, type ListedMeasure } from './blank-page.ts';
import { seen } from './camera.ts';
import type { DrawingHead } from './drawing-head.ts';
import { foldCallouts, type PlacedBend } from './fold-callouts.ts';
import { foldedView } from './folded-view.ts';
import { boxGround, doOverlap } from './ground.ts';
import { EDGE, HIDDEN, NARROW } from './line-types.ts';
import { type OrthoView, type OrthoViews, orthoViews, type Stretch } from './ortho-views.ts';
import { NEVER_ACROSS, placeDimensions, type PlacedView } from './place-dimensions.ts';
import { Placer } from './placer.ts';
import type { SpaceDimension } from './space-dimension.ts';
import { boxRing, line } from './strokes.ts';
import { TITLE_MM, titleBlock } from './title-block.ts';
import { SAME_DIRECTION, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { type DrawingScale, drawingScale } from './scales.ts';

export interface FoldDrawing {
  /** Sizes of the blank in chains; from the datum when left out. */
  readonly isChain?: boolean | undefined;
  /** A4 or A3 where it is left out, as the part is drawn larger. */
  readonly paper?: SheetName | undefined;
  readonly head: DrawingHead;
  readonly mesh: Mesh;
  readonly flat: FlatPattern;
  /** What the sizes of the blank are measured from. */
  readonly datum: Datum;
  readonly bends: readonly PlacedBend[];
  readonly dimensions: readonly SpaceDimension[];
  /** What is to be measured on the finished part, drawn or not. */
  readonly measures: readonly ListedMeasure[];
}

/** A sheet of a drawing, lying (ISO 5457): its size, its frame, and where its title block stands. */
interface Sheet {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly frame: Extents;
  readonly title: Extents;
}

/** A frame 10 mm from the edges of the paper, and 20 mm where it is filed (ISO 5457). */
const sheetOf = (name: string, { widthMm: short, heightMm: long }: SheetOfPaper): Sheet => {
  const frame = { minX: 20, minY: 10, maxX: long - 10, maxY: short - 10 };
  return {
    name,
    widthMm: long,
    heightMm: short,
    frame,
    title: {
      minX: frame.maxX - TITLE_MM.width,
      minY: frame.minY,
      maxX: frame.maxX,
      maxY: frame.minY + TITLE_MM.height,
    },
  };
};

const A4 = sheetOf('A4', SHEETS.a4);
const A3 = sheetOf('A3', SHEETS.a3);

/** Room that each view has round it for dimensions, mm. */
const MARGIN_MM = 22;

/**
 * The drawing by which a folded part is made: on the first page three views in first-angle
 * projection and one in space, with the dimensions that were asked for; on the next the blank with
 * its fold lines, the bends, and all that can be measured on the finished part.
 */
export const foldDrawing = (drawing: FoldDrawing): Picture[] => {
  const views = orthoViews(drawing.mesh, mainDirection(drawing));
  const { sheet, scale } = sheetFor(views, drawing.paper);
  const rest = blankPages(drawing, sheet.frame);
  const pages = 1 + rest.length;
  const page = (items: readonly PictureItem[], i: number, scaleText: string): Picture => ({
    widthMm: sheet.widthMm,
    heightMm: sheet.heightMm,
    items: [
      { kind: 'curve', pieces: boxRing(sheet.frame), stroke: { widthMm: 0.7 } },
      ...items,
      ...titleBlock(
        drawing.head,
        { sheet: `${i + 1} of ${pages}, ${sheet.name}`, scale: scaleText },
        [sheet.frame.maxX, sheet.frame.minY],
      ),
    ],
  });
  return [
    page(viewItems(drawing, views, scale.scale, sheet), 0, scale.text),
    ...rest.map(({ items, scale: own }, i) => page(items, i + 1, own)),
  ];
};

/** The sheet that was asked for, or A4 where the part is drawn as large there as on A3. */
const sheetFor = (
  views: OrthoViews,
  paper: SheetName | undefined,
): { readonly sheet: Sheet; readonly scale: DrawingScale } => {
  if (paper !== undefined) {
    const sheet = sheetOf(paper.toUpperCase(), SHEETS[paper]);
    return { sheet, scale: scaleFor(views, sheet) };
  }
  const [small, large] = [scaleFor(views, A4), scaleFor(views, A3)];
  return small.scale >= large.scale ? { sheet: A4, scale: small } : { sheet: A3, scale: large };
};

/** The direction of the longest folds that lie in the plane of the largest panel. */
const mainDirection = ({ bends, flat }: FoldDrawing): Vec2 => {
  const sums = bends.flatMap(({ id, axis: [x, y, z] }) => {
    const [a, b] = flat.bends.find((bend) => bend.id === id)?.centreLine ?? [
      [0, 0],
      [0, 0],
    ];
    return Math.abs(z) > SAME_DIRECTION
      ? []
      : [{ way: [x, y] as Vec2, long: Math.hypot(b[0] - a[0], b[1] - a[1]) }];
  });
  const longest = (way: Vec2): number =>
    sums.reduce(
      (sum, o) =>
        sum + (Math.abs(way[0] * o.way[1] - way[1] * o.way[0]) < SAME_DIRECTION ? o.long : 0),
      0,
    );
  return sums.reduce(
    (best, { way }) => (longest(way) > longest(best) + SAME_LENGTH_MM ? way : best),
    sums[0]?.way ?? [1, 0],
  );
};

const sizeOf = ({ box }: OrthoView): Vec2 => [box.maxX - box.minX, box.maxY - box.minY];

/**
 * The largest scale at which the views stand beside and under each other with room for dimensions,
 * none on the title block.
 */
const scaleFor = ([front, top, left]: OrthoViews, sheet: Sheet): DrawingScale => {
  const [wide, high] = sizeOf(front);
  const [deep] = sizeOf(left);
  return drawingScale(
    (scale) =>
      scale * (wide + deep) + 4 * MARGIN_MM <= sheet.frame.maxX - sheet.frame.minX &&
      scale * (high + sizeOf(top)[1]) + 4 * MARGIN_MM <= sheet.frame.maxY - sheet.frame.minY &&
      !doOverlap(
        boxGround(placedViews([front, top, left], scale, sheet)[1].box),
        boxGround(sheet.title),
      ),
  );
};

const viewItems = (
  { mesh, bends, dimensions, head }: FoldDrawing,
  views: OrthoViews,
  scale: number,
  sheet: Sheet,
): PictureItem[] => {
  const placer = new Placer(sheet.frame, NEVER_ACROSS);
  const placed = placedViews(views, scale, sheet);
  const space = spaceBox(placed, sheet);
  placer.take(boxGround(sheet.title), ...(space === undefined ? [] : [boxGround(space)]));
  const lines = views.flatMap((view, i) => strokesOf(view, placed[i] as PlacedView, scale, placer));
  const drawn = placeDimensions(dimensions, placed, placer, head.print);
  const callouts = foldCallouts(mesh, bends, placed, placer, head.print);
  return [...lines, ...drawn.items, ...callouts, ...inSpace(mesh, bends, space, head)];
};

/**
 * The front view at the upper left, that from above under it, that from the left on its right:
 * first angle (ISO 5456-2).
 */
const placedViews = (
  views: OrthoViews,
  scale: number,
  { frame }: Sheet,
): readonly [PlacedView, PlacedView, PlacedView] => {
  const [front, top, left] = views;
  const [wide, high] = sizeOf(front).map((v) => v * scale) as [number, number];
  const [deep, over] = [(sizeOf(left)[0] as number) * scale, sizeOf(top)[1] * scale];
  const spareX = Math.max(0, frame.maxX - frame.minX - wide - deep - 4 * MARGIN_MM) / 4;
  const spareY = Math.max(0, frame.maxY - frame.minY - high - over - 4 * MARGIN_MM) / 3;
  const x = frame.minX + MARGIN_MM + spareX / 2;
  const y = frame.maxY - MARGIN_MM - spareY / 2 - high;
  const below = y - 2 * MARGIN_MM - spareY - over;
  const beside = x + wide + 2 * MARGIN_MM + spareX;
  const margin: Vec2 = [MARGIN_MM + spareX / 2, MARGIN_MM + spareY / 2];
  return [
    placeAt(front, [x, y], scale, margin, frame),
    placeAt(top, [x, below], scale, margin, frame),
    placeAt(left, [beside, y], scale, margin, frame),
  ];
};

const placeAt = (
  { camera, box }: OrthoView,
  [x, y]: Vec2,
  scale: number,
  [aside, over]: Vec2,
  frame: Extents,
): PlacedView => {
  const onPaper = (p: Vec2): Vec2 => [x + (p[0] - box.minX) * scale, y + (p[1] - box.minY) * scale];
  const [right, top] = onPaper([box.maxX, box.maxY]);
  return {
    camera,
    at: (p: Vec3) => {
      const [u, v] = seen(camera, p);
      return onPaper([u, v]);
    },
    box: { minX: x, minY: y, maxX: right, maxY: top },
    cell: {
      minX: Math.max(frame.minX + 1, x - aside),
      minY: Math.max(frame.minY + 1, y - over),
      maxX: Math.min(frame.maxX - 1, right + aside),
      maxY: Math.min(frame.maxY - 1, top + over),
    },
  };
};

const strokesOf = (
  view: OrthoView,
  { box: paper }: PlacedView,
  scale: number,
  placer: Placer,
): PictureItem[] => {
  const place = ([u, v]: Vec2): Vec2 => [
    paper.minX + (u - view.box.minX) * scale,
    paper.minY + (v - view.box.minY) * scale,
  ];
  const placed = (all: readonly Stretch[]): Stretch[] =>
    all.map(({ from, to }) => ({ from: place(from), to: place(to) }));
  const [shown, bends, hidden] = [placed(view.seen), placed(view.bends), placed(view.hidden)];
  for (const { from, to } of [...shown, ...bends, ...hidden])
    placer.avoid({ line: [from, to], cost: Infinity });
  const drawn = (all: readonly Stretch[], stroke: Stroke): PictureItem[] =>
    all.map(({ from, to }) => line(from, to, stroke));
  return [...drawn(hidden, HIDDEN), ...drawn(bends, NARROW), ...drawn(shown, EDGE)];
};

/** Narrower or lower than this, mm, the part in space shows nothing. */
const LEAST_SPACE_MM = { width: 60, height: 30 } as const;

/** The room that is left over the title block, beside the view from above and under that from the left. */
const spaceBox = (
  [, top, left]: readonly [PlacedView, PlacedView, PlacedView],
  { title, frame }: Sheet,
): Extents | undefined => {
  const box = {
    minX: Math.max(title.minX, top.box.maxX + MARGIN_MM),
    minY: title.maxY + 2,
    maxX: frame.maxX - 2,
    maxY: left.cell.minY - 2,
  };
  return box.maxX - box.minX < LEAST_SPACE_MM.width || box.maxY - box.minY < LEAST_SPACE_MM.height
    ? undefined
    : box;
};

/** In less height than this, mm, sizes would leave no room for the part itself: the views have them. */
const LEAST_SIZED_MM = 60;

/** The part as it looks, its bends named. */
const inSpace = (
  mesh: Mesh,
  bends: readonly PlacedBend[],
  box: Extents | undefined,
  { sizeMm, print }: DrawingHead,
): PictureItem[] => {
  if (box === undefined) return [];
  const [widthMm, heightMm] = [box.maxX - box.minX, box.maxY - box.minY];
  const labels = new Map(bends.map(({ id }) => [id, id]));
  const sizes = sizeMm.map((v) => print.tape(v, 1)) as unknown as readonly [string, string, string];
  return [
    {
      kind: 'group',
      at: [box.minX, box.minY],
      items: foldedView(mesh, {
        widthMm,
        heightMm,
        labels,
        ...(heightMm >= LEAST_SIZED_MM && { sizes }),
      }).items,
    },
  ];
};
