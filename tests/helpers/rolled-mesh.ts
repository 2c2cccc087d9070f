import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { cross3, dot3 } from '../../src/geometry/vec3.ts';

/** The volume within a closed mesh, by the divergence theorem, mm3. */
export const meshVolume = ({ part, flat }: MadePart): number => {
  if (part === undefined || flat === undefined) throw new Error('no part');
  const mesh = foldedMesh(part, flat, 0.05);
  if (mesh === undefined) throw new Error('no mesh');
  return mesh.triangles.reduce((sum, { corners }) => {
    const [a, b, c] = corners.map((i) => mesh.points[i] as Vec3) as [Vec3, Vec3, Vec3];
    return sum + dot3(a, cross3(b, c)) / 6;
  }, 0);
};

/** Measures of a part's proof that state what its inputs mean on the rolled wall. */
export const rolledMeasures = (part: MadePart) =>
  (part.result.proof?.measures ?? []).filter(({ between: [place] }) => place?.kind === 'rolled');
