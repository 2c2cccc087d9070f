/** The JSON document of `calibrate tube --json`. Lengths in mm, angles in degrees. */
export interface TubeCalibration {
  readonly bender: string;
  readonly tubeMm: number;
  /** Centre-line radius of the former. */
  readonly radiusMm: number;
  readonly bends: number;
  readonly springback: {
    readonly fixedDeg: number;
    readonly share: number;
    /** What the bends scatter by, one standard deviation; `null` of two bends, which always agree. */
    readonly spreadDeg: number | null;
  };
  /** Of bends whose legs were measured, counted from 1. */
  readonly gains: readonly {
    readonly bend: number;
    readonly gainMm: number;
    readonly radiusMm: number;
  }[];
  /** `null` where no legs were measured. */
  readonly effectiveRadius: { readonly mm: number; readonly spreadMm: number | null } | null;
  /** The shop file that it was written to. */
  readonly saved: string | null;
}
