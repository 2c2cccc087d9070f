import type { Extents } from '../geometry/extents.ts';
import type { Finding } from '../model/finding.ts';

/** Source of the unit of a file. */
export type UnitFrom = 'file' | 'asked' | 'assumed';

/** Contents of one layer, as drawn. */
export interface LayerCount {
  readonly name: string;
  /** Number of lines, arcs, circles and other curves; a polyline counts with each of its sides. */
  readonly pieces: number;
  readonly lengthMm: number;
}

/** Contents of a file, for its maker and for programs. Lengths in mm. */
export interface Inspection {
  /** Release of the DXF. */
  readonly version: string;
  readonly unit: { readonly name: string; readonly mm: number; readonly from: UnitFrom };
  /** Extents of what is cut, as the file has it; `null` when nothing is. */
  readonly extents: Extents | null;
  /**
   * Contours, after gaps are joined and a contour that is drawn twice is counted once. Closed ones
   * are parts and holes; open ones are lines that form no closed contour; `gaps` is how many were
   * joined.
   */
  readonly contours: {
    readonly closed: number;
    readonly open: number;
    readonly gaps: number;
    readonly parts: number;
    readonly holes: number;
    readonly deepest: number;
  };
  /** Metal within the contours, less the holes. */
  readonly areaMm2: number;
  /** Length of what is cut, each line counted once. */
  readonly cutLengthMm: number;
  /** Length that is drawn, and would be cut, a second time. */
  readonly doubledMm: number;
  readonly pierces: number;
  readonly layers: readonly LayerCount[];
  readonly findings: readonly Finding[];
}

export interface InspectedFile extends Inspection {
  readonly file: string;
  /**
   * The mended copy and every change in it; `null` when none was asked for, or none could be made.
   */
  readonly mended: { readonly file: string; readonly changes: readonly string[] } | null;
  /** Reasons why no copy could be mended; `null` when none was asked for, or it was made. */
  readonly unmended: readonly Finding[] | null;
  /** The marked-up picture; `null` when none was asked for. */
  readonly picture: string | null;
}

/** The JSON document of `inspect --json`. */
export interface InspectResult {
  readonly files: readonly InspectedFile[];
}
