import type { Pose } from '../../geometry/pose.ts';
import type { Vec3 } from '../../geometry/vec3.ts';

/** A folded model for the screen: pieces of panels that hang on each other by hinges. */
export interface ModelAnswer {
  readonly pieces: readonly PieceAnswer[];
  /** Seams of a whole, by their letters. */
  readonly seams: readonly SeamAnswer[];
  /** The letters at the metal: the piece, by its place in the list, and where in the whole. */
  readonly letters: readonly {
    readonly letter: string;
    readonly piece: number;
    readonly at: Vec3;
  }[];
}

export interface PieceAnswer {
  readonly name: string;
  readonly root: string;
  /** Takes the coordinates of its root panel to those of the whole, mm. */
  readonly pose: Pose;
  readonly order: readonly (readonly string[])[];
  readonly panels: readonly { readonly id: string; readonly skin: SkinAnswer }[];
  readonly hinges: readonly HingeAnswer[];
}

export interface HingeAnswer {
  readonly fold: string;
  readonly parent: string;
  readonly child: string;
  /** Where the child stands, seen from its parent, at each stage; the last is finished. */
  readonly poses: readonly Pose[];
  /** The metal of its bend at each stage, in the parent's coordinates; none without width. */
  readonly stages: readonly SkinAnswer[];
}

/** Three corners for each triangle, mm: x, y, z of each, and of the way in which its surface looks. */
export interface SkinAnswer {
  readonly places: Float32Array;
  readonly ways: Float32Array;
}

export interface SeamAnswer {
  readonly letter: string;
  readonly between: string;
  readonly kind: string;
  readonly lengthMm: number;
}
