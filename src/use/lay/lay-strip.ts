import type { StripResult } from '../../contract/lay.ts';
import { readDocument } from '../../forms/read-document.ts';
import { shrinkStrip } from '../../lay/shrink-strip.ts';
import { areaOfItems, type Strip, type StripTask, stripTask } from '../../lay/strip-task.ts';
import { emptyLayout, type Layout } from '../../lay/layout.ts';
import { randomFrom } from '../../lay/random.ts';
import { assertSound } from './assert-sound.ts';
import type { Done, Refused } from '../use-case.ts';
import { STRIP } from './strip-form.ts';

export interface StripRequest {
  /** Text of the file, JSON or YAML. */
  readonly text: string;
  readonly seed: number;
  /** Asked before each step with the number of steps made so far. */
  readonly mayGoOn: (steps: number) => boolean;
  /** Told whenever a shorter layout is found. */
  readonly onBetter?: (usedLength: number, densityPercent: number) => void;
}

export const STRIP_ALLOWED =
  'a JSON file with stripWidth and items, each with id, demand, allowedRotations and polygon';

const WORDS = {
  input: 'strip',
  allowed: STRIP_ALLOWED,
  look: 'every polygon is a list of points [x, y]',
};

export type ReadStrip = Refused | { readonly ok: true; readonly strip: Strip };

/** Reads a strip; all problems are told together. */
export const readStrip = (text: string): ReadStrip => {
  const read = readDocument(text, STRIP, WORDS);
  if (!read.ok) return { ok: false, problems: read.problems };
  const { stripWidth, items } = read.value;
  return {
    ok: true,
    strip: {
      width: stripWidth,
      items: items.map(({ id, demand, allowedRotations, polygon }) => ({
        id,
        demand,
        turnsDeg: allowedRotations,
        polygon,
      })),
    },
  };
};

/**
 * Lays everything on a strip and makes that shorter and shorter, until it may not go on. The same
 * seed and the same number of steps give the same layout. It never throws for anything given.
 */
export const layStrip = (request: StripRequest): Refused | Done<StripResult> => {
  const read = readStrip(request.text);
  if (!read.ok) return read;
  const { strip } = read;
  const made = stripTask(strip);
  const layout = emptyLayout(made.task);
  const area = areaOfItems(strip);
  const densityOf = (length: number): number => (100 * area) / (strip.width * length);
  let steps = 0;
  const usedLength = shrinkStrip(
    layout,
    randomFrom(request.seed),
    () => request.mayGoOn(steps) && ++steps > 0,
    (length) => request.onBetter?.(length, densityOf(length)),
  );
  const result: StripResult = {
    usedLength,
    densityPercent: densityOf(usedLength),
    placements: placementsOf(strip, made, layout),
    seed: request.seed,
    steps,
  };
  assertSound(strip, result);
  return { ok: true, result, findings: [], files: [] };
};

const placementsOf = (
  strip: Strip,
  { itemOf, task }: StripTask,
  { shape, x, y }: Layout,
): StripResult['placements'] =>
  itemOf.map((n, i) => ({
    item: (strip.items[n] as Strip['items'][number]).id,
    x: x[i] as number,
    y: y[i] as number,
    turnDeg: (task.shapes[shape[i] as number] as { readonly turnDeg: number }).turnDeg,
  }));
