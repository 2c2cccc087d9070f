import { foldedMesh } from '../../solid/folded-mesh.ts';
import { writeGlb } from '../../solid/glb.ts';
import { writeStl } from '../../solid/stl.ts';
import { type OutputSource, shared, type Written } from './output.ts';

/** Greatest distance of the chords of a model for viewing from its curves, mm. */
const MODEL_MM = 0.02;

const meshOf = shared(({ made: { part, flat } }) => foldedMesh(part, flat, MODEL_MM));

/** The folded part as a model for viewers; none for a part that cannot be folded up. */
export async function modelGlb(source: OutputSource): Promise<Written> {
  const mesh = meshOf(source);
  return mesh === undefined ? {} : { contents: writeGlb(mesh, source.made.mark) };
}

/** The folded part as triangles; none for a part that cannot be folded up. */
export function modelStl(source: OutputSource): Written {
  const mesh = meshOf(source);
  return mesh === undefined ? {} : { contents: writeStl(mesh, source.made.mark) };
}
