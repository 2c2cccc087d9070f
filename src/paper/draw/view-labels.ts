import { along, distance, dot, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh, MeshFace } from '../../model/mesh.ts';
import type { PictureItem } from '../../model/picture.ts';
import { type Camera, seen } from './camera.ts';
import type { Placing } from './folded-view.ts';
import { textWidthMm } from './text-width.ts';
import type { Seen } from './visible-edges.ts';
import { EXACT_MM, NO_DIRECTION } from '../../geometry/tolerance.ts';

const TEXT_MM = 4.5;
const PAD_MM = 1;
const DOT_MM = 0.5;
const LEADER_PEN_MM = 0.18;

/** How far from what it names a label may stand, mm, and in how many directions it is tried. */
/** Costs of two places that differ by less are equal; the first is taken. */
const EQUAL_COST = 1e-9;
const REACHES = [7, 10, 13, 17, 22, 28];
const DIRECTIONS = 24;

/** What a place costs beside its distance, mm. */
const ON_METAL_MM = 8;
const ON_LINE_MM = 4;
const MOST_LINES = 5;
const IN_THE_WAY_MM = 100;

interface Placed {
  readonly at: Vec2;
  readonly radiusMm: number;
}

/**
 * Names in rings beside the part, each with a line to a place that is seen of the fold or panel it
 * names.
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
  const taken: Placed[] = sizes.flatMap((item) =>
    item.kind === 'label'
      ? [{ at: item.at, radiusMm: textWidthMm(item.text, item.sizeMm, false) / 2 + PAD_MM }]
      : [],
  );
  const anchors = [...labels].flatMap(([of, text]) => {
    const anchor = anchorOf(mesh, camera, view, of);
    return anchor === undefined ? [] : [{ text, at: placing.at(anchor) }];
  });
  const sheet = sheetOf(view, placing, room);
  const dots = anchors.map(({ at }) => ({ at, radiusMm: DOT_MM }));
  return anchors.flatMap(({ text, at }) => {
    const radiusMm = Math.max(0.72 * TEXT_MM, textWidthMm(text, TEXT_MM, true)) / 2 + PAD_MM;
    const place = bestPlace(at, radiusMm, [...taken, ...dots], sheet);
    taken.push({ at: place, radiusMm });
    const end = along(place, unit(sub(at, place)), radiusMm);
    return [
      {
        kind: 'curve',
        pieces: [{ from: at, to: end, bulge: 0 }],
        stroke: { widthMm: LEADER_PEN_MM },
      },
      { kind: 'round', centre: at, radiusMm: DOT_MM, fill: 0 },
      { kind: 'round', centre: place, radiusMm, fill: 1, stroke: { widthMm: LEADER_PEN_MM } },
      {
        kind: 'label',
        at: [place[0], place[1] - 0.36 * TEXT_MM],
        sizeMm: TEXT_MM,
        text,
        align: 'middle',
        isBold: true,
      },
    ] satisfies PictureItem[];
  });
};

/** A point of a fold or a panel that is seen, near the middle of what is seen of it. */
const anchorOf = (
  { points, triangles, faces }: Mesh,
  camera: Camera,
  { occluders }: Seen,
  of: string,
): Vec3 | undefined => {
  const open = triangles.flatMap(({ corners, face }): Vec3[] => {
    const { of: own, side } = faces[face] as MeshFace;
    if (own !== of || side === 'rim') return [];
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

/** What labels are placed by. */
interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lines: readonly (readonly [Vec2, Vec2])[];
  readonly isMetal: (x: number, y: number) => boolean;
}

const sheetOf = (
  { edges, occluders }: Seen,
  placing: Placing,
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
): Sheet => {
  const [ox, oy] = placing.at([0, 0, 0]);
  return {
    widthMm,
    heightMm,
    lines: edges
      .filter((e) => e.kind !== 'bend')
      .map((e) => [placing.at(e.from), placing.at(e.to)] as const),
    isMetal: (x, y) => occluders.covers((x - ox) / placing.scale, (y - oy) / placing.scale),
  };
};

const bestPlace = (from: Vec2, radiusMm: number, taken: readonly Placed[], sheet: Sheet): Vec2 => {
  let best: Vec2 = along(from, [0, 1], REACHES[0] as number);
  let least = Infinity;
  for (const reach of REACHES) {
    for (let k = 0; k < DIRECTIONS; k++) {
      const turn = (2 * Math.PI * (k + 0.5)) / DIRECTIONS;
      const at = along(from, [Math.cos(turn), Math.sin(turn)], reach);
      // The dearest questions are asked last, and only of a place that may still be the best.
      const parts = [
        () => reach + crowding(at, radiusMm, taken, sheet),
        () => metalUnder(at, radiusMm, sheet),
        () => linesUnder(at, radiusMm, sheet),
      ];
      let cost = 0;
      for (const part of parts) if (cost < least) cost += part();
      if (cost < least - EQUAL_COST) [least, best] = [cost, at];
    }
  }
  return best;
};

const crowding = (
  [x, y]: Vec2,
  r: number,
  taken: readonly Placed[],
  { widthMm, heightMm }: Sheet,
): number => {
  const isOutside = x < r || y < r || x > widthMm - r || y > heightMm - r;
  return isOutside || taken.some((t) => distance(t.at, [x, y]) < t.radiusMm + r + PAD_MM)
    ? IN_THE_WAY_MM
    : 0;
};

const metalUnder = ([x, y]: Vec2, r: number, { isMetal }: Sheet): number =>
  (
    [
      [0, 0],
      [r, 0],
      [-r, 0],
      [0, r],
      [0, -r],
    ] as const
  ).filter(([dx, dy]) => isMetal(x + dx, y + dy)).length *
  (ON_METAL_MM / 5);

const linesUnder = ([x, y]: Vec2, r: number, { lines }: Sheet): number => {
  const met = lines.filter(
    ([[px, py], [qx, qy]]) =>
      Math.min(px, qx) < x + r &&
      Math.max(px, qx) > x - r &&
      Math.min(py, qy) < y + r &&
      Math.max(py, qy) > y - r,
  );
  return (
    Math.min(MOST_LINES, met.filter(([p, q]) => distanceTo([x, y], p, q) < r).length) * ON_LINE_MM
  );
};

const distanceTo = (p: Vec2, from: Vec2, to: Vec2): number => {
  const way = sub(to, from);
  const t = dot(sub(p, from), way) / Math.max(dot(way, way), NO_DIRECTION);
  return distance(p, along(from, way, Math.min(1, Math.max(0, t))));
};
