import { foldedMesh } from '../../solid/folded-mesh.ts';
import { writeGlb } from '../../solid/glb.ts';
import { writeStl } from '../../solid/stl.ts';
import { type OutputSource, shared, type Written } from './output.ts';

/** Chords of a model that is looked at lie this near to its curves, mm. */
const MODEL_MM = 0.02;

const meshOf = shared(({ made: { part, flat } }) => foldedMesh(part, flat, MODEL_MM));

/** The folded part as a model for viewers; none of a part that cannot be folded up. */
export async function modelGlb(source: OutputSource): Promise<Written> {
  const mesh = meshOf(source);
  return mesh === undefined ? {} : { contents: writeGlb(mesh, source.made.mark) };
}

/** The folded part as triangles; none of a part that cannot be folded up. */
export function modelStl(source: OutputSource): Written {
  const mesh = meshOf(source);
  return mesh === undefined ? {} : { contents: writeStl(mesh, source.made.mark) };
}
