import type { CommonValues } from '../forms/common.ts';
import { type Figures, LENGTH } from './figures.ts';
import type { GivenTabMap } from './given-pieces.ts';
import { SIZE } from './shape.ts';

/** A tab with its figures worked out, mm. */
export interface ReadTab {
  readonly count: number;
  readonly widthMm: number;
  /** Nothing where that follows from sheet and cutter. */
  readonly clearanceMm: number | undefined;
  readonly fromMm: number | undefined;
  readonly pitchMm: number | undefined;
}

const COUNT = { kind: 'count', least: 1, most: 100 } as const;
const CLEARANCE = { kind: 'length', least: 0, most: 20 } as const;

/** Thicknesses that a tooth is wide, and the least of it, mm (common practice). */
const USUAL_WIDTH = { thicknesses: 5, leastMm: 10 } as const;

/** Nothing where a figure was told to be wrong. */
export const readTab = (
  given: GivenTabMap,
  at: string,
  figures: Figures,
  { thicknessMm }: CommonValues,
): ReadTab | undefined => {
  const told = figures.problems.length;
  const read = (
    key: 'count' | 'width' | 'clearance' | 'from' | 'pitch',
    limits: Parameters<Figures['read']>[1 | 2] & object,
  ): number | undefined => {
    const value = given[key];
    return value === undefined ? undefined : figures.read(value, `${at}.${key}`, limits);
  };
  const usual = Math.max(USUAL_WIDTH.leastMm, USUAL_WIDTH.thicknesses * thicknessMm);
  const tab: ReadTab = {
    count: read('count', COUNT) ?? 2,
    widthMm: read('width', SIZE) ?? usual,
    clearanceMm: read('clearance', CLEARANCE),
    fromMm: read('from', LENGTH),
    pitchMm: read('pitch', SIZE),
  };
  return figures.problems.length > told ? undefined : tab;
};
