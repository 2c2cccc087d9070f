import { along, distance, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend } from '../../model/flat.ts';
import { HEIGHTS, type BlankTextRoom, type TextItem, textWidth } from './blank-text-room.ts';
import { readableLine } from './readable.ts';

/** Larger letters beside a fold would hide it. */
const TALLEST_MM = 5;
/** Distance of the letters from the line, in letter heights. */
const CLEARANCE = 0.4;

/**
 * The text of a fold, or of a line for the rolls, along its line: in the largest letters that find room, near its left end
 * where that is free.
 */
export function foldNote(
  room: BlankTextRoom,
  bend: Pick<FlatBend, 'centreLine'>,
  text: string,
  turnedOver: string,
): TextItem {
  const [from, to] = readableLine(bend.centreLine);
  const long = distance(from, to);
  const heights = HEIGHTS.filter((h) => h <= TALLEST_MM && textWidth(text, h) + 2 * h <= long);
  const candidates = (heights.length > 0 ? heights : HEIGHTS.slice(-1)).flatMap((h) =>
    places(from, to, text, h),
  );
  const [free] = room.place(candidates.map((place) => [place] as const)) ?? [];
  if (free !== undefined) return { ...free, turnedOver };
  const last = candidates.at(-1) as TextItem;
  room.take(last);
  return { ...last, turnedOver };
}

function places(from: Vec2, to: Vec2, text: string, heightMm: number): TextItem[] {
  const direction = unit(sub(to, from));
  const angleDeg = (Math.atan2(direction[1], direction[0]) * 180) / Math.PI;
  const spare = Math.max(0, distance(from, to) - textWidth(text, heightMm));
  const margin = Math.min(heightMm, spare / 2);
  const above = CLEARANCE * heightMm;
  const below = -(1 + CLEARANCE) * heightMm;
  return [margin, spare / 2, spare - margin, spare / 4, (3 * spare) / 4].flatMap((start) =>
    [above, below].map((lift): TextItem => {
      const at = along(along(from, direction, start), leftOf(direction), lift);
      return { kind: 'text', role: 'note', at, heightMm, angleDeg, text };
    }),
  );
}
