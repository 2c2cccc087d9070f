import {
  along3,
  angleWish,
  assemble,
  clip,
  cross3,
  dot3,
  edge,
  faceOf,
  NOISE_DEG,
  pieceOf,
  polygon,
  roundCorners,
  scale,
  scale3,
  wish,
} from '../../src/template.ts';
import type {
  GivenFold,
  Loop,
  Panel,
  Piece,
  Vec2,
  Vec3,
  Vertex,
  Wish,
} from '../../src/template.ts';
import { type Blanks, letter } from './chains.ts';
import { plateHoles } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { inPlane, type PlacedPanel, plateFrame, point, type Sheet } from './panels.ts';
import { type SeamRoom, type Shape, sideName } from './planes.ts';
import { meetOf, type Plane } from './solid.ts';
import { foldedDeg, footOf, mouldCorners, type TurnedUp, upFlange } from './turned-up.ts';

/** The faces of a tank that may have edges of their own folded. */
export const FACES = ['floor', 'top'] as const;
type Which = (typeof FACES)[number];

/** What flanged and lapped seams take of the room that was measured outside. */
export const seamRoom = ({ seams, seamFlangeMm, gapMm, thicknessMm }: Sheet): SeamRoom => {
  const beyond = (which: Which): number =>
    seams[which] === 'flanged' ? seamFlangeMm - thicknessMm : 0;
  const isLapped = FACES.some((which) => seams[which] === 'lapped');
  return {
    walls: isLapped ? thicknessMm + gapMm : 0,
    floor: beyond('floor'),
    top: beyond('top'),
  };
};

/**
 * Floor or top whose edges are folded: over the outside of the sides, a gap off them, or away from
 * the tank along their inside. Its inside face is where that of a flat one is.
 */
export const seamOf = ({ planes }: Shape, which: Which, sheet: Sheet): TurnedUp => {
  const { thicknessMm, gapMm, seams } = sheet;
  const isLapped = seams[which] === 'lapped';
  return {
    plate: planes[which],
    walls: planes.walls.map(({ normal, atMm }) => ({
      normal,
      atMm: isLapped ? atMm - thicknessMm - gapMm : atMm + gapMm,
    })),
    measure: isLapped ? 'inside' : 'outside',
    way: isLapped ? 1 : -1,
  };
};

/** How high its flanges stand over the face that its measures are taken on. */
const heightMm = ({ measure }: TurnedUp, { seamFlangeMm, thicknessMm }: Sheet): number =>
  measure === 'outside' ? seamFlangeMm : seamFlangeMm - thicknessMm;

/**
 * The plate between its mould lines. One that stands between the sides is rounded at corners at which
 * these are folded, as the inside of their bends is, and its flanges end there.
 */
const seamedPanel = (
  shape: Shape,
  which: Which,
  turned: TurnedUp,
  sheet: Sheet,
  folded: readonly number[],
): PlacedPanel => {
  const frame = plateFrame(shape, which);
  const sharp = mouldCorners(turned, sheet).map((p, i): Vertex => {
    const [x, y] = inPlane(frame, p);
    return { x, y, bulge: 0, edge: sideName(i) };
  });
  const round = turned.way === 1 ? 0 : Math.max(0, sheet.insideRadiusMm - sheet.gapMm);
  const rounded = roundCorners(sharp, folded, round);
  const inside = which === 'floor' ? -sheet.thicknessMm : 0;
  return {
    name: which,
    outline: rounded.ok ? rounded.loop : sharp,
    pose: { ...frame, o: point(frame, [0, 0], inside) },
  };
};

const flangeName = (side: number): string => `${sideName(side)} flange`;

/**
 * A flange of the plate, from its fold on: where the plate has a corner it ends in the line in which it
 * meets the next, and beside a rounded one square to its fold.
 */
