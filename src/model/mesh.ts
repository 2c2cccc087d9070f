import { triangleNormal } from '../geometry/triangle-normal.ts';
import type { Vec3 } from '../geometry/vec3.ts';

/**
 * The surface of a folded part as triangles. It is closed: seen from outside every triangle runs
 * counter-clockwise, and every edge belongs to two triangles that run along it in opposite
 * directions. Millimetres; the largest panel lies as it does in the drawing, its lower face at z =
 * 0.
 */
export interface Mesh {
  readonly name: string;
  readonly points: readonly Vec3[];
  /** Unit normals of the true surface, bends and round holes included, for shading. */
  readonly normals: readonly Vec3[];
  readonly triangles: readonly MeshTriangle[];
  readonly faces: readonly MeshFace[];
  /** Edges where the two triangles do not lie in one plane by design. */
  readonly edges: readonly MeshEdge[];
}

export interface MeshTriangle {
  /** Indices into the points. */
  readonly corners: readonly [number, number, number];
  /** Indices into the normals, one for each corner. */
  readonly normals: readonly [number, number, number];
  /** Index of the face that it belongs to. */
  readonly face: number;
}

/**
 * A flat or round face: one side of a panel or of a bend, or the metal's rim along one stretch of
 * its outline or of a hole. `of` names the panel or the fold.
 */
export interface MeshFace {
  readonly of: string;
  readonly kind: 'panel' | 'bend';
  /** `upper` is the face that the drawing shows. */
  readonly side: 'upper' | 'lower' | 'rim';
}

export interface MeshEdge {
  /** Indices into the points. */
  readonly ends: readonly [number, number];
  /**
   * Indices of the two triangles; the first runs along the edge from its first end to its second.
   */
  readonly triangles: readonly [number, number];
  /**
   * `sharp` is where metal ends, `tangent` where a bend begins, `smooth` between chords of one
   * round face.
   */
  readonly kind: 'sharp' | 'tangent' | 'smooth';
}

/**
 * The unit normal of a triangle. A triangle that is no more than a line has that of its face at
 * that place.
 */
export const meshTriangleNormal = (
  { points, normals }: Pick<Mesh, 'points' | 'normals'>,
  { corners: [a, b, c], normals: [n] }: MeshTriangle,
): Vec3 =>
  triangleNormal(points[a] as Vec3, points[b] as Vec3, points[c] as Vec3) ?? (normals[n] as Vec3);
