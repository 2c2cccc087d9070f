import { invertPose, composePoses, type Pose } from '../geometry/pose.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { foldUp } from '../fold/fold-up.ts';
import { foldedSeat } from '../fold/seat.ts';

/** One piece where it stands; of several alike there is one for each place. */
export interface PlacedPiece {
  /** Name of the piece among those of its set, `end-left`; of several alike with a number, `baffle-1 no. 2`. */
  readonly name: string;
  /** The id that its like have in common. */
  readonly id: string;
  /** The part as it is formed: a strip that is rolled comes as flats in a ring. */
  readonly part: Part;
  readonly flat: FlatPattern;
  /** Takes the coordinates of its root panel to those of the whole. */
  readonly pose: Pose;
  /** When it is joined, 1 first. */
  readonly turn: number;
  /** Ids of the pieces that it is welded to; all when left out. */
  readonly weldedTo?: readonly string[];
  readonly isRolled: boolean;
}

/** The pieces of one set in one hand, those that are joined first before the others. */
export interface Assembly {
  readonly name: string;
  readonly pieces: readonly PlacedPiece[];
}

/** Takes the frame of a piece's mesh, in which its largest panel lies as in its drawing, to the whole. */
export const poseOfMesh = ({ part, flat, pose }: PlacedPiece): Pose =>
  composePoses(pose, invertPose(foldedSeat(flat, foldUp(part, flat).poses)));
