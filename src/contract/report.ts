/**
 * What a family tells the user besides the parts themselves: a riser's height, a tank's volume, a
 * dip table.
 */
export interface Report {
  readonly figures: readonly ReportFigure[];
  readonly tables?: readonly ReportTable[];
}

export interface ReportFigure {
  /** The name that the maker would use: `riser height`. It is unique within the report. */
  readonly name: string;
  readonly value: number;
  /** `mm`, `deg`, `l`, `kg`, `%`; empty for a plain number. */
  readonly unit: string;
  /** A sentence for what the name does not say: what it is measured from, the source of a limit. */
  readonly about?: string;
}

export interface ReportTable {
  readonly title: string;
  readonly columns: readonly { readonly name: string; readonly unit: string }[];
  /** Rows of numbers, each as long as the list of columns. */
  readonly rows: readonly (readonly number[])[];
}
