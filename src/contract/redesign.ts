/**
 * A change of the design after which the shop can fold the part: planned, proved and drawn before
 * it is told. Its names are a contract: they are added to, never changed.
 */
export interface Redesign {
  /** Inputs to give beside those that were given, or in place of them, as a file has them. */
  readonly inputs: Readonly<Record<string, string | number>>;
  /** The same as flags of the command. */
  readonly flags: string;
  /** Weld seams in place of bends, and how long they are together. */
  readonly seams: number;
  readonly seamMm: number;
  /** Folds that are cut as a row of slots, bent by hand and welded up. */
  readonly slits: number;
  readonly slitMm: number;
  /** Folds in place of which a flange of one piece laps the other, and how long they are together. */
  readonly laps: number;
  readonly lapMm: number;
  /** Weld seams in place of bends that tabs in slots hold square, beside those in `seams`. */
  readonly tabs: number;
  readonly tabMm: number;
  /** How many pieces of sheet the part is made of. */
  readonly pieces: { readonly before: number; readonly now: number };
  /** Inputs of the family that are not what was asked for, with what was given and what it became. */
  readonly changes: readonly {
    readonly input: string;
    readonly from: string | number;
    readonly to: string | number;
  }[];
}
