import type { Vec3 } from '../geometry/vec3.ts';
import type { Mesh } from '../model/mesh.ts';

/** The form counts in metres. */
const METRES_PER_MM = 0.001;

/** How bare sheet looks: light grey, half metal, not polished. */
const SHEET = {
  colour: [0.72, 0.74, 0.76, 1] as [number, number, number, number],
  metallic: 0.4,
  roughness: 0.55,
};

/**
 * A mesh as binary glTF 2.0 (Khronos Group, glTF 2.0 Specification): metres, y up, so that the
 * largest panel lies on the ground; normals of the true surface. The same bytes each time; `mark`
 * stands near the start as its generator.
 */
export const writeGlb = async (mesh: Mesh, mark: string): Promise<Uint8Array> => {
  const { Document, WebIO } = await import('@gltf-transform/core');
  const { positions, normals, indices } = verticesOf(mesh);
  const file = new Document();
  file.getRoot().getAsset().generator = mark;
  const buffer = file.createBuffer();
  const accessor = (
    type: 'VEC3' | 'SCALAR',
    array: Float32Array<ArrayBuffer> | Uint32Array<ArrayBuffer>,
  ) => file.createAccessor().setType(type).setArray(array).setBuffer(buffer);
  const material = file
    .createMaterial('sheet')
    .setBaseColorFactor(SHEET.colour)
    .setMetallicFactor(SHEET.metallic)
    .setRoughnessFactor(SHEET.roughness);
  const surface = file
    .createPrimitive()
    .setIndices(accessor('SCALAR', indices))
    .setAttribute('POSITION', accessor('VEC3', positions))
    .setAttribute('NORMAL', accessor('VEC3', normals))
    .setMaterial(material);
  const node = file.createNode(mesh.name).setMesh(file.createMesh(mesh.name).addPrimitive(surface));
  file.getRoot().setDefaultScene(file.createScene(mesh.name).addChild(node));
  return new WebIO().writeBinary(file);
};

interface Vertices {
  readonly positions: Float32Array<ArrayBuffer>;
  readonly normals: Float32Array<ArrayBuffer>;
  readonly indices: Uint32Array<ArrayBuffer>;
}

/**
 * A corner is a vertex of its own wherever place or normal differ; a triangle two of whose corners
 * are one is left out.
 */
const verticesOf = ({ points, normals, triangles }: Mesh): Vertices => {
  const known = new Map<string, number>();
  const [places, ways, indices]: [number[], number[], number[]] = [[], [], []];
  const vertex = (point: Vec3, normal: Vec3): number => {
    const place = upright(point).map((v) => Math.fround(v * METRES_PER_MM) + 0);
    const way = unit32(upright(normal));
    const key = `${place.join(' ')} ${way.map((v) => Math.round(v * NORMAL_STEPS)).join(' ')}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    places.push(...place);
    ways.push(...way);
    known.set(key, known.size);
    return known.size - 1;
  };
  for (const { corners, normals: of } of triangles) {
    const [a, b, c] = corners.map((p, i) =>
      vertex(points[p] as Vec3, normals[of[i] as number] as Vec3),
    ) as [number, number, number];
    if (a !== b && b !== c && c !== a) indices.push(a, b, c);
  }
  return {
    positions: Float32Array.from(places),
    normals: Float32Array.from(ways),
    indices: Uint32Array.from(indices),
  };
};

/** Normals that agree to a tenth of a thousandth are one. */
const NORMAL_STEPS = 1e4;

/** z up becomes y up by a quarter turn about x. */
const upright = ([x, y, z]: Vec3): Vec3 => [x, z, -y];

const unit32 = (v: Vec3): Vec3 => {
  const size = Math.hypot(...v);
  return [Math.fround(v[0] / size) + 0, Math.fround(v[1] / size) + 0, Math.fround(v[2] / size) + 0];
};
