import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh, MeshEdge, MeshTriangle } from '../../model/mesh.ts';
import { quad } from '../quad.ts';
import type { CopedTube } from './coped-part.ts';

/** No fewer generators than these, so that a cope is seen. */
const LEAST_ROUND = 72;

/** What a mesh has of each surface. */
const FACES = [
  { of: 'tube', kind: 'panel', side: 'upper' },
  { of: 'tube', kind: 'panel', side: 'lower' },
  { of: 'tube', kind: 'panel', side: 'rim' },
] as const;

/**
 * A coped tube as a closed mesh: outside, inside and both ends, its axis along z and the node of its
 * first end at the origin. Chords lie within `chordMm` of the round.
 */
export function copedMesh(tube: CopedTube, name: string, chordMm: number): Mesh {
  const outside = tube.diameterMm / 2;
  const inside = outside - tube.wallMm;
  const step = 2 * Math.acos(Math.max(0, 1 - chordMm / outside));
  const round = Math.max(LEAST_ROUND, 4 * Math.ceil((2 * Math.PI) / step / 4));
  const places = Array.from({ length: round }, (_, k) => (360 * k) / round);
  const ring = (radius: number, alongMm: (radius: number, deg: number) => number): Vec3[] =>
    places.map((deg) => {
      const rad = (deg * Math.PI) / 180;
      return [radius * Math.cos(rad), radius * Math.sin(rad), alongMm(radius, deg)];
    });
  const [start, end] = [tube.startMm, tube.endMm];
  const points = [
    ...ring(outside, start),
    ...ring(outside, end),
    ...ring(inside, start),
    ...ring(inside, end),
  ];
  const ways = ring(1, () => 0);
  const normals: Vec3[] = [
    ...ways,
    ...ways.map(([x, y]): Vec3 => [-x, -y, 0]),
    [0, 0, -1],
    [0, 0, 1],
  ];
  return { name, points, normals, faces: FACES, ...surfaces(round) };
}

/** Triangles between a place and the next one round. */
const PER_PLACE = 8;

/** Rings of points: outside start, outside end, inside start, inside end. */
const RINGS = { outStart: 0, outEnd: 1, inStart: 2, inEnd: 3 } as const;

const surfaces = (round: number): Pick<Mesh, 'triangles' | 'edges'> => {
  const triangles: MeshTriangle[] = [];
  const edges: MeshEdge[] = [];
  const point = (ring: number, k: number): number => ring * round + (k % round);
  /** Adds a face, and gives the number of its first triangle. */
  const added = (...of: Parameters<typeof quad>): number => triangles.push(...quad(...of)) - 2;
  const { outStart, outEnd, inStart, inEnd } = RINGS;
  for (let k = 0; k < round; k += 1) {
    const [n, m] = [k, (k + 1) % round];
    const out = added(
      [point(outStart, k), point(outStart, k + 1), point(outEnd, k + 1), point(outEnd, k)],
      [n, m, m, n],
      0,
    );
    const inner = added(
      [point(inStart, k), point(inEnd, k), point(inEnd, k + 1), point(inStart, k + 1)],
      [round + n, round + n, round + m, round + m],
      1,
    );
    const [down, up] = [2 * round, 2 * round + 1];
    const first = added(
      [point(outStart, k), point(inStart, k), point(inStart, k + 1), point(outStart, k + 1)],
      [down, down, down, down],
      2,
    );
    const last = added(
      [point(outEnd, k), point(outEnd, k + 1), point(inEnd, k + 1), point(inEnd, k)],
      [up, up, up, up],
      2,
    );
    const sharp = (ring: number, one: number, other: number): void => {
      edges.push({
        ends: [point(ring, k), point(ring, k + 1)],
        triangles: [one, other],
        kind: 'sharp',
      });
    };
    sharp(outStart, out, first + 1);
    sharp(outEnd, last, out + 1);
    sharp(inStart, first, inner + 1);
    sharp(inEnd, inner, last + 1);
    const next = PER_PLACE * ((k + 1) % round);
    const smooth = (from: number, to: number, one: number, other: number): void => {
      edges.push({
        ends: [point(from, k + 1), point(to, k + 1)],
        triangles: [one, other],
        kind: 'smooth',
      });
    };
    smooth(outStart, outEnd, out, next + 1);
    smooth(inStart, inEnd, next + 2, inner + 1);
  }
  return { triangles, edges };
};
