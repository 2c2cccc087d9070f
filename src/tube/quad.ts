import type { MeshTriangle } from '../model/mesh.ts';

/** The two triangles of a face with four corners, which run counter-clockwise seen from outside. */
export const quad = (
  corners: readonly number[],
  normals: readonly number[],
  face: number,
): readonly [MeshTriangle, MeshTriangle] => {
  const triangle = (a: number, b: number, c: number): MeshTriangle => ({
    corners: [corners[a] as number, corners[b] as number, corners[c] as number],
    normals: [normals[a] as number, normals[b] as number, normals[c] as number],
    face,
  });
  return [triangle(0, 1, 2), triangle(0, 2, 3)];
};
