import { along, distance, type Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh, MeshFace } from '../../model/mesh.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import { type Camera, seen } from './camera.ts';
import type { Placing } from './folded-view.ts';
import { discGround, type Line2, textGround } from './ground.ts';
import { rimObstacles } from './name-places.ts';
import { type Batch, type Candidate, type LineCosts, type Obstacle, Placer } from './placer.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';
import type { Seen } from './visible-edges.ts';
import { EXACT_MM } from '../../geometry/tolerance.ts';

const TEXT_MM = 4.5;
const PAD_MM = 1;
const DOT_MM = 0.5;
const LEADER: Stroke = { widthMm: 0.18 };

/** How far from what it names a label may stand, mm, and in how many directions it is tried. */
const REACHES = [7, 10, 13, 17, 22, 28, 35];
const DIRECTIONS = 24;

/**
 * What a place costs beside its distance, mm: on metal, across a line of the part or of a size, and on
 * the dot of another ring.
 */
const ON_METAL_MM = 8;
const ON_LINE_MM = 4;
const ON_SIZE_MM = 5;
const IN_THE_WAY_MM = 100;
const LEADER_COSTS: LineCosts = { across: 12, crossing: 15 };

/**
 * Names in rings beside the part, each with a line to a place that is seen of the fold or panel it
 * names. One that finds no room is left out.
 */
export const viewLabels = (
  mesh: Mesh,
  camera: Camera,
  view: Seen,
  placing: Placing,
  labels: ReadonlyMap<string, string>,
  sizes: readonly PictureItem[],
  room: { readonly widthMm: number; readonly heightMm: number },
): PictureItem[] => {
  const anchors = [...labels].flatMap(([of, text]) => {
    const anchor = anchorOf(mesh, camera, view, (own) => own === of);
    return anchor === undefined ? [] : [{ text, at: placing.at(anchor) }];
  });
  const placer = placerFor(view, placing, sizes, room);
  placer.avoid(...anchors.flatMap(({ at }) => dotObstacles(at)));
  const isMetal = metalOf(view, placing);
  return anchors.flatMap(({ text, at }) => {
    const placed = placer.place(ringPlaces(text, at, isMetal));
    return placed === undefined ? [] : ringItems(text, at, placed);
  });
};

/** The paper with the part and its sizes on it. */
const placerFor = (
  { edges }: Seen,
  placing: Placing,
  sizes: readonly PictureItem[],
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
): Placer => {
  const placer = new Placer({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm }, LEADER_COSTS);
  for (const { kind, from, to } of edges)
    if (kind !== 'bend')
      placer.avoid({ line: [placing.at(from), placing.at(to)], cost: ON_LINE_MM });
  for (const item of sizes) {
    if (item.kind === 'label') placer.take(textGround(item, { aside: PAD_MM, over: PAD_MM / 2 }));
    if (item.kind === 'curve')
      placer.avoid(
        ...item.pieces.map(({ from, to }) => ({ line: [from, to] as const, cost: ON_SIZE_MM })),
      );
  }
  return placer;
};

/** The dot that another ring leads to, with clear paper round it. */
const dotObstacles = (at: Vec2): Obstacle[] => rimObstacles(at, DOT_MM + PAD_MM / 2, IN_THE_WAY_MM);

/** A ring, and the line from it to what it names. */
interface RingPlace extends Candidate {
  readonly centre: Vec2;
  readonly radiusMm: number;
  readonly leader: Line2;
}

/** Places about a point, the nearest first. */
const ringPlaces = (text: string, at: Vec2, isMetal: (p: Vec2) => boolean): Batch<RingPlace>[] => {
  const radiusMm = Math.max(0.72 * TEXT_MM, textWidthMm(text, TEXT_MM, true)) / 2 + PAD_MM;
  const ringPlace = (reach: number, k: number): RingPlace => {
    const turn = (2 * Math.PI * (k + 0.5)) / DIRECTIONS;
    const dir: Vec2 = [Math.cos(turn), Math.sin(turn)];
    const centre = along(at, dir, reach);
    const leader: Line2 = [at, along(centre, dir, -radiusMm)];
    return {
      centre,
      radiusMm,
      leader,
      lines: [leader],
      grounds: [discGround(centre, radiusMm + PAD_MM / 2)],
      cost: reach,
      more: () => metalUnder(centre, radiusMm, isMetal),
    };
  };
  return REACHES.map((reach) => ({
    leastCost: reach,
    places: () => Array.from({ length: DIRECTIONS }, (_, k) => ringPlace(reach, k)),
  }));
};

const ringItems = (
  text: string,
  at: Vec2,
  { centre, radiusMm, leader }: RingPlace,
): PictureItem[] => [
  line(...leader, LEADER),
  { kind: 'round', centre: at, radiusMm: DOT_MM, fill: 0 },
  { kind: 'round', centre, radiusMm, fill: 1, stroke: LEADER },
  {
    kind: 'label',
    at: [centre[0], centre[1] - 0.36 * TEXT_MM],
    sizeMm: TEXT_MM,
    text,
    align: 'middle',
    isBold: true,
  },
];

/** Whether there is metal at a place of the paper, near or far. */
export const metalOf = ({ occluders }: Seen, placing: Placing): ((p: Vec2) => boolean) => {
  const [ox, oy] = placing.at([0, 0, 0]);
  return ([x, y]) => occluders.covers((x - ox) / placing.scale, (y - oy) / placing.scale);
};

/** What the metal under a ring costs, seen at its middle and at four places of its rim. */
const metalUnder = ([x, y]: Vec2, r: number, isMetal: (p: Vec2) => boolean): number =>
  (
    [
      [0, 0],
      [r, 0],
      [-r, 0],
      [0, r],
      [0, -r],
    ] as const
  ).filter(([dx, dy]) => isMetal([x + dx, y + dy])).length *
  (ON_METAL_MM / 5);

/** A point of a fold, a panel or several that is seen, near the middle of what is seen of them. */
export const anchorOf = (
  { points, triangles, faces }: Mesh,
  camera: Camera,
  { occluders }: Seen,
  isOf: (panelOrFold: string) => boolean,
): Vec3 | undefined => {
  const open = triangles.flatMap(({ corners, face }): Vec3[] => {
    const { of: own, side } = faces[face] as MeshFace;
    if (!isOf(own) || side === 'rim') return [];
    const [a, b, c] = corners.map((i) => seen(camera, points[i] as Vec3)) as [Vec3, Vec3, Vec3];
    if ((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]) <= 0) return [];
    return SPOTS.map(([u, v, w]): Vec3 => [
      u * a[0] + v * b[0] + w * c[0],
      u * a[1] + v * b[1] + w * c[1],
      u * a[2] + v * b[2] + w * c[2],
    ]).filter((p) => !occluders.isHidden(p));
  });
  const mean = [0, 1].map(
    (axis) => open.reduce((sum, p) => sum + (p[axis] as number), 0) / open.length,
  ) as unknown as Vec2;
  const far = ([x, y]: Vec3): number => distance([x, y], mean);
  return open.reduce<Vec3 | undefined>(
    (best, p) => (best === undefined || far(p) < far(best) - EXACT_MM ? p : best),
    undefined,
  );
};

/** Points within a triangle, as shares of its corners. */
const SPOTS = [
  [1 / 3, 1 / 3, 1 / 3],
  [0.48, 0.48, 0.04],
  [0.48, 0.04, 0.48],
  [0.04, 0.48, 0.48],
] as const;
