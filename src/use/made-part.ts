import type { BlankResult, PartResult } from '../contract/part.ts';
import type { ProofResult } from '../contract/proof.ts';
import type { Drawing } from '../model/drawing.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Material } from '../model/material.ts';
import type { TextFile } from '../model/output-file.ts';
import type { Part } from '../model/part.ts';
import type { Standing } from '../model/standing.ts';
import type { CutterImport } from '../model/shop.ts';
import type { Datum } from '../paper/sizes/datum.ts';
import type { PartPlan } from '../plan/of-part/part-plan.ts';
import type { TubePart } from '../tube/tube-part.ts';

/** One part, made as far as its findings allow: `stopped` tells which of the two it is. */
export type MadePart = WholePart | StoppedPart;

/** A part that nothing stops, with all intermediate results on the way to its files. */
export interface WholePart extends Named, LaidFlat {
  readonly stopped: false;
  readonly result: WholeResult;
  /** Its cut files, written anew at each call. */
  readonly files: () => readonly TextFile[];
}

/**
 * A part for which a `stop` finding forbids writing any file. It has either all the intermediate
 * results reached by then, or none.
 */
export type StoppedPart = Named & {
  readonly stopped: true;
  readonly result: PartResult;
  readonly files: () => readonly [];
} & (LaidFlat | { readonly [name in keyof LaidFlat]?: undefined });

/**
 * A tube that nothing stops. It has no blank and nothing of what leads to one, so it stands beside the
 * parts of sheet and not among them.
 */
export interface MadeTube extends Named {
  readonly result: PartResult;
  readonly tube: TubePart;
}

interface Named {
  /** Name of its files without the endings that tell one kind from another. */
  readonly base: string;
  /** Mark that its files carry near their start. */
  readonly mark: string;
  /** The set of pieces that it belongs to; absent for a part of one blank. */
  readonly set?: { readonly name: string; readonly base: string; readonly mark: string };
}

/** A part with its blank. */
export interface LaidFlat {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly material: Material;
  readonly drawing: Drawing;
  /** What the sizes on its papers are measured from. */
  readonly datum: Datum;
  /** The form in which its drawing is written. */
  readonly writing: DrawingForm;
  /**
   * How it is folded, with the data for its pictures; absent for a part that nothing is planned
   * for.
   */
  readonly plan?: PartPlan;
  /** Where it stands among the pieces of its set, in its hand. */
  readonly standing?: Standing;
}

/** The result of a part that was made: none of its figures is missing. */
export interface WholeResult extends PartResult {
  readonly blank: BlankResult;
  readonly folded: NonNullable<PartResult['folded']>;
  readonly proof: ProofResult;
}

/** Which parts of a drawing go into a file, and in which form. */
export interface DrawingForm {
  /** Whether only the cut lines are written. */
  readonly cutOnly: boolean;
  /** Dialect of the DXF. */
  readonly dxfVersion: DxfVersion;
  /** Form of file that the cutter's program needs. */
  readonly form: CutterImport;
}

export type DxfVersion = 'r2000' | 'r12';

/** The same part with its figures changed. */
export const withResult = (
  part: MadePart,
  change: Partial<Pick<PartResult, 'fit' | 'findings'>>,
): MadePart =>
  part.stopped
    ? { ...part, result: { ...part.result, ...change } }
    : { ...part, result: { ...part.result, ...change } };
