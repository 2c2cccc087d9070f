/** The JSON document of `pack --json`. */
export interface PackResult {
  /** `material` and `thicknessMm` are `null` for an archive with several sheets. */
  readonly zips: readonly {
    readonly file: string;
    readonly material: string | null;
    readonly thicknessMm: number | null;
    readonly parts: readonly string[];
  }[];
  readonly left: readonly { readonly name: string; readonly reason: string }[];
  /** Tubes, which are bent in the shop and go into no archive; absent where the job has none. */
  readonly tubes?: readonly string[];
}
