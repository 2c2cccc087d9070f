import type { Extents } from '../../geometry/extents.ts';
import { SAME_IN_FILE_MM } from '../../geometry/tolerance.ts';
import type { PictureItem } from '../../model/picture.ts';
import type { Printed } from '../../text/printed.ts';
import { NARROW } from '../draw/line-types.ts';
import { spread } from '../draw/running-sizes.ts';
import { line } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';

/** A place along an edge of the sheet, and the parts that begin there. */
export interface EdgeTick {
  readonly mm: number;
  readonly text: string;
}

const LETTERS_MM = 3.2;
/** From one figure to the next, mm. */
const PITCH_MM = 1.15 * LETTERS_MM;
/** Off the sheet; to where a line is bent; to the figures, mm. */
const [GAP_MM, JOG_MM, LINE_MM] = [0.8, 3, 8] as const;
/** Parts that are named behind a figure. */
const MOST_NAMED = 3;

/** The places where parts begin, each once, from 0 to the end of the sheet. */
export const edgeTicks = (
  parts: readonly { readonly mm: number; readonly number: number }[],
  end: number,
  print: Printed,
): EdgeTick[] => {
  const places: { mm: number; numbers: number[] }[] = [{ mm: 0, numbers: [] }];
  const all = [...parts, { mm: end, number: 0 }].toSorted((a, b) => a.mm - b.mm);
  for (const { mm, number } of all) {
    const last = places.at(-1);
    const numbers = number === 0 ? [] : [number];
    if (last !== undefined && mm - last.mm < SAME_IN_FILE_MM) last.numbers.push(...numbers);
    else places.push({ mm, numbers });
  }
  return places.map(({ mm, numbers }) => {
    const named = numbers.length > 0 && numbers.length <= MOST_NAMED;
    const whose = named ? ` (${numbers.toSorted((a, b) => a - b).join(', ')})` : '';
    return { mm, text: print.tape(mm, 1) + whose };
  });
};

/** A figure stands no farther than this from where it belongs, mm. */
const MOST_ASIDE_MM = 20;

/** Whether the figures stand beside each other on so much paper, each near its place. */
export const haveRoom = (ticks: readonly EdgeTick[], roomMm: number, scale: number): boolean =>
  ticks.length * PITCH_MM <= roomMm &&
  placesOf(ticks, [0, roomMm], scale).every(
    (place, i) => Math.abs(place - (ticks[i]?.mm ?? 0) * scale) <= MOST_ASIDE_MM,
  );

/** Where the figures stand along an edge. */
const placesOf = (
  ticks: readonly EdgeTick[],
  [start, end]: readonly [number, number],
  scale: number,
): number[] =>
  spread(
    ticks.map(({ mm }) => start + mm * scale),
    PITCH_MM,
    [start - PITCH_MM / 4, end + PITCH_MM / 4],
  );

/** How far a row of figures reaches off the sheet, mm. */
export const depthOf = (ticks: readonly EdgeTick[]): number =>
  LINE_MM + Math.max(0, ...ticks.map(({ text }) => textWidthMm(text, LETTERS_MM))) + 1;

/** The row under a sheet, its figures read from the right; or on the left of it, read from below. */
export const edgeRow = (
  ticks: readonly EdgeTick[],
  { minX, minY, maxX, maxY }: Extents,
  scale: number,
  side: 'bottom' | 'left',
): PictureItem[] => {
  const isLeft = side === 'left';
  const [start, end] = isLeft ? [minY, maxY] : [minX, maxX];
  const places = placesOf(ticks, [start, end], scale);
  const at = (along: number, off: number): [number, number] =>
    isLeft ? [minX - off, along] : [along, minY - off];
  return ticks.flatMap(({ mm, text }, i): PictureItem[] => {
    const [from, to] = [start + mm * scale, places[i] as number];
    const base = to - 0.36 * LETTERS_MM;
    return [
      line(at(from, GAP_MM), at(from, JOG_MM), NARROW),
      line(at(from, JOG_MM), at(to, LINE_MM - 1), NARROW),
      isLeft
        ? { kind: 'label', at: [minX - LINE_MM, base], sizeMm: LETTERS_MM, text, align: 'right' }
        : {
            kind: 'label',
            at: [to + 0.36 * LETTERS_MM, minY - LINE_MM],
            sizeMm: LETTERS_MM,
            text,
            align: 'right',
            angleDeg: 90,
          },
    ];
  });
};
