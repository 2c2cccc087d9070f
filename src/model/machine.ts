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
  /** The name typed on the command line. */
  readonly id: string;
  readonly name: string;
  /** Id of the built-in machine that gave what the shop file leaves out; absent where none did. */
  readonly like?: string | undefined;
  readonly workingLengthMm: Sourced<number>;
  /** Thickest mild steel that it folds over the whole length; `null` where nothing is known. */
  readonly capacityMm: Sourced<number> | null;
  /**
   * Thickest other sheet, or sheet over shorter folds, where that is known; otherwise it is derived
   * from the capacity in mild steel.
   */
  readonly capacities?: readonly Capacity[] | undefined;
  /** How far past the wanted angle it must be able to swing freely. */
  readonly overbendDeg: Sourced<number>;
  /**
   * Smallest strip of flat sheet in front of the fold; `null` where it follows from the V, as
   * `PressBrake` says.
   */
  readonly minFlangeMm: Sourced<number> | null;
  /** How far it bends; the steepest fold is less by its springback. */
  readonly maxAngleDeg: Sourced<number> | null;
  /** How much of a fold may be left without tool at each end. */
  readonly maxUncoveredMm: Sourced<number>;
  /**
   * How much more its dial or stop reads than the angle to which the metal is really turned, found
   * by folding a strip. Where it is absent, none is assumed.
   */
  readonly stopOffsetDeg?: Sourced<number> | undefined;
  /** The hardest fold that the shop has made on it; it stands in the place of the rating. */
  readonly hardestFold?: Sourced<HardestFold> | undefined;
}

/** The thickest sheet that a machine has folded, and over what length, mm. */
export interface HardestFold {
  /** Id of the material. */
  readonly material: string;
  readonly thickness: number;
  /** Length of the fold; the whole length of the machine where none is given. */
  readonly length?: number | undefined;
  /** Whether the bar was on the leaf then. */
  readonly leafBarFitted?: boolean | undefined;
}

/**
 * Greatest thickness of a kind of sheet, mm, over folds up to a length, or over the whole length
 * where none is given.
 */
export interface Capacity {
  readonly material: Material['family'];
  readonly thickness: number;
  readonly length?: number | undefined;
}

/** A folding machine with clamp beam, bed and leaf. */
export interface Folder extends AnyMachine {
  readonly kind: 'folder';
  readonly bedDepthMm: Sourced<number>;
  /** Distance from the hinge back to the tip of the clamp's nose. */
  readonly noseSetbackMm: Sourced<number>;
  /** Depth from the nose tip to the heel of the finger or beam, front to back. */
  readonly noseDepthMm: Sourced<number>;
  /** How far the vertical front lies behind the nose tip. */
  readonly noseFrontMm: Sourced<number>;
  /** Angle between underside and front bevel. */
  readonly noseBevelDeg: Sourced<number>;
  /** Height from the nose tip to the top of the clamping parts. */
  readonly clampHeightMm: Sourced<number>;
  readonly leafEdgeMm: Sourced<{ readonly barFitted: number; readonly barRemoved: number }>;
  readonly isLeafBarFitted: Sourced<boolean>;
  readonly stiffenerMm: Sourced<{
    readonly projection: number;
    readonly startsBelow: number;
    readonly endsBelow: number;
  }>;
  readonly clampLandMm: Sourced<number>;
  readonly clamp: Fingers | OnePiece;
  /**
   * Opening under the nose with the clamp fully raised. Where it is absent it is not known, and
   * whether parts come out is not checked.
   */
  readonly clampOpeningMm?: Sourced<number> | undefined;
  /**
   * Radii of the noses in the shop, 0 for a sharp one. Where they are absent, a sharp nose is
   * assumed.
   */
  readonly noseRadiiMm?: Sourced<readonly number[]> | undefined;
  /** Measured polygons; they replace all dimensions of bed, leaf, nose and beam. */
  readonly section?: FolderSection | undefined;
}

/**
 * Convex pieces of a folder's section: bed and leaf in the machine's frame, clamp and beam measured
 * from the tip of the nose.
 */
export interface FolderSection {
  readonly bed: readonly Section[];
  /** The leaf at rest. */
  readonly leaf: readonly Section[];
  /** Fingers, or the clamp beam of one piece. */
  readonly clamp: readonly Section[];
  /** The beam that carries the fingers; empty for a clamp of one piece. */
  readonly beam: readonly Section[];
}

/** Fingers under a continuous beam; those that are in the way are taken out. */
export interface Fingers {
  readonly kind: 'fingers';
  /** Height from the nose tip up to the underside of the beam. */
  readonly boxDepthMm: Sourced<number>;
  /** Depth from the nose tip back to the rear of the beam. */
  readonly beamDepthMm: Sourced<number>;
  readonly widthsMm: Sourced<readonly number[]>;
  /** Clearance on each side between a finger and the flange next to it. */
  readonly sideClearMm: Sourced<number>;
}

/** A clamp beam of one piece. */
export interface OnePiece {
  readonly kind: 'one piece';
  /** Whether a flange at one end of a fold may hang outside the end of beam and leaf. */
  readonly endOverhang: Sourced<boolean>;
}

/** A punch over a V. The punch comes in sections; die and ram are continuous. */
export interface PressBrake extends AnyMachine {
  readonly kind: 'press brake';
  readonly vMm: Sourced<number>;
  /**
   * V openings of the other dies in the shop. Where they are absent, there is only the one in the
   * machine.
   */
  readonly otherVsMm?: Sourced<readonly number[]> | undefined;
  /** Greatest force of the machine, kN per metre of bend. */
  readonly forcePerMetreKn?: Sourced<number> | undefined;
  /** Width of the die's shoulder beside the V. */
  readonly shoulderMm: Sourced<number>;
  readonly dieHeightMm: Sourced<number>;
  readonly dieHolderHalfMm: Sourced<number>;
  readonly ramHalfMm: Sourced<number>;
  readonly punchHeightMm: Sourced<number>;
  /**
   * Distance from the punch's tip at the end of a stroke to where it is with the ram fully up;
   * where it is absent, it is not known.
   */
  readonly daylightMm?: Sourced<number> | undefined;
  /** The punch in the machine. */
  readonly punch: string;
  readonly punches: readonly Punch[];
}

/** A punch's section from its tip up to the ram. */
export interface Punch {
  readonly id: string;
  readonly section: (heightMm: number) => readonly Section[];
  readonly source: string;
}
