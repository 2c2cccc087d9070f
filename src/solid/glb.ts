import type { Vec3 } from '../geometry/vec3.ts';
import type { Mesh } from '../model/mesh.ts';
import { fourBytes } from './four-bytes.ts';
import { METRES_PER_MM, upright } from './pose-trs.ts';

/** The look of bare sheet: light grey, half metal, not polished. */
export const SHEET = {
  name: 'sheet',
  pbrMetallicRoughness: {
    baseColorFactor: [0.72, 0.74, 0.76, 1],
    roughnessFactor: 0.55,
    metallicFactor: 0.4,
  },
};

/** Code numbers of the format (Khronos Group, glTF 2.0 Specification, 5.1, 5.11, 5.24). */
export const UINT32 = 5125;
export const FLOAT = 5126;
export const VERTEX_DATA = 34962;
export const INDEX_DATA = 34963;
export const TRIANGLES = 4;

/** A vertex is its place and its normal, three numbers of four bytes each. */
const VERTEX_BYTES = 24;

/**
 * A mesh as binary glTF 2.0 (Khronos Group, glTF 2.0 Specification): in metres, with y up, so that
 * the largest panel lies on the ground, and with the normals of the true surface. The bytes are the
 * same each time; `mark` stands near the start as the generator.
 */
export const writeGlb = (mesh: Mesh, mark: string): Uint8Array<ArrayBuffer> => {
  const vertices = verticesOf(mesh);
  return container(
    new TextEncoder().encode(JSON.stringify(descriptionOf(vertices, mesh.name, mark))),
    bufferOf(vertices),
  );
};

/** The indices of all triangles, then the vertices. */
const bufferOf = ({ places, normals, indices }: Vertices): Uint8Array<ArrayBuffer> => {
  const start = indices.length * 4;
  const bytes = new Uint8Array(start + places.length * VERTEX_BYTES);
  const view = new DataView(bytes.buffer);
  indices.forEach((index, i) => view.setUint32(4 * i, index, true));
  places.forEach((place, i) =>
    [...place, ...(normals[i] as Vec3)].forEach((v, k) =>
      view.setFloat32(start + VERTEX_BYTES * i + 4 * k, v, true),
    ),
  );
  return bytes;
};

const descriptionOf = ({ places, indices }: Vertices, name: string, mark: string) => {
  const [indexBytes, vertexBytes] = [indices.length * 4, places.length * VERTEX_BYTES];
  const vectors = { type: 'VEC3', componentType: FLOAT, count: places.length };
  return {
    asset: { generator: mark, version: '2.0' },
    accessors: [
      {
        type: 'SCALAR',
        componentType: UINT32,
        count: indices.length,
        bufferView: 0,
        byteOffset: 0,
      },
      { ...vectors, ...reachOf(places), bufferView: 1, byteOffset: 0 },
      { ...vectors, bufferView: 1, byteOffset: VERTEX_BYTES / 2 },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: indexBytes, target: INDEX_DATA },
      {
        buffer: 0,
        byteOffset: indexBytes,
        byteLength: vertexBytes,
        byteStride: VERTEX_BYTES,
        target: VERTEX_DATA,
      },
    ],
    buffers: [{ byteLength: indexBytes + vertexBytes }],
    materials: [SHEET],
    meshes: [
      {
        name,
        primitives: [
          { attributes: { POSITION: 1, NORMAL: 2 }, mode: TRIANGLES, material: 0, indices: 0 },
        ],
      },
    ],
    nodes: [{ name, mesh: 0 }],
    scenes: [{ name, nodes: [0] }],
    scene: 0,
  };
};

export const reachOf = (
  places: readonly Vec3[],
): { readonly max: number[]; readonly min: number[] } => {
  const [max, min] = [[...(places[0] as Vec3)], [...(places[0] as Vec3)]];
  for (const place of places)
    for (const [axis, v] of place.entries()) {
      max[axis] = Math.max(max[axis] as number, v);
      min[axis] = Math.min(min[axis] as number, v);
    }
  return { max, min };
};

/** `glTF`, `JSON` and `BIN` with a zero, read as little-endian numbers. */
const MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;

const HEADER_BYTES = 12;
const CHUNK_HEAD_BYTES = 8;

/**
 * A header and two chunks (chapter 4 of the specification), each padded to a multiple of four
 * bytes, the text with spaces. The vertices are a multiple of four bytes in any case.
 */
export const container = (
  description: Uint8Array,
  buffer: Uint8Array<ArrayBuffer>,
): Uint8Array<ArrayBuffer> => {
  const long = Math.ceil(description.length / 4) * 4;
  const second = HEADER_BYTES + CHUNK_HEAD_BYTES + long;
  const bytes = new Uint8Array(second + CHUNK_HEAD_BYTES + buffer.length);
  const view = new DataView(bytes.buffer);
  [MAGIC, 2, bytes.length, long, JSON_CHUNK].forEach((v, i) => view.setUint32(4 * i, v, true));
  bytes.fill(0x20, HEADER_BYTES + CHUNK_HEAD_BYTES, second);
  bytes.set(description, HEADER_BYTES + CHUNK_HEAD_BYTES);
  [buffer.length, BINARY_CHUNK].forEach((v, i) => view.setUint32(second + 4 * i, v, true));
  bytes.set(buffer, second + CHUNK_HEAD_BYTES);
  return bytes;
};

interface Vertices {
  /** Places in metres, y up, as numbers of four bytes hold them. */
  readonly places: readonly Vec3[];
  /** One normal for each place. */
  readonly normals: readonly Vec3[];
  /** Three indices for each triangle. */
  readonly indices: readonly number[];
}

/**
 * Vertices of a mesh: a corner is a vertex of its own wherever its place or its normal differs. A
 * triangle with two corners in one place is left out.
 */
const verticesOf = ({ points, normals, triangles }: Mesh): Vertices => {
  const known = new Map<string, number>();
  const [places, ways, indices]: [Vec3[], Vec3[], number[]] = [[], [], []];
  const vertex = (point: Vec3, normal: Vec3): number => {
    const place = fourBytes(upright(point), METRES_PER_MM);
    const way = fourBytes(unit(upright(normal)));
    const key = `${place.join(' ')} ${way.map((v) => Math.round(v * NORMAL_STEPS)).join(' ')}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    places.push(place);
    ways.push(way);
    known.set(key, known.size);
    return known.size - 1;
  };
  for (const { corners, normals: of } of triangles) {
    const [a, b, c] = corners.map((p, i) =>
      vertex(points[p] as Vec3, normals[of[i] as number] as Vec3),
    ) as [number, number, number];
    if (a !== b && b !== c && c !== a) indices.push(a, b, c);
  }
  return { places, normals: ways, indices };
};

/**
 * Normals are rounded to this many steps, so that those which agree to a tenth of a thousandth are
 * one.
 */
const NORMAL_STEPS = 1e4;

export const unit = (v: Vec3): Vec3 => {
  const size = Math.hypot(...v);
  return [v[0] / size, v[1] / size, v[2] / size];
};
