import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { along3, cross3, mix3, sub3, unit3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Sourced } from '../model/material.ts';
import type { Part } from '../model/part.ts';
import { foldUp } from '../fold/fold-up.ts';
import { type Bar, isMet, type Obstacle, obstaclesOf } from './torch-room.ts';
import { CONTACT_GAP_MM } from '../geometry/tolerance.ts';
import type { Seam, SeamSide } from './seam-along.ts';

/**
 * A straight torch with its gas nozzle: a round bar that stands off the seam by the free length of
 * the wire.
 */
export interface Torch {
  /** Diameter of the nozzle, and that of the smallest one. */
  readonly nozzleMm: Sourced<number>;
  readonly leastNozzleMm: Sourced<number>;
  readonly stickOutMm: Sourced<number>;
  readonly straightMm: Sourced<number>;
  /**
   * How far it may be tilted out of the middle of the joint, and how far out of square to its
   * length.
   */
  readonly tiltDeg: Sourced<number>;
}

/**
 * A seam is checked in the middle of each of this many equal pieces, so the unreachable part is
 * known to a twelfth.
 */
const PIECES = 12;

/** These pieces are checked first: any three pieces in a row include one of them. */
const FIRST = [1, 4, 7, 10];

/** Directions of a torch differ by this much, in both tilts. */
const STEP_DEG = 15;

/** A torch with one of its nozzles, and how it is held. */
export interface Tool {
  readonly torch: Torch;
  readonly nozzleMm: number;
  readonly tilts: readonly Tilt[];
}

export const toolOf = (torch: Torch, nozzleMm = torch.nozzleMm.value): Tool => ({
  torch,
  nozzleMm,
  tilts: tiltsUpTo(torch.tiltDeg.value),
});

/**
 * Radius of the wire. It is less than what sheet gives way by, so the wire meets nothing where it
 * runs along a face of the seam itself.
 */
const WIRE_MM = 0.8 * CONTACT_GAP_MM;

/**
 * How far a seam can be reached: the pieces that no direction reaches, and what is in the way
 * there.
 */
export interface Access {
  readonly unreached: readonly number[];
  readonly blocker: string;
}

/** A part at some stage of folding, as the torch meets it. */
export interface TorchSurroundings {
  readonly poses: ReadonlyMap<string, Pose>;
  readonly obstacles: readonly Obstacle[];
}

/** What the torch meets around a part with all folds made, or all but one. */
export const surroundingsIn = (
  part: Part,
  flat: FlatPattern,
  leftFlat?: string,
): TorchSurroundings => {
  const body = foldUp(part, flat, (fold) => (fold === leftFlat ? 0 : 1));
  return { poses: body.poses, obstacles: obstaclesOf(part, flat, body, leftFlat) };
};

/**
 * Access to a seam; `undefined` where no more than a few short pieces are out of reach, less than a
 * third of the seam.
 */
export function accessTo(seam: Seam, room: TorchSurroundings, tool: Tool): Access | undefined {
  const blockerAt = (piece: number): string | undefined =>
    blockerOf(
      seam.sides.map((side) => standAt(seam, side, piece, room)),
      room,
      tool,
    );
  if (FIRST.every((piece) => blockerAt(piece) === undefined)) return undefined;
  const blockers = Array.from({ length: PIECES }, (_, i) => blockerAt(i));
  const unreached = blockers.flatMap((b, i) => (b === undefined ? [] : [i]));
  const blocker = blockers.find((b) => b !== undefined);
  return blocker === undefined || 3 * unreached.length < PIECES
    ? undefined
    : { unreached, blocker };
}

/**
 * The share of the seam that is out of reach, 0 to 1, and the end of the seam where that is one
 * stretch at an end.
 */
export const shareOf = ({ unreached }: Access): number => unreached.length / PIECES;

export const endOf = ({ unreached }: Access): 'from' | 'to' | undefined => {
  const [first, last] = [unreached[0], unreached.at(-1)] as [number, number];
  if (last - first + 1 > unreached.length || unreached.length === PIECES) return undefined;
  return first === 0 ? 'from' : last === PIECES - 1 ? 'to' : undefined;
};

/** Tilt out of the middle of the joint, and along the seam. */
type Tilt = readonly [workDeg: number, travelDeg: number];

/** All tilts, the straightest first. */
const tiltsUpTo = (mostDeg: number): Tilt[] => {
  const count = Math.floor(mostDeg / STEP_DEG);
  const steps = Array.from({ length: 2 * count + 1 }, (_, i) => (i - count) * STEP_DEG);
  return steps
    .flatMap((work) => steps.map((travel): Tilt => [work, travel]))
    .toSorted((a, b) => Math.hypot(...a) - Math.hypot(...b));
};

/**
 * A point of the seam, with the direction along it, the middle of the joint, and the direction
 * square to both.
 */
interface Stand {
  readonly at: Vec3;
  readonly run: Vec3;
  readonly middle: Vec3;
  readonly beside: Vec3;
}

const standAt = (
  { home }: Seam,
  { from, to, towards }: SeamSide,
  piece: number,
  { poses }: TorchSurroundings,
): Stand => {
  const pose = poses.get(home) as Pose;
  const share = (piece + 0.5) / PIECES;
  const run = poseVector(pose, unit3(sub3(to, from)));
  const beside = unit3(cross3(run, poseVector(pose, towards)));
  return {
    at: posePoint(pose, mix3(from, 1 - share, to, share)),
    run,
    middle: cross3(beside, run),
    beside,
  };
};

/**
 * What a torch meets that is held straight to the first side of a seam; nothing where it is free at
 * some tilt to some side.
 */
const blockerOf = (
  stands: readonly Stand[],
  { obstacles }: TorchSurroundings,
  tool: Tool,
): string | undefined => {
  const last: (Obstacle | undefined)[] = [];
  let first: Obstacle | undefined;
  for (const tilt of tool.tilts) {
    for (const [i, stand] of stands.entries()) {
      const bars = barsAt(stand, tilt, tool);
      // The body that was in the way of the last tilt is likely to be in the way again.
      const before = last[i];
      if (before !== undefined && bars.some((bar) => isMet(bar, before))) continue;
      const met = obstacles.find((o) => bars.some((bar) => isMet(bar, o)));
      if (met === undefined) return undefined;
      last[i] = met;
      first ??= met;
    }
  }
  return first?.name;
};

/**
 * The bars of the nozzle, and of the wire by which it sees the seam: metal between the nozzle and
 * the seam is in the way as well.
 */
const barsAt = (
  { at, run, middle, beside }: Stand,
  [work, travel]: Tilt,
  { torch, nozzleMm }: Tool,
): readonly Bar[] => {
  const axis = mix3(
    mix3(middle, cosDeg(work), beside, sinDeg(work)),
    cosDeg(travel),
    run,
    sinDeg(travel),
  );
  const across = unit3(cross3(axis, run));
  const stickOutMm = torch.stickOutMm.value;
  return [
    {
      from: along3(at, axis, stickOutMm),
      axis,
      across,
      lengthMm: torch.straightMm.value,
      radiusMm: nozzleMm / 2,
    },
    { from: at, axis, across, lengthMm: stickOutMm, radiusMm: WIRE_MM },
  ];
};
