import type { BendResult, FindingResult, PartResult, ReportResult } from '../../contract/part.ts';
import type { CutListResult } from '../../contract/cut-list.ts';
import type { FitResult } from '../../contract/fit.ts';
import type { PackResult } from '../../contract/pack.ts';
import type { InputDescription, InputProblem } from '../../forms/read.ts';
import type { PapersAhead } from './papers-ahead.ts';
import type { Survey } from '../../survey/survey.ts';
import type { SheetName } from '../../model/paper.ts';
import type { OutputId } from '../../use/outputs/index.ts';
import type {
  BlankAsk,
  HoleAsk,
  HoleWays,
  PictureAnswer,
  ProveAsk,
  ProvedAnswer,
  SketchAnswer,
} from './drawn-questions.ts';
import type { ShopAnswer, ShopChange, ShopChanged, StripsAnswer } from './shop-questions.ts';
import type { TellProgress } from '../model/progress.ts';
import type { ModelAnswer } from './model-questions.ts';
import type { Screen } from './screen-sizes.ts';

/** What the page asks of the core, which works beside it, and what it gets. */
export interface Questions {
  /** Every family. */
  families: { readonly ask: null; readonly answer: readonly FamilyAnswer[] };
  /** The first example of a family, folded, as an SVG element; empty where it has no picture. */
  familyPicture: { readonly ask: string; readonly answer: string };
  /** The job as far as it can be read. */
  job: { readonly ask: Texts; readonly answer: JobAnswer };
  /** The picture of one blank, before anything is looked at but its shape; `null` where there is none. */
  shape: { readonly ask: ShapeAsk; readonly answer: BlankAnswer['flat'] | null };
  /** One part of it: its fields, and its blanks without the plan, which takes longer. */
  part: { readonly ask: PartAsk; readonly answer: PartAnswer };
  /** The same with the order of folds, and how well it is likely to fit. */
  whole: { readonly ask: PartAsk; readonly answer: PartAnswer };
  /** The part folded, seen from somewhere, as an SVG element. */
  folded: { readonly ask: FoldedAsk; readonly answer: string | null };
  /** Pictures of the part with a letter at each measure: of its family's example until it is one. */
  sketch: { readonly ask: PartAsk; readonly answer: readonly SketchAnswer[] };
  /** Which input drives each size of a blank's picture, by the name of the size. */
  drivers: { readonly ask: BlankAsk; readonly answer: Readonly<Record<string, string>> };
  /** How the middle of a hole moves in its picture with each of its two figures. */
  holeWays: { readonly ask: HoleAsk; readonly answer: HoleWays | null };
  /** A DXF that is to be cut for a part, folded up and compared with what was asked. */
  proved: { readonly ask: ProveAsk; readonly answer: ProvedAnswer };
  /** The part, or the whole that it is welded to, as panels on hinges; by its plan where it is planned. */
  model: { readonly ask: ModelAsk; readonly answer: ModelAnswer | null };
  /** The machine's section in the middle of a stroke, as an SVG element; none of one by hand. */
  section: { readonly ask: SectionAsk; readonly answer: string | null };
  /** What the mark on a paper is of, among the parts of the job; `null` where the text holds none. */
  paper: { readonly ask: PaperAsk; readonly answer: PaperAnswer | null };
  /** Other designs of a part that the shop can fold; it takes some seconds. */
  redesigns: { readonly ask: PartAsk; readonly answer: readonly RedesignAnswer[] };
  /** The files of a part. */
  files: { readonly ask: FilesAsk; readonly answer: FilesAnswer };
  /** What files a part would have, told before any is made. */
  ahead: { readonly ask: PartAsk; readonly answer: PapersAhead };
  /** What the whole job takes of sheet. */
  cutlist: { readonly ask: Texts; readonly answer: CutListResult | null };
  /** The archives of the whole job for a cutting service; none where the job cannot be read. */
  pack: { readonly ask: Texts; readonly answer: PackAnswer };
  /** The shop, machine by machine. */
  shop: { readonly ask: string | null; readonly answer: ShopAnswer };
  /** The text of the shop file with something changed. */
  shopChanged: {
    readonly ask: { readonly shop: string | null; readonly change: ShopChange };
    readonly answer: ShopChanged;
  };
  /** What measured strips, as CSV, tell of bends. */
  strips: { readonly ask: string; readonly answer: StripsAnswer };
  /** A DXF of anybody's, looked at. */
  inspect: { readonly ask: InspectAsk; readonly answer: InspectAnswer };
}

export type Kind = keyof Questions;

/** What the core answers: every question of the page, by its name; what takes long tells how far it is. */
export type Answers = {
  readonly [K in Kind]: (
    ask: Questions[K]['ask'],
    tell?: TellProgress,
  ) => Promise<Questions[K]['answer']>;
};

/** The texts of the job file and of the shop file; no shop file where there is none. */
export interface Texts {
  readonly job: string;
  readonly shop: string | null;
}

export interface PartAsk extends Texts, Screen {
  readonly index: number;
}

