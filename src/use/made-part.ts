import type { BlankResult, PartResult } from '../contract/part.ts';
import type { ProofResult } from '../contract/proof.ts';
import type { Drawing } from '../model/drawing.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Material } from '../model/material.ts';
import type { TextFile } from '../model/output-file.ts';
import type { Part } from '../model/part.ts';
import type { CutterImport } from '../model/shop.ts';
import type { PartPlan } from '../plan/of-part/part-plan.ts';

/** One part, made as far as its findings allow: `stopped` tells which of the two it is. */
export type MadePart = WholePart | StoppedPart;

/** A part that nothing stops, with all that was made on the way to its files. */
export interface WholePart extends Named, LaidFlat {
  readonly stopped: false;
  readonly result: WholeResult;
  /** Its cut files. Written anew at each call. */
  readonly files: () => readonly TextFile[];
}

/**
 * A part of which a `stop` finding forbids to write anything. What it had come to by then is all
 * there, or nothing of it.
 */
export type StoppedPart = Named & {
  readonly stopped: true;
  readonly result: PartResult;
  readonly files: () => readonly [];
} & (LaidFlat | { readonly [name in keyof LaidFlat]?: undefined });

interface Named {
  /** What its files are called, without what tells one kind from another. */
  readonly base: string;
  /** What its files carry near their start. */
  readonly mark: string;
}

/** A part with its blank. */
export interface LaidFlat {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly material: Material;
  readonly drawing: Drawing;
  /** How its drawing is written. */
  readonly writing: DrawingForm;
  /**
   * How it is folded, with what its pictures are drawn from; absent for a part that nothing is
   * planned for.
   */
  readonly plan?: PartPlan;
}

/** The figures of a part that was made: nothing of them is missing. */
export interface WholeResult extends PartResult {
  readonly blank: BlankResult;
  readonly folded: NonNullable<PartResult['folded']>;
  readonly proof: ProofResult;
}

/** What of a drawing goes into a file, and in which form. */
export interface DrawingForm {
  /** Leaves just what is cut. */
  readonly cutOnly: boolean;
  /** The dialect of the DXF. */
  readonly dxfVersion: DxfVersion;
  /** What the program of the cutter wants of a file. */
  readonly form: CutterImport;
}

export type DxfVersion = 'r2000' | 'r12';

/** The same part, its figures changed. */
export const withResult = (
  part: MadePart,
  change: Partial<Pick<PartResult, 'fit' | 'findings'>>,
): MadePart =>
  part.stopped
    ? { ...part, result: { ...part.result, ...change } }
    : { ...part, result: { ...part.result, ...change } };
