import { type Layout, moveTo, roomFor } from '../layout.ts';
import { type Effort, putBack, separate } from '../separate.ts';
import type { Shape } from '../shapes.ts';
import { pieceOn, usedSheets } from './aim.ts';
import { cleanAreaOn } from './clean-rectangle.ts';
import { type Search, took, widen } from './search.ts';
import { remnantSheets } from './sheet-sets.ts';
import { numbersOf, roomyShapes, throwOn } from './throw-on.ts';

const SHORT: Effort = { idleRounds: 25, idleAttempts: 1 };

/** Shares of what is taken up of a sheet that are tried to be saved at once, at most and at least. */
const SAVED = { most: 0.25, least: 0.002 };

/**
 * Tries to make the layout better on the sheets that it lies on: a part from a whole sheet is thrown
 * on a remnant, or what lies on the sheet with the most room left is pressed together along it or
 * across it.
 */
export const makeRoom = (search: Search): boolean => {
  const { layout, random } = search;
  putBack(layout, search.best);
  widen(search);
  const remnants = remnantSheets(search.stock);
  if (remnants.length > 0 && search.aim.onWholeMm2 > 0 && random.below(3) === 0)
    return toRemnant(search, remnants);
  return press(search);
};

const toRemnant = (search: Search, remnants: readonly number[]): boolean => {
  const { layout, random, stock, mayGoOn } = search;
  const onWhole = numbersOf(layout).filter((i) => {
    const k = layout.sheet[i] as number;
    return k >= 0 && !pieceOn(stock, k).isRemnant;
  });
  const one = onWhole[random.below(onWhole.length)];
  if (one === undefined || !throwOn(search, [one], remnants)) return false;
  return separate(layout, random, SHORT, mayGoOn).isApart && took(search);
};

const press = (search: Search): boolean => {
  const { layout, random, mayGoOn } = search;
  const sheet = roomiest(search);
  if (sheet === undefined) return false;
  const isAlong = random.below(2) === 0;
  const share = SAVED.least * (SAVED.most / SAVED.least) ** random.next();
  const limits = isAlong ? layout.lengths : layout.widths;
  limits[sheet] = reachOn(layout, sheet, isAlong) * (1 - share);
  if (!moveIn(search, sheet)) return false;
  return separate(layout, random, SHORT, mayGoOn).isApart && took(search);
};

/** Of the whole sheets that something lies on, or else the remnants, that with the most room left. */
const roomiest = ({ layout, stock }: Search): number | undefined => {
  const used = usedSheets(layout);
  const whole = used.filter((k) => !pieceOn(stock, k).isRemnant);
  const among = whole.length > 0 ? whole : used;
  const areas = among.map((k) => cleanAreaOn(layout, k));
  return among[areas.indexOf(Math.max(...areas))];
};

/** How far parts reach along or across a sheet. */
const reachOn = ({ on, count, x, y, shape, task }: Layout, sheet: number, isAlong: boolean) =>
  (on[sheet] as readonly number[]).reduce((reach, i) => {
    if (i >= count) return reach;
    const { maxX, maxY } = task.shapes[shape[i] as number] as Shape;
    return Math.max(reach, isAlong ? (x[i] as number) + maxX : (y[i] as number) + maxY);
  }, 0);

/** Moves parts into a sheet that has become less; those that find no room are thrown elsewhere. */
const moveIn = (search: Search, sheet: number): boolean => {
  const { layout } = search;
  const homeless: number[] = [];
  for (const i of layout.on[sheet] as readonly number[]) {
    if (i >= layout.count) continue;
    const { minX, maxX, minY, maxY } = roomFor(layout, layout.shape[i] as number, sheet);
    if (minX > maxX || minY > maxY) homeless.push(i);
    const x = Math.max(minX, Math.min(maxX, layout.x[i] as number));
    moveTo(layout, i, x, Math.max(minY, Math.min(maxY, layout.y[i] as number)));
  }
  if (homeless.length === 0) return true;
  const open = layout.open.filter((k) =>
    homeless.some((i) => roomyShapes(layout, i, k).length > 0),
  );
  return throwOn(search, homeless, open);
};