export interface FoldedAsk extends PartAsk {
  readonly blank: number;
  /** Where it is seen from: degrees about the upright axis, and up; `null` for where most is seen. */
  readonly from: readonly [sideDeg: number, riseDeg: number] | null;
  /** How many strokes of its plan are made, in parts of one too; `null` for all folds. */
  readonly strokes: number | null;
  /** Whether the whole set is asked for, in place of one piece of it, and that taken apart. */
  readonly isSet: boolean;
  readonly isApart: boolean;
}

export interface ShapeAsk extends PartAsk {
  readonly blank: number;
}

export interface ModelAsk extends PartAsk {
  readonly blank: number;
  /** Whether the whole set is asked for, in place of one piece of it. */
  readonly isSet: boolean;
  /** Whether the order of folds is to be that of the plan, which takes longer. */
  readonly isPlanned: boolean;
}

export interface SectionAsk extends PartAsk {
  readonly blank: number;
  /** The stroke of the plan, from 0, and how far it is, from 0 to 1. */
  readonly stroke: number;
  readonly share: number;
}

export interface FilesAsk extends PartAsk {
  readonly outputs: readonly OutputId[];
  /** What they are printed on; A4 when left out. */
  readonly paper?: SheetName;
}

export interface InspectAsk {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly thickness: string;
}

export interface FamilyAnswer {
  readonly family: string;
  readonly summary: string;
  readonly example: Readonly<Record<string, unknown>>;
}

export interface JobAnswer {
  readonly title: string;
  readonly problems: readonly InputProblem[];
  readonly shopProblems: readonly InputProblem[];
  readonly shopName: string;
  readonly measurements: readonly {
    readonly name: string;
    readonly given: string;
    readonly mm: number | undefined;
  }[];
  readonly parts: readonly {
    readonly family: string;
    readonly name: string;
    readonly problems: readonly InputProblem[];
  }[];
}

/** One input of a part as the page shows it. */
export interface FieldAnswer extends Omit<InputDescription, 'withMeasurements'> {
  /** As it is written in the job file; `undefined` where it is left out. */
  readonly given: string | boolean | undefined;
  /** What was read of it, where it is a figure: mm, degrees or pieces. */
  readonly figure: number | undefined;
  /** How points were found from tape distances, where it holds such. */
  readonly survey: Survey | undefined;
  /** Whether it has a meaning beside the others. */
  readonly applies: boolean;
}

export interface PaperAsk extends Texts {
  /** As it is read from the square code, or typed. */
  readonly text: string;
}

export interface PaperAnswer {
  /** What the paper is of, for a person. */
  readonly words: string;
  /** The place of its part in the job, and which blank of it; `null` where the job has no such part. */
  readonly index: number | null;
  readonly blank: number;
  /** Whether the cut file is still the one that the paper was printed for. */
  readonly state: 'same' | 'changed' | 'not told';
}

export interface PartAnswer {
  readonly family: string;
  readonly name: string;
  readonly fields: readonly FieldAnswer[];
  readonly problems: readonly InputProblem[];
  readonly blanks: readonly BlankAnswer[];
  readonly reports: readonly ReportResult[];
}

export interface BlankAnswer extends Pick<
  PartResult,
  'name' | 'piece' | 'hand' | 'quantity' | 'blank' | 'folded' | 'foldPlan'
> {
  readonly sheet: string;
  readonly stopped: boolean;
  readonly findings: readonly FindingResult[];
  readonly bends: readonly BendResult[];
  readonly fit: FitResult | null;
  /** Worst difference of the written file from what was asked, mm. */
  readonly proofMm: number | null;
  /** The blank with its sizes; `null` where there is none. */
  readonly flat: PictureAnswer | null;
  /** The part folded, small and without words; empty where there is nothing to see. */
  readonly thumb: string;
  /** Steps of the plan, or what stands in their way. */
  readonly steps: readonly StepAnswer[];
  readonly machine: string | null;
  /** Whether it is a piece of a set that is welded to a whole. */
  readonly isOfSet: boolean;
  /** What is told of a tube, which has marks or patterns in the place of a blank; `null` of sheet. */
  readonly tube: {
    readonly kind: 'bent' | 'coped';
    readonly cutLengthMm: number;
    readonly massKg: number;
    readonly bends: number;
    /** What its walked sheet was found to be, in words; empty of a tube without bends. */
    readonly proof: string;
  } | null;
}

/** One stroke: lines each with the word that they are found by, and pictures with their titles. */
export interface StepAnswer {
  readonly title: string;
  readonly lines: readonly (readonly [word: string, text: string])[];
  readonly pictures: readonly { readonly title: string; readonly picture: string }[];
}

/** A change of the design after which the shop folds the part, and what it costs, in words. */
export interface RedesignAnswer {
  readonly words: string;
  /** Inputs to give in place of those that there are, or beside them. */
  readonly inputs: Readonly<Record<string, string | number>>;
}

export interface FilesAnswer {
  readonly problems: readonly InputProblem[];
  readonly files: readonly { readonly name: string; readonly contents: string | Uint8Array }[];
}

export interface PackAnswer extends FilesAnswer {
  /** Parts that are left out, each with the reason. */
  readonly left: PackResult['left'];
}

export interface InspectAnswer {
  readonly problems: readonly InputProblem[];
  readonly findings: readonly FindingResult[];
  readonly picture: string;
  readonly files: readonly { readonly name: string; readonly contents: string | Uint8Array }[];
}
