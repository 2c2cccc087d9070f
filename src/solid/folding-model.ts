import { type Pose, posePoint } from '../geometry/pose.ts';
import { along3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { type HingedPiece, hingedPiece } from './hinged-piece.ts';

/** A part in a model that folds and is joined. */
export interface FoldingPiece {
  readonly name: string;
  readonly part: Part;
  readonly flat: FlatPattern;
  /** Takes the coordinates of its root panel to those of the whole. */
  readonly pose: Pose;
  /** When it is joined to the others, 1 first. */
  readonly turn: number;
  /** Its folds in the order in which they are made, those that are made together in one list. */
  readonly order: readonly (readonly string[])[];
}

/** A piece of a folded model: its panels on their hinges, where it stands, and in which order it folds. */
export interface ModelPiece extends Omit<FoldingPiece, 'part' | 'flat'> {
  readonly hinged: HingedPiece;
}

/**
 * The one model of what folds and is joined: a node for each panel and a hinge for each bend of each
 * piece. The files for viewers and the page are both made of it. `undefined` where a piece cannot be
 * folded up. Arcs are chords within `toleranceMm`.
 */
export const foldingModel = (
  pieces: readonly FoldingPiece[],
  toleranceMm: number,
): readonly ModelPiece[] | undefined => {
  const made = pieces.flatMap(({ part, flat, ...piece }): ModelPiece[] => {
    const hinged = hingedPiece(part, flat, toleranceMm);
    return hinged === undefined ? [] : [{ ...piece, hinged }];
  });
  return made.length === pieces.length ? made : undefined;
};

/** The corners of what a piece takes up at any stage, in the whole. */
export const cornersOf = ({ pose, hinged }: ModelPiece): readonly Vec3[] => {
  const [low, high] = hinged.box;
  return [0, 1, 2, 3, 4, 5, 6, 7].map((k) =>
    posePoint(pose, [
      (k % 2 === 0 ? low : high)[0],
      (k % 4 < 2 ? low : high)[1],
      (k < 4 ? low : high)[2],
    ]),
  );
};

/** The pose moved along the first axis. */
export const shifted = (pose: Pose, byMm: number): Pose => ({
  ...pose,
  o: along3(pose.o, [1, 0, 0], byMm),
});
