import type { Vec2 } from '../geometry/vec2.ts';
import type { Material, Sourced } from './material.ts';

/**
 * Folding machines. Every machine is described by its section, the same all along its length, mm.
 * Two frames:
 *
 * - Folder: the origin is the front top edge of the bed, which is the hinge of the leaf and the
 *   fold line; +x towards the operator, +y up, z along the machine. The sheet lies on y = 0,
 *   clamped at x < 0. The leaf rests with its face at y = 0, x >= 0, and turns about the origin
 *   towards +y.
 * - Press brake: the origin is the punch's tip and the fold line; y up. Both legs rise by half the
 *   bend angle, and the die's shoulders at x = +-V/2 stand V/2 tan(angle/2) above the fold line.
 */
export type Machine = Folder | PressBrake;

/** A convex polygon of a section, mm, either way round. */
export type Section = readonly Vec2[];

interface AnyMachine {
  /** As typed on the command line. */
  readonly id: string;
  readonly name: string;
  readonly workingLengthMm: Sourced<number>;
  /** Thickest mild steel over the whole length; `null` where nothing is known. */
  readonly capacityMm: Sourced<number> | null;
  /**
   * The same of other sheet, or over shorter folds, where it is known; otherwise it is derived from
   * that of mild steel.
   */
  readonly capacities?: readonly Capacity[] | undefined;
  /** How far past the wanted angle the swing must be free. */
  readonly overbendDeg: Sourced<number>;
  /** Least strip of flat sheet in front of the fold; `null`: by the V, as `PressBrake` says. */
  readonly minFlangeMm: Sourced<number> | null;
  /** The steepest fold, overbend not counted. */
  readonly maxAngleDeg: Sourced<number> | null;
  /** How much of a fold may be left without tool at each of its ends. */
  readonly maxUncoveredMm: Sourced<number>;
}

/**
 * Thickest sheet of a kind, mm: over folds up to a length, or over the whole length where none is
 * given.
 */
export interface Capacity {
  readonly material: Material['family'];
  readonly thickness: number;
  readonly length?: number | undefined;
}

/** Clamp beam, bed and leaf. */
export interface Folder extends AnyMachine {
  readonly kind: 'folder';
  readonly bedDepthMm: Sourced<number>;
  /** From the hinge back to the tip of the clamp's nose. */
  readonly noseSetbackMm: Sourced<number>;
  /** Nose tip to the heel of the finger or beam, front to back. */
  readonly noseDepthMm: Sourced<number>;
  /** How far behind the nose tip the vertical front lies. */
  readonly noseFrontMm: Sourced<number>;
  /** Between underside and front bevel. */
  readonly noseBevelDeg: Sourced<number>;
  /** Nose tip to the top of what clamps. */
  readonly clampHeightMm: Sourced<number>;
  readonly leafEdgeMm: Sourced<{ readonly barFitted: number; readonly barRemoved: number }>;
  readonly leafBarFitted: boolean;
  readonly stiffenerMm: Sourced<{
    readonly projection: number;
    readonly startsBelow: number;
    readonly endsBelow: number;
  }>;
  readonly clampLandMm: Sourced<number>;
  readonly clamp: Fingers | OnePiece;
  /**
   * Under the nose with the clamp fully open; absent: not known, and how parts come out is not
   * looked at.
   */
  readonly clampOpeningMm?: Sourced<number> | undefined;
  /** Radii of the noses there are, 0 for a sharp one; absent: one as round as every bend. */
  readonly noseRadiiMm?: Sourced<readonly number[]> | undefined;
  /**
   * Polygons that were measured; they stand in place of all dimensions of bed, leaf, nose and beam.
   */
  readonly section?: FolderSection | undefined;
}

/**
 * Convex pieces of a folder's section: bed and leaf in the machine's frame, clamp and beam from the
 * tip of the nose.
 */
export interface FolderSection {
  readonly bed: readonly Section[];
  /** At rest. */
  readonly leaf: readonly Section[];
  /** Fingers, or the clamp beam of one piece. */
  readonly clamp: readonly Section[];
  /** The beam that carries the fingers; none over a clamp of one piece. */
  readonly beam: readonly Section[];
}

/** Fingers under a beam that runs through; those that are in the way are taken out. */
export interface Fingers {
  readonly kind: 'fingers';
  /** Nose tip up to the underside of the beam. */
  readonly boxDepthMm: Sourced<number>;
  /** Nose tip back to the rear of the beam. */
  readonly beamDepthMm: Sourced<number>;
  readonly widthsMm: Sourced<readonly number[]>;
  /** Air on each side between a finger and what stands beside it. */
  readonly sideClearMm: Sourced<number>;
}

/** A beam of one piece. */
export interface OnePiece {
  readonly kind: 'one piece';
  /** Whether what stands at one end of a fold may hang outside the end of beam and leaf. */
  readonly endOverhang: Sourced<boolean>;
}

/** Punch over a V. The punch comes in sections, die and ram run through. */
export interface PressBrake extends AnyMachine {
  readonly kind: 'press brake';
  readonly vMm: Sourced<number>;
  /** The openings of the other dies there are; absent: the one that is in. */
  readonly otherVsMm?: Sourced<readonly number[]> | undefined;
  /** What the machine can press, kN per metre of bend. */
  readonly forcePerMetreKn?: Sourced<number> | undefined;
  /** Width of the die's shoulder beside the V. */
  readonly shoulderMm: Sourced<number>;
  readonly dieHeightMm: Sourced<number>;
  readonly dieHolderHalfMm: Sourced<number>;
  readonly ramHalfMm: Sourced<number>;
  readonly punchHeightMm: Sourced<number>;
  /**
   * From the punch's tip at the end of a stroke to where it is with the ram fully up; absent as
   * above.
   */
  readonly daylightMm?: Sourced<number> | undefined;
  /** The punch that is in. */
  readonly punch: string;
  readonly punches: readonly Punch[];
}

/** A punch's section from its tip up to the ram. */
export interface Punch {
  readonly id: string;
  readonly section: (heightMm: number) => readonly Section[];
  readonly source: string;
}