const flangeOutline = (
  shape: Shape,
  which: Which,
  turned: TurnedUp,
  sheet: Sheet,
  plate: Loop,
  side: number,
): Loop => {
  const frame = plateFrame(shape, which);
  const index = plate.findIndex((vertex) => vertex.edge === sideName(side));
  const count = shape.low.length;
  const { plate: level, walls, way } = turned;
  const up = upFlange(turned, side);
  const head: Plane = { ...level, atMm: level.atMm + way * heightMm(turned, sheet) };
  const { from, to } = pieceOf(plate, index);
  const corners = mouldCorners(turned, sheet);
  const ends = [
    { at: from, corner: side },
    { at: to, corner: (side + 1) % count },
  ].map(({ at, corner }): readonly [Vec3, Vec3] => {
    const onPlate = point(frame, at);
    const foot = footOf(turned, side, onPlate, sheet);
    const [x, y] = inPlane(frame, corners[corner] as Vec3);
    const isSharp = Math.hypot(x - at[0], y - at[1]) < SHARP_MM;
    const rise = heightMm(turned, sheet) - Math.abs(dot3(level.normal, foot) - level.atMm);
    return [
      foot,
      isSharp
        ? meetOf(walls.at(corner - 1) as Plane, walls[corner] as Plane, head)
        : along3(foot, up, rise / Math.abs(dot3(level.normal, up))),
    ];
  });
  const { normal } = walls[side] as Plane;
  const z = isUp(which, turned) ? normal : scale3(normal, -1);
  const flange = { o: ends[0]?.[0] as Vec3, x: cross3(up, z), y: up, z };
  const [[a, d], [b, c]] = ends
    .map((pair) => pair.map((p) => inPlane(flange, p)))
    .toSorted((one, other) => (one[0]?.[0] ?? 0) - (other[0]?.[0] ?? 0)) as [
    [readonly [number, number], readonly [number, number]],
    [readonly [number, number], readonly [number, number]],
  ];
  return polygon([...a, 'bottom'], [...b, 'right'], [...c, 'top'], [...d, 'left']);
};

/** A corner of the plate that is nearer to that of its mould lines is the same. */
const SHARP_MM = 1e-6;

/** Whether the flanges are folded up as one sees the plate: the floor from inside, the top from outside. */
const isUp = (which: Which, { way }: TurnedUp): boolean => (which === 'floor') === (way === 1);

/** The blank of a flanged or lapped floor or top. */
export const seamedPlate = (
  v: TankPlan,
  { shape, sheet }: Blanks,
  which: Which,
  folded: readonly number[],
): Piece => {
  const turned = seamOf(shape, which, sheet);
  const placed = seamedPanel(shape, which, turned, sheet, folded);
  const sides = shape.low.map((_, side) => side);
  const flanges = sides.map((side): Panel => ({
    id: flangeName(side),
    outline: flangeOutline(shape, which, turned, sheet, placed.outline, side),
    cutouts: [],
  }));
  const direction = isUp(which, turned) ? 'up' : 'down';
  const part = assemble(
    { ...v, measure: turned.measure },
    {
      root: which,
      panels: [
        {
          id: which,
          outline: placed.outline,
          cutouts: plateHoles(v, shape, placed, which).cutouts,
        },
        ...flanges,
      ],
      folds: sides.map((side): GivenFold => ({
        id: letter(side),
        parent: { panel: which, edge: sideName(side) },
        child: { panel: flangeName(side), edge: 'bottom' },
        angleDeg: foldedDeg(turned, side),
        direction,
        insideRadiusMm: v.insideRadiusMm,
      })),
      wishes: sides.flatMap((side): Wish[] => {
        const deg = foldedDeg(turned, side);
        const name = flangeName(side);
        return [
          angleWish(`${which} and ${sideName(side)}`, deg, which, name),
          // Only of one that is square is the width a distance from a face.
          ...(Math.abs(deg - 90) < NOISE_DEG
            ? [
                wish(
                  'seamFlange',
                  v.seamFlange,
                  edge(name, 'up'),
                  faceOf(which, direction, v.measure),
                ),
              ]
            : []),
        ];
      }),
    },
  );
  return {
    id: which,
    part,
    standing: { poses: [placed.pose], turn: which === 'floor' ? 1 : 4 },
  };
};

/** A side without what flanges of floor and top lie on: what is behind it inside the tank. */
export const uncovered = (panel: PlacedPanel, { planes }: Shape, sheet: Sheet): PlacedPanel => ({
  ...panel,
  outline: FACES.reduce<Loop>((loop, which) => {
    if (sheet.seams[which] === 'edge') return loop;
    const { normal, atMm } = planes[which];
    const { o, x, y } = panel.pose;
    const over = sheet.seams[which] === 'lapped' ? sheet.seamFlangeMm - sheet.thicknessMm : 0;
    const into: Vec2 = [dot3(normal, x), dot3(normal, y)];
    const size = Math.hypot(...into);
    const at = (atMm + over - dot3(normal, o)) / size;
    const [kept] = clip(loop, scale(into, 1 / size), at, ([px, py]): Vertex => ({
      x: px,
      y: py,
      bulge: 0,
    }));
    return kept ?? [];
  }, panel.outline),
});
