import { describe, expect, it } from 'vitest';
import { flatten } from '../../../src/flatten/flatten.ts';
import type { Vec3 } from '../../../src/geometry/vec3.ts';
import { cross3, dot3, sub3 } from '../../../src/geometry/vec3.ts';
import { foldedMesh } from '../../../src/solid/folded-mesh.ts';
import { writeStl } from '../../../src/solid/stl.ts';
import { type Facets, facetVolume, meshVolume } from '../../helpers/mesh.ts';
import { TREES } from '../../helpers/trees.ts';

const MARK = 'blankwright plate cart-shelf left';

/** A reader by the layout of the form, sharing nothing with the writer. */
const readStl = (
  bytes: Uint8Array,
): { readonly header: string; readonly facets: Facets; readonly normals: readonly Vec3[] } => {
  const data = Buffer.from(bytes);
  const count = data.readUInt32LE(80);
  expect(data.length).toBe(84 + 50 * count);
  const vector = (at: number): Vec3 => [
    data.readFloatLE(at),
    data.readFloatLE(at + 4),
    data.readFloatLE(at + 8),
  ];
  const starts = Array.from({ length: count }, (_, i) => 84 + 50 * i);
  return {
    header: data.toString('latin1', 0, 80),
    normals: starts.map(vector),
    facets: starts.map((at) => [vector(at + 12), vector(at + 24), vector(at + 36)] as const),
  };
};

describe.each(TREES)('$name', ({ part }) => {
  const mesh = foldedMesh(part, flatten(part, { id: 'din6935' }), 0.05);
  if (mesh === undefined) throw new Error('no mesh');
  const bytes = writeStl(mesh, MARK);

  it('is read back with its volume, closed, in millimetres', () => {
    const { header, facets, normals } = readStl(bytes);
    expect(header.startsWith(`mm ${MARK}`)).toBe(true);
    expect(facetVolume(facets) / meshVolume(mesh)).toBeCloseTo(1, 5);
    const open = new Map<string, number>();
    for (const [a, b, c] of facets) {
      for (const [from, to] of [
        [a, b],
        [b, c],
        [c, a],
      ] as const) {
        const [p, q] = [from.join(), to.join()];
        const [edge, way] = p < q ? [`${p}|${q}`, 1] : [`${q}|${p}`, -1];
        open.set(edge, (open.get(edge) ?? 0) + way);
      }
    }
    expect([...open].filter(([, ways]) => ways !== 0)).toEqual([]);
    expect(
      facets.filter(([a, b, c], i) => dot3(normals[i] as Vec3, cross3(sub3(b, a), sub3(c, a))) < 0),
    ).toEqual([]);
  });

  it('comes in the same bytes each time', () => {
    expect(writeStl(mesh, MARK)).toEqual(bytes);
  });
});

it('a mark that is too long is cut off, and nothing makes the file look like the text form', () => {
  const { header } = readStl(
    writeStl(
      { name: 'nothing', points: [], normals: [], triangles: [], faces: [], edges: [] },
      `solid ${'é'.repeat(200)}`,
    ),
  );
  expect(header).toBe(`mm solid ${'?'.repeat(71)}`);
});
