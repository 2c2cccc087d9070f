import type { PaperMark } from '../../model/paper-mark.ts';
import { type SheetName, SHEETS } from '../../model/paper.ts';
import type { Picture } from '../../model/picture.ts';

/**
 * All that a job sheet shows, whatever it is shown on: texts as they are read, pictures, tables.
 */
export interface SheetContent {
  /** What it is printed on; its pictures are as wide as that allows. */
  readonly paper: SheetName;
  readonly head: SheetHead;
  readonly blocks: readonly SheetBlock[];
  /** From the page on a screen to others; on paper there are none. */
  readonly links?: readonly SheetLink[];
}

export interface SheetLink {
  readonly to: string;
  readonly text: string;
}

/** Back to the front page of the job, where there is one. */
export const linksHome = (home: string | undefined): SheetLink[] =>
  home === undefined ? [] : [{ to: home, text: 'Front page of the job' }];

/** What a part is called, its hand with it where there is another. */
export const handedName = ({ name, hand }: Pick<SheetHead, 'name' | 'hand'>): string =>
  hand === undefined ? name : `${name}, ${hand.toLowerCase()}`;

export interface SheetHead {
  readonly name: string;
  /** `LEFT HAND`, where there is another hand to be told from it. */
  readonly hand?: string;
  /** `2 off`. */
  readonly quantity: string;
  /** `S275JR, 3 mm`. */
  readonly sheet: string;
  /** What else the part is known by: family, piece, revision, note. */
  readonly lines: readonly string[];
  /** Name, without ending, of the papers of the whole that it is joined to. */
  readonly whole?: string;
  /** What is told on every page but the first, which tells more. */
  readonly caution?: string;
  /** Why it must not be made; nothing where it may. */
  readonly stop?: string;
  /** By which the file is known again; nobody reads it. */
  readonly mark: string;
  readonly paperMark: PaperMark;
  readonly title: SheetTitle;
}

/** What the title block of every page tells besides the part and the page. */
export interface SheetTitle {
  /** The paper, by the name of its file without ending. */
  readonly paper: string;
  readonly scale: string;
  readonly revision: string;
  /** As the user wrote it; empty where it is to be filled in by hand. */
  readonly date: string;
}

export type SheetBlock =
  Overview | PictureBlock | TableBlock | StepsBlock | TextBlock | NoticeBlock;

/** What nobody may miss: a word and a few more in a heavy frame. */
export interface NoticeBlock {
  readonly kind: 'notice';
  readonly lead: string;
  readonly text: string;
}

/** The part in view, its key figures beside it; or both beside a blank that is higher than wide. */
export interface Overview {
  readonly kind: 'overview';
  readonly picture?: Picture;
  readonly blank?: PictureBlock;
  readonly facts: readonly Fact[];
}

export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly isBig?: boolean;
}

export interface PictureBlock {
  readonly kind: 'picture';
  readonly title: string;
  readonly picture: Picture;
  readonly captions: readonly string[];
}

export interface TableBlock {
  readonly kind: 'table';
  readonly title: string;
  readonly columns: readonly Column[];
  /** As many texts in every row as there are columns. */
  readonly rows: readonly (readonly string[])[];
  readonly captions?: readonly string[];
  /** Halves side by side, the left one first; 1 when left out. */
  readonly across?: 1 | 2;
  /** Of what is looked up, not worked by: small letters, close rows. */
  readonly isClose?: boolean;
}

export interface Column {
  readonly name: string;
  /** What is worked by at the machine is big and bold. */
  readonly isBig?: boolean;
  /** Figures stand to the right, words to the left. */
  readonly isText?: boolean;
  /** A box to tick, and room to write beside it; its texts are empty. */
  readonly isBox?: boolean;
}

export interface StepsBlock {
  readonly kind: 'steps';
  readonly title: string;
  readonly captions: readonly string[];
  /** How many steps stand side by side. */
  readonly across: 1 | 2;
  readonly steps: readonly SheetStep[];
}

export interface SheetStep {
  readonly title: string;
  readonly lines: readonly string[];
  readonly pictures: readonly Picture[];
}

export interface TextBlock {
  readonly kind: 'texts';
  readonly title: string;
  readonly texts: readonly { readonly lead?: string; readonly text: string }[];
}

/** Texts under a title; nothing where there are none. */
export const texts = (title: string, list: TextBlock['texts']): TextBlock[] =>
  list.length === 0 ? [] : [{ kind: 'texts', title, texts: list }];

export const MARGIN_MM = 10;

/** Width of a page less its margins, mm. */
export const contentMm = (paper: SheetName): number => SHEETS[paper].widthMm - 2 * MARGIN_MM;

/** Side of the square code beside the name, mm. */
export const CODE_MM = 24;
/** Between things that stand side by side, mm. */
export const GUTTER_MM = 6;

/** A box to tick, and the room of its column, mm. */
export const BOX_MM = { side: 3.4, column: 26 } as const;

/** Sizes of letters, mm: what is worked by, and what is read beside it. */
export const TYPE_MM = { name: 9, head: 5, title: 4.6, big: 4.7, text: 3.3, note: 3, small: 2.8 };
