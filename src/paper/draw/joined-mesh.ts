import { type Pose, posePoint, poseVector } from '../../geometry/pose.ts';
import { along3, type Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';

/** A mesh in another place. */
export const placedMesh = (mesh: Mesh, pose: Pose): Mesh => ({
  ...mesh,
  points: mesh.points.map((p) => posePoint(pose, p)),
  normals: mesh.normals.map((n) => poseVector(pose, n)),
});

export const movedMesh = (mesh: Mesh, by: Vec3): Mesh => ({
  ...mesh,
  points: mesh.points.map((p) => along3(p, by, 1)),
});

/**
 * Several closed bodies as one, which no longer hangs together. Their panels and bends are called
 * after the place of their body in the list: `2/web`.
 */
export const joinedMesh = (name: string, meshes: readonly Mesh[]): Mesh => {
  const [points, normals]: [Vec3[], Vec3[]] = [[], []];
  const triangles: Mesh['triangles'][number][] = [];
  const faces: Mesh['faces'][number][] = [];
  const edges: Mesh['edges'][number][] = [];
  meshes.forEach((mesh, i) => {
    const [p, n, t, f] = [points.length, normals.length, triangles.length, faces.length];
    points.push(...mesh.points);
    normals.push(...mesh.normals);
    faces.push(...mesh.faces.map((face) => ({ ...face, of: `${i}/${face.of}` })));
    triangles.push(
      ...mesh.triangles.map(({ corners: [a, b, c], normals: [u, v, w], face }) => ({
        corners: [a + p, b + p, c + p] as const,
        normals: [u + n, v + n, w + n] as const,
        face: face + f,
      })),
    );
    edges.push(
      ...mesh.edges.map(({ ends: [a, b], triangles: [q, r], kind }) => ({
        ends: [a + p, b + p] as const,
        triangles: [q + t, r + t] as const,
        kind,
      })),
    );
  });
  return { name, points, normals, triangles, faces, edges };
};

/** The body that a panel or a bend of several belongs to. */
export const bodyOf = (of: string): number => Number(of.slice(0, of.indexOf('/')));
