import type { PartResult, ReportResult } from './part.ts';

/** The JSON document of `job --json`. */
export interface JobResult {
  readonly job: string;
  readonly folder: string;
  readonly parts: readonly JobPartResult[];
  readonly summary: {
    readonly made: number;
    readonly unchanged: number;
    readonly refused: number;
    readonly warnings: number;
    readonly silenced: number;
    readonly removed: number;
  };
  /** What stands in the folder and is not of this tool. */
  readonly left: readonly string[];
}

export interface JobPartResult {
  readonly name: string;
  readonly folder: string;
  readonly status: 'made' | 'unchanged' | 'refused';
  /** Why it was refused; `null` otherwise. */
  readonly reason: string | null;
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  readonly reports: readonly ReportResult[];
}

/** What is told of a part of a job: kept in its folder, to prove its files with. */
export interface JobPartRecord {
  readonly name: string;
  readonly family: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly note: string | null;
  readonly revision: string | null;
  readonly stopped: boolean;
  /** How many findings were not told, since the job silences their rules. */
  readonly silenced: number;
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  readonly reports: readonly ReportResult[];
}

/** What stands in a folder of ours, and what it was made from. */
export interface FolderRecord {
  readonly tool: 'blankwright';
  /** Of everything that the files depend on. */
  readonly hash: string;
  readonly files: readonly RecordedFile[];
}

export interface RecordedFile {
  readonly name: string;
  readonly sha256: string;
  readonly bytes: number;
}

/** Enough to leave a part alone next time. */
export interface PartRecord extends FolderRecord, JobPartRecord {}

/** What became of one part of a job. */
export type PartOutcome =
  | { readonly status: 'made' | 'unchanged'; readonly record: PartRecord }
  | { readonly status: 'refused'; readonly reason: string; readonly record?: PartRecord };

/** One entry of the job's parts, and what became of it. */
export interface JobOutcome {
  readonly name: string;
  /** In that of the job. */
  readonly folder: string;
  readonly outcome: PartOutcome;
}

/** Every file of a job, its hash, and the inputs that made it. */
export interface JobManifest {
  readonly tool: 'blankwright';
  readonly hash: '';
  readonly version: string;
  readonly job: string;
  readonly parts: readonly object[];
}
