import { type FoldShare, WHOLE } from '../fold/fold-up.ts';
import { rolledBody } from '../fold/rolled-body.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { scale3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Mesh, MeshFace } from '../model/mesh.ts';
import type { Panel, Part } from '../model/part.ts';
import { addSeam, type SheetFaces } from './add-seam.ts';
import { type BlankPlan, planBlank } from './blank-plan.ts';
import { between, lifted, MeshBuilder, outwards } from './mesh-builder.ts';
import { meshEdges } from './mesh-edges.ts';
import { edgeName, triangulate } from './triangulate.ts';

/**
 * The folded part as a closed mesh, made by bending its blank: holes and reliefs lie where the flat
 * pattern has them, through bends too. Arcs and bends become chords no farther than `toleranceMm`
 * from them, with their points on the true surface. The neutral line of a bend keeps its length; a
 * fold about a line in mid-sheet has its faces mitred where the two panels meet. `undefined` for a
 * part whose blank a finding stops. Folded as far as `share` says, to the end by default, in the same
 * triangles at every stage.
 */
export const foldedMesh = (
  given: Part,
  onBlank: FlatPattern,
  toleranceMm: number,
  share: FoldShare = WHOLE,
): Mesh | undefined => {
  const { part, flat } = rolledBody(given, onBlank);
  const plan = planBlank(part, flat, toleranceMm, share);
  if (plan === undefined) return undefined;
  const builder = new MeshBuilder(plan, part.thicknessMm);
  const sides = sheetFaces(plan, builder);
  addSheets(plan, builder, sides);
  const sharp = addRims(plan, builder);
  for (const edge of plan.division.cutEdges) {
    const seam = plan.seams.get(edge.cut);
    if (seam !== undefined) addSeam(builder, sides, plan, seam, edge);
  }
  const { points, normals, triangles, faces } = builder;
  const edges = meshEdges({ points, normals, triangles, faces }, sharp);
  const mesh = { name: part.name, points, normals, triangles, faces, edges };
  return given.rolled === undefined ? mesh : withoutFlats(mesh, given.panels);
};

/** A rolled panel is round: the lines between its flats are none. */
const withoutFlats = (mesh: Mesh, panels: readonly Panel[]): Mesh => {
  const others = new Set(panels.map(({ id }) => id));
  const faceOf = (triangle: number) => mesh.faces[mesh.triangles[triangle]?.face ?? 0];
  const isStrip = (face: MeshFace | undefined): boolean =>
    face?.kind === 'panel' && !others.has(face.of);
  return {
    ...mesh,
    edges: mesh.edges.map((edge) => {
      const [f, g] = edge.triangles.map(faceOf);
      const isBetween = f?.side === g?.side && f?.of !== g?.of && isStrip(f) && isStrip(g);
      return isBetween ? { ...edge, kind: 'smooth' } : edge;
    }),
  };
};

const sheetFaces = ({ regions }: BlankPlan, builder: MeshBuilder): SheetFaces =>
  regions.map(({ of, kind }) => {
    const upper = builder.addFace({ of, kind, side: 'upper' });
    builder.addFace({ of, kind, side: 'lower' });
    return upper;
  });

/** Adds both sides of all cells. */
const addSheets = ({ division }: BlankPlan, builder: MeshBuilder, sides: SheetFaces): void => {
  for (const { region, rings } of division.cells) {
    const face = sides[region] as number;
    for (const corners of triangulate(division.points, rings)) {
      const [a, b, c] = corners.map((point) => builder.pair({ point, region })) as [
        number,
        number,
        number,
      ];
      const [p, q, r] = corners.map((point) => builder.frame({ point, region }).z) as [
        Vec3,
        Vec3,
        Vec3,
      ];
      builder.add(face, [a + 1, b + 1, c + 1], [p, q, r]);
      builder.add(face + 1, [a, c, b], [scale3(p, -1), scale3(r, -1), scale3(q, -1)]);
    }
  }
};

/** Adds the rim all round the outline and the holes; returns the lower points of its corners. */
const addRims = (
  { division: { points, rings, cells }, smooth, regions }: BlankPlan,
  builder: MeshBuilder,
): Set<number> => {
  const regionOf = new Map(
    cells.flatMap(({ region, rings: rims }) =>
      rims.flatMap((rim) =>
        rim.map(
          (from, i) => [edgeName(from, rim[(i + 1) % rim.length] as number), region] as const,
        ),
      ),
    ),
  );
  const sharp = new Set<number>();
  for (const ring of rings) {
    const at = (i: number): number => ring[(i + ring.length) % ring.length] as number;
    const out = ring.map((from, i) => outwards(points[from] as Vec2, points[at(i + 1)] as Vec2));
    const outAt = (i: number): Vec2 => out[(i + out.length) % out.length] as Vec2;
    // A point that a cut put on the rim lies on a straight piece of the rim.
    const isSmooth = (i: number): boolean => smooth[at(i)] ?? true;
    let face = -1;
    let last = -1;
    ring.forEach((from, i) => {
      const to = at(i + 1);
      const region = regionOf.get(edgeName(from, to)) as number;
      if (region !== last || !isSmooth(i)) {
        const { of, kind } = regions[region] as BlankPlan['regions'][number];
        face = builder.addFace({ of, kind, side: 'rim' });
        last = region;
      }
      const own = outAt(i);
      const ends = [
        builder.pair({ point: from, region }),
        builder.pair({ point: to, region }),
      ] as const;
      const atFrom = lifted(
        builder.frame({ point: from, region }),
        isSmooth(i) ? between(outAt(i - 1), own) : own,
      );
      const atTo = lifted(
        builder.frame({ point: to, region }),
        isSmooth(i + 1) ? between(own, outAt(i + 1)) : own,
      );
      builder.addWall(face, ends, [atFrom, atTo]);
      if (!isSmooth(i)) sharp.add(ends[0]);
    });
  }
  return sharp;
};
