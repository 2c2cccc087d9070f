import type { InputProblem } from '../../forms/problem.ts';
import type { Finding } from '../../model/finding.ts';
import type { CutterProcess, Shop } from '../../model/shop.ts';
import type { EntryPath } from '../model/job-text.ts';
import type { Kind as MachineKind } from '../../use/shop/shop-questions.ts';

/** The shop as the page shows it, and what it changes of it. */
export interface ShopAnswer {
  readonly machines: readonly MachineAnswer[];
  /** Lists of the shop file that are edited row by row: cutters, what each cuts and how fast, sheets. */
  readonly tables: readonly ShopTable[];
  readonly marking: Shop['marking'];
  readonly bends: readonly {
    readonly name: string;
    readonly radius: number;
    readonly k: number;
    readonly kError: number;
    readonly strips: number;
  }[];
}

export interface MachineAnswer {
  readonly id: string;
  readonly name: string;
  readonly list: 'folders' | 'pressBrakes';
  /** Its place in the file; `null` for one of the built-in shop. */
  readonly index: number | null;
  /** What kind of machine it is, in words. */
  readonly called: string;
  /** Its section, as an SVG element. */
  readonly picture: string;
  readonly figures: readonly FigureAnswer[];
}

export interface FigureAnswer {
  /** Names from the machine down. */
  readonly path: readonly string[];
  readonly ask: string;
  readonly help: string | undefined;
  /** As the file has it; empty where it is assumed. */
  readonly given: string;
  /** What is reckoned with. */
  readonly used: string;
}

/** A list of the shop file as rows, with the columns that its schema has. */
export interface ShopTable {
  /** Where it stands in the file. */
  readonly path: EntryPath;
  readonly title: string;
  readonly about: string;
  readonly columns: readonly ShopColumn[];
  /** Cells as they are written in the file, or as they are assumed. */
  readonly rows: readonly (readonly string[])[];
  /** Whether the file says it itself. */
  readonly isOwn: boolean;
}

export interface ShopColumn {
  /** Names from the row down, with points between them: `thickness`, `bed.length`. */
  readonly name: string;
  readonly about: string;
  /** What it can be, where it is one of few; also nothing, where it may be left out. */
  readonly choices: readonly string[] | undefined;
  readonly isRequired: boolean;
}

export interface BegunMachine {
  readonly kind: MachineKind;
  readonly name: string;
  readonly length: string;
  readonly thickest: string;
}

export interface BegunCutter {
  readonly process: CutterProcess;
  readonly name: string;
  readonly thickest: string;
  readonly bed: string;
}

export type ShopChange =
  | {
      readonly kind: 'begin';
      readonly machines: readonly BegunMachine[];
      readonly cutters: readonly BegunCutter[];
      readonly sheets: string;
    }
  | {
      readonly kind: 'figure';
      readonly list: 'folders' | 'pressBrakes';
      readonly index: number;
      readonly path: readonly string[];
      readonly answer: string;
    }
  | {
      readonly kind: 'row';
      readonly path: EntryPath;
      /** Its place; behind the last one it is added. */
      readonly row: number;
      /** What is typed, by the names of columns; what is empty is left out. */
      readonly cells: Readonly<Record<string, string>>;
    }
  | { readonly kind: 'row out'; readonly path: EntryPath; readonly row: number }
  | { readonly kind: 'strips'; readonly csv: string };

export type ShopChanged =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string };

export interface StripsAnswer {
  readonly problems: readonly InputProblem[];
  readonly lines: readonly string[];
  readonly findings: readonly Finding[];
  /** Whether there is something to be put into the shop. */
  readonly isEnough: boolean;
}
