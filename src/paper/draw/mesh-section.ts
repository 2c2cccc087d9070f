import type { Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh, MeshFace } from '../../model/mesh.ts';

/** What a plane across the machine cuts of one panel or bend: slices of sheet side by side. */
export interface CutSheet {
  readonly of: string;
  readonly kind: MeshFace['kind'];
  readonly slice: readonly Vec2[];
}

export interface MeshSection {
  readonly cut: readonly CutSheet[];
  /** The outline of all that is cut. */
  readonly lines: readonly { readonly of: string; readonly line: readonly [Vec2, Vec2] }[];
}

/**
 * The section of a part by the plane at a height z, seen along z. Upper and lower face are the same
 * triangles of the blank, one after the other, so that each pair gives a slice of the sheet.
 */
export const meshSection = ({ points, triangles, faces }: Mesh, z: number): MeshSection => {
  const cut: CutSheet[] = [];
  const lines: MeshSection['lines'][number][] = [];
  for (const { corners, face } of triangles) {
    const { of, kind, side } = faces[face] as MeshFace;
    const line = cutLine(points, corners, z);
    if (line === undefined) continue;
    lines.push({ of, line });
    if (side !== 'upper') continue;
    const [a, b, c] = corners;
    const under = cutLine(points, [a - 1, b - 1, c - 1], z);
    if (under !== undefined) cut.push({ of, kind, slice: [line[0], line[1], under[1], under[0]] });
  }
  return { cut, lines };
};

const cutLine = (
  points: readonly Vec3[],
  corners: readonly [number, number, number],
  z: number,
): readonly [Vec2, Vec2] | undefined => {
  const found = corners.flatMap((from, i): Vec2[] => {
    const [p, q] = [points[from] as Vec3, points[corners[(i + 1) % 3] as number] as Vec3];
    if (p[2] < z === q[2] < z) return [];
    const share = (z - p[2]) / (q[2] - p[2]);
    return [[p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])]];
  });
  const [a, b] = found;
  return a === undefined || b === undefined ? undefined : [a, b];
};
