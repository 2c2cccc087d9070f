import { cross3, length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { Mesh } from '../model/mesh.ts';
import { fourBytes } from './four-bytes.ts';

/** Length of the format's header. */
const HEADER_BYTES = 80;

/**
 * Length of a facet: a normal and three corners with three numbers of four bytes each, and two
 * unused bytes.
 */
const FACET_BYTES = 50;

/**
 * A mesh as binary STL: a header of 80 bytes, the number of facets, and for each facet its normal
 * and its corners, counter-clockwise from outside, as 32-bit numbers, little-endian (3D Systems,
 * Stereolithography Interface Specification, 1989; from memory). The format knows no units, so the
 * header says that they are millimetres. The header never begins with `solid`, by which readers
 * recognise the text format.
 */
export const writeStl = (mesh: Mesh, mark: string): Uint8Array => {
  const facets = mesh.triangles.flatMap(({ corners: [a, b, c] }) => {
    const [p, q, r] = [
      fourBytes(mesh.points[a] as Vec3),
      fourBytes(mesh.points[b] as Vec3),
      fourBytes(mesh.points[c] as Vec3),
    ];
    // A triangle whose points fall together leaves no facet, and its two other sides run along each
    // other.
    return same(p, q) || same(q, r) || same(r, p) ? [] : [[p, q, r] as const];
  });
  const bytes = new Uint8Array(HEADER_BYTES + 4 + facets.length * FACET_BYTES);
  const view = new DataView(bytes.buffer);
  bytes.set(
    new TextEncoder().encode(
      `mm ${mark}`
        .replace(/[^\x20-\x7e]/g, '?')
        .slice(0, HEADER_BYTES)
        .padEnd(HEADER_BYTES),
    ),
  );
  view.setUint32(HEADER_BYTES, facets.length, true);
  facets.forEach(([p, q, r], i) => {
    const start = HEADER_BYTES + 4 + i * FACET_BYTES;
    [...normalOf(p, q, r), ...p, ...q, ...r].forEach((v, k) =>
      view.setFloat32(start + 4 * k, v, true),
    );
  });
  return bytes;
};

const same = (p: Vec3, q: Vec3): boolean => p[0] === q[0] && p[1] === q[1] && p[2] === q[2];

/** The normal of a facet; all zeros where it has no area, so that a reader goes by its corners. */
const normalOf = (p: Vec3, q: Vec3, r: Vec3): Vec3 => {
  const n = cross3(sub3(q, p), sub3(r, p));
  const size = length3(n);
  return size === 0 ? [0, 0, 0] : [n[0] / size + 0, n[1] / size + 0, n[2] / size + 0];
};
