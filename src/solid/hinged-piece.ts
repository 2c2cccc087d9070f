import { foldPose, type Joint } from '../fold/joint.ts';
import { foldUp } from '../fold/fold-up.ts';
import { rolledBody } from '../fold/rolled-body.ts';
import { foldedSeat } from '../fold/seat.ts';
import { composePoses, invertPose, type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Mesh } from '../model/mesh.ts';
import type { Part } from '../model/part.ts';
import { foldedMesh } from './folded-mesh.ts';

/** The metal of a panel, or of a bend at some stages, as corners of triangles: three for each. */
export interface Skin {
  /** A list for each stage, the last finished; a panel has one. */
  readonly stages: readonly SkinStage[];
  /** By which corners of triangles are one vertex: those of the same name. */
  readonly names: readonly string[];
}

export interface SkinStage {
  readonly points: readonly Vec3[];
  readonly normals: readonly Vec3[];
}

/** A fold as a hinge: where what hangs on it stands at each stage, seen from the parent panel. */
export interface Hinge {
  readonly fold: string;
  readonly child: string;
  readonly poses: readonly Pose[];
  /** The metal of its bend in the parent's coordinates; none of a fold without width. */
  readonly skin: Skin | undefined;
}

/** A part as panels that hang on each other by hinges. */
export interface HingedPiece {
  readonly root: string;
  readonly skins: ReadonlyMap<string, Skin>;
  readonly hinges: ReadonlyMap<string, readonly Hinge[]>;
  /** Lowest and highest corner of what it takes up at any stage, in the coordinates of its root. */
  readonly box: readonly [Vec3, Vec3];
}

/**
 * Stages at which a bend is modelled beside the finished one. Between two of them a point is moved
 * in a straight line, which in a bend of 90 degrees is off its arc by a hundredth or two of the
 * sheet's thickness: 1 - cos 7.5 degrees of it, and as much again for what the strip's own length adds.
 */
export const STAGES = 6;

/** Flat but for so little that a bend has a radius. */
export const ALMOST_FLAT = 1e-6;

/** How much of its angle a fold is turned by at each stage; the last is finished. */
export const SHARES = Array.from({ length: STAGES + 1 }, (_, i) => i / STAGES);

/**
 * The folded mesh of a part, taken apart into rigid panels and bends that change their shape; nothing
 * where there is no mesh. The finished stage is the mesh itself.
 */
export const hingedPiece = (
  given: Part,
  onBlank: FlatPattern,
  toleranceMm: number,
): HingedPiece | undefined => {
  const { part, flat } = rolledBody(given, onBlank);
  const bodies = SHARES.map((share) => foldUp(part, flat, () => share || ALMOST_FLAT));
  const meshes = SHARES.map((share) =>
    foldedMesh(part, flat, toleranceMm, () => share || ALMOST_FLAT),
  );
  const finished = meshes.at(-1);
  if (finished === undefined || meshes.includes(undefined)) return undefined;
  const stageOf = (of: string, kind: 'panel' | 'bend', home: string, i: number): SkinStage => {
    const { poses } = bodies[i] as (typeof bodies)[number];
    const seat = foldedSeat(flat, poses);
    const toHome = invertPose(composePoses(seat, poses.get(home) as Pose));
    return skinStage(meshes[i] as Mesh, of, kind, toHome);
  };
  const skins = new Map(
    part.panels.map(({ id }): [string, Skin] => [
      id,
      { stages: [stageOf(id, 'panel', id, STAGES)], names: namesOf(finished, id, 'panel') },
    ]),
  );
  const hinges = new Map<string, Hinge[]>();
  for (const joint of (bodies[STAGES] as (typeof bodies)[number]).joints) {
    const { id, parent, child } = joint.fold;
    const names = namesOf(finished, id, 'bend');
    const stages =
      names.length === 0 ? [] : SHARES.map((_, i) => stageOf(id, 'bend', parent.panel, i));
    const hinge: Hinge = {
      fold: id,
      child: child.panel,
      poses: posesOf(joint),
      skin: stages.length === 0 ? undefined : { stages, names },
    };
    hinges.set(parent.panel, [...(hinges.get(parent.panel) ?? []), hinge]);
  }
  return { root: part.root, skins, hinges, box: boxOf(meshes as Mesh[], bodies, flat, part.root) };
};

const posesOf = (joint: Joint): Pose[] => SHARES.map((share) => foldPose(joint, share));

const trianglesOf = ({ triangles, faces }: Mesh, of: string, kind: 'panel' | 'bend') =>
  triangles.filter(({ face }) => faces[face]?.of === of && faces[face].kind === kind);

const skinStage = (mesh: Mesh, of: string, kind: 'panel' | 'bend', toHome: Pose): SkinStage => {
  const own = trianglesOf(mesh, of, kind);
  return {
    points: own.flatMap(({ corners }) =>
      corners.map((i) => posePoint(toHome, mesh.points[i] as Vec3)),
    ),
    normals: own.flatMap(({ normals }) =>
      normals.map((i) => poseVector(toHome, mesh.normals[i] as Vec3)),
    ),
  };
};

/** Steps to which directions are told apart. */
const STEPS = 1e4;

const namesOf = (mesh: Mesh, of: string, kind: 'panel' | 'bend'): string[] =>
  trianglesOf(mesh, of, kind).flatMap(({ corners, normals }) =>
    corners.map((point, i) =>
      [
        point,
        ...(mesh.normals[normals[i] as number] as Vec3).map((v) => Math.round(v * STEPS)),
      ].join(' '),
    ),
  );

const boxOf = (
  meshes: readonly Mesh[],
  bodies: readonly { readonly poses: ReadonlyMap<string, Pose> }[],
  flat: FlatPattern,
  root: string,
): readonly [Vec3, Vec3] => {
  const [low, high] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ] as [number[], number[]];
  meshes.forEach(({ points }, i) => {
    const { poses } = bodies[i] as (typeof bodies)[number];
    const toRoot = invertPose(composePoses(foldedSeat(flat, poses), poses.get(root) as Pose));
    for (const p of points)
      posePoint(toRoot, p).forEach((v, axis) => {
        low[axis] = Math.min(low[axis] as number, v);
        high[axis] = Math.max(high[axis] as number, v);
      });
  });
  return [low as unknown as Vec3, high as unknown as Vec3];
};
