import { along3, cross3, length3, scale3, sub3, unit3, type Vec3 } from '../geometry/vec3.ts';
import type { Mesh, MeshEdge, MeshFace, MeshTriangle } from '../model/mesh.ts';
import type { BentTube } from './bent-tube.ts';
import { quad } from './quad.ts';

/** A cross-section of a tube: its middle and two directions across, at right angles. */
interface Ring {
  readonly at: Vec3;
  readonly side: Vec3;
  readonly up: Vec3;
  /** What lies between it and the ring before: a straight, or the bend of this number from 1. */
  readonly bend: number | undefined;
  /** Whether a bend begins or ends here. */
  readonly isTangent: boolean;
}

/** No more points than viewers turn smoothly. */
const MOST_POINTS = 150_000;
const LEAST_ROUND = 16;

/** What a mesh shows of a bent tube. */
export type MeshedTube = Pick<BentTube, 'points' | 'diameterMm' | 'wallMm'> & {
  readonly sheet: {
    readonly bends: readonly Pick<
      BentTube['sheet']['bends'][number],
      'angleDeg' | 'radiusMm' | 'setbackMm'
    >[];
  };
};

/**
 * The finished tube as a closed mesh: outside, inside and both ends, without what is left on to be cut
 * off. Chords lie within `chordMm` of the round, or farther where that takes too many points.
 */
export function tubeMesh(tube: MeshedTube, name: string, chordMm: number): Mesh {
  const outside = tube.diameterMm / 2;
  const inside = outside - tube.wallMm;
  const round = Math.max(LEAST_ROUND, 4 * Math.ceil(chordsOf(360, outside, chordMm) / 4));
  const rings = ringsOf(tube, (deg, radius) => chordsOf(deg, radius + outside, chordMm));
  if (2 * round * rings.length > MOST_POINTS && chordMm < tube.diameterMm)
    return tubeMesh(tube, name, 2 * chordMm);
  const ways = rings.flatMap(({ side, up }) =>
    Array.from({ length: round }, (_, k): Vec3 => {
      const turn = (2 * Math.PI * k) / round;
      return along3(scale3(side, Math.cos(turn)), up, Math.sin(turn));
    }),
  );
  const skin = (radius: number): Vec3[] =>
    ways.map((way, i) => along3((rings[Math.floor(i / round)] as Ring).at, way, radius));
  const points = [...skin(outside), ...skin(inside)];
  const first = unit3(cross3(at(ways, 0), at(ways, 1)));
  const lastRing = (rings.length - 1) * round;
  const last = unit3(cross3(at(ways, lastRing), at(ways, lastRing + 1)));
  const normals = [...ways, ...ways.map((way) => scale3(way, -1)), scale3(first, -1), last];
  return meshOf(name, points, normals, rings, round);
}

const at = (ways: readonly Vec3[], i: number): Vec3 => ways[i] as Vec3;

/** So many chords keep within a distance of an arc. */
const chordsOf = (deg: number, radiusMm: number, chordMm: number): number => {
  const step = 2 * Math.acos(Math.max(0, 1 - chordMm / radiusMm));
  return Math.max(1, Math.ceil((deg * Math.PI) / 180 / step));
};

const ringsOf = (
  { points, sheet }: MeshedTube,
  chords: (deg: number, radiusMm: number) => number,
): Ring[] => {
  let way = unit3(sub3(points[1] as Vec3, points[0] as Vec3));
  let side = anyAcross(way);
  let up = cross3(way, side);
  const rings: Ring[] = [{ at: points[0] as Vec3, side, up, bend: undefined, isTangent: false }];
  sheet.bends.forEach(({ angleDeg, radiusMm, setbackMm }, i) => {
    const corner = points[i + 1] as Vec3;
    const next = unit3(sub3(points[i + 2] as Vec3, corner));
    const axis = unit3(cross3(way, next));
    const inward = cross3(axis, way);
    const from = along3(corner, way, -setbackMm);
    const centre = along3(from, inward, radiusMm);
    rings.push({ at: from, side, up, bend: undefined, isTangent: true });
    const steps = chords(angleDeg, radiusMm);
    const [own, upright] = [side, up];
    for (let k = 1; k <= steps; k += 1) {
      const turn = (((angleDeg * Math.PI) / 180) * k) / steps;
      side = turned(own, axis, turn);
      up = turned(upright, axis, turn);
      const place = along3(centre, turned(inward, axis, turn), -radiusMm);
      rings.push({ at: place, side, up, bend: i + 1, isTangent: k === steps });
    }
    way = next;
  });
  rings.push({ at: points.at(-1) as Vec3, side, up, bend: undefined, isTangent: false });
  return rings.filter(
    (ring, i) => i === 0 || length3(sub3(ring.at, (rings[i - 1] as Ring).at)) > 0,
  );
};

