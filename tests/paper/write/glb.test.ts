import { describe, expect, it } from 'vitest';
import { flatten } from '../../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../../src/fold/size.ts';
import type { Vec3 } from '../../../src/geometry/vec3.ts';
import type { Mesh } from '../../../src/model/mesh.ts';
import type { Part } from '../../../src/model/part.ts';
import { foldedMesh } from '../../../src/solid/folded-mesh.ts';
import { writeGlb } from '../../../src/solid/glb.ts';
import { facetVolume, meshVolume } from '../../helpers/mesh.ts';
import { TREES } from '../../helpers/trees.ts';
import { validateGltf } from '../../helpers/gltf-validator.ts';

const MARK = 'blankwright plate cart-shelf left';

const meshOf = (part: Part): Mesh => {
  const mesh = foldedMesh(part, flatten(part, { id: 'din6935' }), 0.05);
  if (mesh === undefined) throw new Error('no mesh');
  return mesh;
};

interface Gltf {
  readonly asset: { readonly generator: string };
  readonly accessors: readonly {
    readonly bufferView: number;
    readonly byteOffset?: number;
    readonly componentType: number;
    readonly count: number;
  }[];
  readonly bufferViews: readonly { readonly byteOffset?: number; readonly byteStride?: number }[];
  readonly meshes: readonly {
    readonly primitives: readonly {
      readonly indices: number;
      readonly attributes: { readonly POSITION: number; readonly NORMAL: number };
    }[];
  }[];
  readonly nodes: readonly { readonly name: string }[];
}

/** A reader by the specification: a header, a chunk of JSON, a chunk of bytes. */
const readGlb = (
  bytes: Uint8Array,
): {
  readonly json: Gltf;
  readonly places: readonly Vec3[];
  readonly normals: readonly Vec3[];
  readonly indices: readonly number[];
} => {
  const data = Buffer.from(bytes);
  const long = data.readUInt32LE(12);
  const json = JSON.parse(data.toString('utf8', 20, 20 + long)) as Gltf;
  const binary = data.subarray(28 + long);
  const primitive = json.meshes[0]?.primitives[0];
  if (primitive === undefined) throw new Error('no surface');
  const read = <T>(id: number, size: number, one: (at: number) => T): T[] => {
    const accessor = json.accessors[id] as Gltf['accessors'][number];
    const view = json.bufferViews[accessor.bufferView] as Gltf['bufferViews'][number];
    const start = (view.byteOffset ?? 0) + (accessor.byteOffset ?? 0);
    return Array.from({ length: accessor.count }, (_, i) =>
      one(start + i * (view.byteStride ?? size)),
    );
  };
  const vector = (at: number): Vec3 => [
    binary.readFloatLE(at),
    binary.readFloatLE(at + 4),
    binary.readFloatLE(at + 8),
  ];
  const isShort = json.accessors[primitive.indices]?.componentType === 5123;
  return {
    json,
    places: read(primitive.attributes.POSITION, 12, vector),
    normals: read(primitive.attributes.NORMAL, 12, vector),
    indices: read(primitive.indices, isShort ? 2 : 4, (at) =>
      isShort ? binary.readUInt16LE(at) : binary.readUInt32LE(at),
    ),
  };
};

describe.each(TREES)('$name', async ({ part }) => {
  const mesh = meshOf(part);
  const bytes = writeGlb(mesh, MARK);

  it("has nothing that Khronos' validator finds fault with", async () => {
    const { issues } = await validateGltf(bytes);
    expect(issues.messages).toEqual([]);
  });

  it('is read back with its volume and size, in metres and y up, with its name and mark', () => {
    const { json, places, normals, indices } = readGlb(bytes);
    expect(json.asset.generator).toBe(MARK);
    expect(Buffer.from(bytes).toString('latin1', 0, 2000)).toContain(MARK);
    expect(json.nodes.map((n) => n.name)).toEqual([part.name]);
    const facets = Array.from(
      { length: indices.length / 3 },
      (_, i) => [0, 1, 2].map((k) => places[indices[3 * i + k] as number]) as [Vec3, Vec3, Vec3],
    );
    expect((facetVolume(facets) * 1e9) / meshVolume(mesh)).toBeCloseTo(1, 5);
    const [x, y, z] = foldedSizeMm(part, flatten(part, { id: 'din6935' }));
    const reach = (axis: 0 | 1 | 2): number =>
      (Math.max(...places.map((p) => p[axis])) - Math.min(...places.map((p) => p[axis]))) * 1000;
    expect(Math.abs(reach(0) - x)).toBeLessThan(0.11);
    expect(Math.abs(reach(2) - y)).toBeLessThan(0.11);
    expect(Math.abs(reach(1) - z)).toBeLessThan(0.11);
    expect(normals.filter((n) => Math.abs(Math.hypot(...n) - 1) > 1e-6)).toEqual([]);
  });

  it('comes in the same bytes each time', () => {
    expect(writeGlb(mesh, MARK)).toEqual(bytes);
  });
});
