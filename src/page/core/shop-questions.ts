import type { InputProblem } from '../../forms/problem.ts';
import type { Finding } from '../../model/finding.ts';
import type { CutterProcess, Shop } from '../../model/shop.ts';
import type { Kind as MachineKind } from '../../use/shop/shop-questions.ts';

/** The shop as the page shows it, and what it changes of it. */
export interface ShopAnswer {
  readonly machines: readonly MachineAnswer[];
  readonly cutters: readonly {
    readonly name: string;
    readonly process: string;
    readonly thickness: string;
    readonly bed: string;
    readonly isOwn: boolean;
  }[];
  /** Sheets in the rack, as they are typed. */
  readonly sheets: string;
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
