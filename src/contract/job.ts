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
  /** Files in the folder that this tool did not make. */
  readonly left: readonly string[];
}

export interface JobPartResult {
  readonly name: string;
  readonly folder: string;
  readonly status: 'made' | 'unchanged' | 'refused';
  /** Reason why it was refused; `null` otherwise. */
  readonly reason: string | null;
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  readonly reports: readonly ReportResult[];
}

/** Report on one part of a job; it is kept in its folder so that its files can be proved later. */
export interface JobPartRecord {
  readonly name: string;
  readonly family: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly note: string | null;
  readonly revision: string | null;
  readonly stopped: boolean;
  /** Number of findings that were not told, since the job silences their rules. */
  readonly silenced: number;
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  readonly reports: readonly ReportResult[];
  /** Small SVG pictures of the blanks, by the names of the parts. */
  readonly pictures: Readonly<Record<string, string>>;
  /** What its pieces are welded to, one for each hand: names, and small SVG pictures. */
  readonly wholes?: readonly WholeRecord[];
}

export interface WholeRecord {
  readonly name: string;
  /** Beginning of the names of its files. */
  readonly base: string;
  readonly picture?: string;
  /** The first of its pieces, before which it stands. */
  readonly first: string;
}

/** Contents of a folder of ours, and what it was made from. */
export interface FolderRecord {
  readonly tool: 'blankwright';
  /** Hash of everything that the files depend on. */
  readonly hash: string;
  readonly files: readonly RecordedFile[];
}

export interface RecordedFile {
  readonly name: string;
  readonly sha256: string;
  readonly bytes: number;
}

/** Enough to tell that a part need not be made again. */
export interface PartRecord extends FolderRecord, JobPartRecord {}

/** What became of one part of a job. */
export type PartOutcome =
  | { readonly status: 'made' | 'unchanged'; readonly record: PartRecord }
  | { readonly status: 'refused'; readonly reason: string; readonly record?: PartRecord };

/** One entry of the job's parts, and what became of it. */
export interface JobOutcome {
  readonly name: string;
  /** Path of its folder within the folder of the job. */
  readonly folder: string;
  readonly outcome: PartOutcome;
}

/** Every file of a job, with its hash and the inputs that made it. */
export interface JobManifest {
  readonly tool: 'blankwright';
  readonly hash: '';
  readonly version: string;
  readonly job: string;
  readonly parts: readonly object[];
}
