import type { FindingResult } from '../../contract/part.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { PartAsk } from './questions.ts';

/** One blank of a part. */
export interface BlankAsk extends PartAsk {
  readonly blank: number;
}

export interface HoleAsk extends BlankAsk {
  readonly input: string;
  /** Which entry of the input, from 0. */
  readonly entry: number;
  /** The text of the input with the first and the second figure of the entry a millimetre more. */
  readonly more: readonly [string, string];
}

/** Millimetres of the picture, as its SVG has them, for a millimetre of each figure. */
export interface HoleWays {
  readonly across: readonly [x: number, y: number];
  readonly along: readonly [x: number, y: number];
}

export interface ProveAsk extends BlankAsk {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface ProvedAnswer {
  readonly problems: readonly InputProblem[];
  readonly findings: readonly FindingResult[];
  readonly worstMm: number | null;
  /** The measures that are farthest off, the worst first. */
  readonly measures: readonly {
    readonly name: string;
    readonly asked: number;
    readonly found: number | null;
  }[];
}

/** A picture as an SVG element, with what in it can be pointed at, in the units of the SVG. */
export interface PictureAnswer {
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly spots: readonly SpotAnswer[];
  readonly holes: readonly DrawnHole[];
}

export interface SpotAnswer {
  readonly of: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A hole that an input gave, its middle and how far it reaches. */
export interface DrawnHole {
  readonly input: string;
  readonly entry: number;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

export interface SketchAnswer extends PictureAnswer {
  readonly piece: string | null;
  /** The letters that are in it, by the inputs that they stand for. */
  readonly letters: Readonly<Record<string, string>>;
}