/** A vector turned about an axis of length 1 (Rodrigues). */
const turned = (v: Vec3, axis: Vec3, rad: number): Vec3 => {
  const along = v[0] * axis[0] + v[1] * axis[1] + v[2] * axis[2];
  const across = cross3(axis, v);
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  return [0, 1, 2].map(
    (k) => (v[k] as number) * c + (across[k] as number) * s + (axis[k] as number) * along * (1 - c),
  ) as unknown as Vec3;
};

const anyAcross = (way: Vec3): Vec3 =>
  unit3(cross3(Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0], way));

const meshOf = (
  name: string,
  points: readonly Vec3[],
  normals: readonly Vec3[],
  rings: readonly Ring[],
  round: number,
): Mesh => {
  const triangles: MeshTriangle[] = [];
  const edges: MeshEdge[] = [];
  const faces: MeshFace[] = [];
  const faceOf = new Map<string, number>();
  const face = (of: string, kind: MeshFace['kind'], side: MeshFace['side']): number => {
    const key = `${of} ${side}`;
    const known = faceOf.get(key);
    if (known !== undefined) return known;
    faces.push({ of, kind, side });
    faceOf.set(key, faces.length - 1);
    return faces.length - 1;
  };
  const half = rings.length * round;
  const [front, back] = [2 * half, 2 * half + 1];
  /** Index of a point and of its normal. */
  const point = (ring: number, k: number, inner: 0 | 1): number =>
    inner * half + ring * round + (k % round);
  /** Two triangles for each quad, laid in rows: outside, inside, then both ends. */
  const span = rings.length - 1;
  for (const inner of [0, 1] as const)
    for (let r = 0; r < span; r += 1) {
      const bend = rings[r + 1]?.bend;
      const of = face(
        bend === undefined ? 'straight' : String(bend),
        bend === undefined ? 'panel' : 'bend',
        inner === 0 ? 'upper' : 'lower',
      );
      for (let k = 0; k < round; k += 1) {
        const ring = [
          point(r, k, inner),
          point(r, k + 1, inner),
          point(r + 1, k + 1, inner),
          point(r + 1, k, inner),
        ];
        const corners = inner === 0 ? ring : [ring[0], ring[3], ring[2], ring[1]].map(Number);
        triangles.push(...quad(corners, corners, of));
      }
    }
  const ends = face('straight', 'panel', 'rim');
  for (const [ring, normal] of [
    [0, front],
    [span, back],
  ] as const)
    for (let k = 0; k < round; k += 1) {
      const rim = [
        point(ring, k, 0),
        point(ring, k, 1),
        point(ring, k + 1, 1),
        point(ring, k + 1, 0),
      ];
      triangles.push(
        ...quad(ring === 0 ? rim : rim.toReversed(), [normal, normal, normal, normal], ends),
      );
    }
  /** The first triangle along each edge, by its ends. */
  const firstAlong = new Map<number, number>();
  triangles.forEach(({ corners }, triangle) => {
    corners.forEach((from, i) => {
      const to = corners[(i + 1) % 3] as number;
      const kind = edgeKind(rings, round, half, [from, to]);
      if (kind === undefined) return;
      const other = firstAlong.get(to * 2 * half + from);
      if (other === undefined) firstAlong.set(from * 2 * half + to, triangle);
      else edges.push({ ends: [to, from], triangles: [other, triangle], kind });
    });
  });
  return { name, points, normals, triangles, faces, edges };
};

/** What an edge is; nothing for one across a quad, which belongs to one face. */
const edgeKind = (
  rings: readonly Ring[],
  round: number,
  half: number,
  [a, b]: readonly [number, number],
): MeshEdge['kind'] | undefined => {
  const ringOf = (i: number): number => Math.floor((i % half) / round);
  const placeOf = (i: number): number => i % round;
  const [ra, rb] = [ringOf(a), ringOf(b)];
  if (ra === rb) {
    const isRim = ra === 0 || ra === rings.length - 1;
    const isSkin = a < half === b < half;
    if (isRim) return isSkin ? 'sharp' : undefined;
    return rings[ra]?.isTangent === true ? 'tangent' : 'smooth';
  }
  return placeOf(a) === placeOf(b) ? 'smooth' : undefined;
};
