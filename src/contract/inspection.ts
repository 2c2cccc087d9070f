import type { Extents } from '../geometry/extents.ts';
import type { Finding } from '../model/finding.ts';

/** Where the unit of a file comes from. */
export type UnitFrom = 'file' | 'asked' | 'assumed';

/** What lies on one layer, as it is drawn. */
export interface LayerCount {
  readonly name: string;
  /** Lines, arcs, circles and other curves; a polyline counts with each of its sides. */
  readonly pieces: number;
  readonly lengthMm: number;
}

/** What is in a file, for its maker and for programs. Lengths in mm. */
export interface Inspection {
  /** Release of the DXF. */
  readonly version: string;
  readonly unit: { readonly name: string; readonly mm: number; readonly from: UnitFrom };
  /** Of what is cut, as the file has it; `null` when nothing is. */
  readonly extents: Extents | null;
  /**
   * With gaps joined, and a contour that is drawn twice taken once: closed contours are parts and
   * holes; open are lines that close none; `gaps` is how many were joined for that.
   */
  readonly contours: {
    readonly closed: number;
    readonly open: number;
    readonly gaps: number;
    readonly parts: number;
    readonly holes: number;
    readonly deepest: number;
  };
  /** Metal within the contours, holes off. */
  readonly areaMm2: number;
  /** Each line once. */
  readonly cutLengthMm: number;
  /** Cut a second time on top of that, as drawn. */
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
  /** What keeps a copy from being mended; `null` when none was asked for, or it was made. */
  readonly unmended: readonly Finding[] | null;
  /** The marked-up picture; `null` when none was asked for. */
  readonly picture: string | null;
}

/** The JSON document of `inspect --json`. */
export interface InspectResult {
  readonly files: readonly InspectedFile[];
}
