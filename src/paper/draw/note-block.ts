import { type Extents, loopExtents } from '../../geometry/extents.ts';
import { moveLoop } from '../../geometry/motion2.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { HEIGHTS, type BlankTextRoom, type TextItem, textWidth } from './blank-text-room.ts';

/** From one line to the next, in letter heights. */
const LINE_STEP = 1.6;
/** Letters are at most this share of the blank's smaller side. */
const LARGEST_SHARE = 0.06;
/** How many places are tried across a panel, each way. */
const TRIES = [0, 0.5, 1, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875] as const;

/**
 * The lines of notes as one block, level, in the largest letters for which a panel has room clear
 * of holes and other texts; the largest panel comes first. Without room they stand in the smallest
 * letters at the blank's lower left.
 */
export function noteBlock(
  room: BlankTextRoom,
  flat: FlatPattern,
  lines: readonly string[],
): TextItem[] {
  const panels = panelBoxes(flat);
  const tallest = Math.max(
    HEIGHTS.at(-1) ?? 1,
    LARGEST_SHARE * Math.min(flat.widthMm, flat.heightMm),
  );
  for (const height of HEIGHTS.filter((h) => h <= tallest)) {
    for (const box of panels) {
      const free = room.place(places(box, lines, height));
      if (free !== undefined) return free;
    }
  }
  const smallest = HEIGHTS.at(-1) ?? 1;
  return block(smallest, smallest + (lines.length - 1) * LINE_STEP * smallest, lines, smallest);
}

const panelBoxes = (flat: FlatPattern): Extents[] =>
  [...flat.panels]
    .sort((a, b) => b.areaMm2 - a.areaMm2)
    .flatMap((panel) => loopExtents(moveLoop(panel.placement, panel.region)) ?? []);

function places(box: Extents, lines: readonly string[], height: number): TextItem[][] {
  const margin = height;
  const width = Math.max(...lines.map((line) => textWidth(line, height)));
  const tall = height * (1 + (lines.length - 1) * LINE_STEP);
  const spareX = box.maxX - box.minX - width - 2 * margin;
  const spareY = box.maxY - box.minY - tall - 2 * margin;
  if (spareX < 0 || spareY < 0) return [];
  return TRIES.flatMap((down) =>
    TRIES.map((right) =>
      block(
        box.minX + margin + right * spareX,
        box.maxY - margin - height - down * spareY,
        lines,
        height,
      ),
    ),
  );
}

const block = (x: number, top: number, lines: readonly string[], heightMm: number): TextItem[] =>
  lines.map((text, i) => ({
    kind: 'text',
    role: 'note',
    at: [x, top - i * LINE_STEP * heightMm],
    heightMm,
    angleDeg: 0,
    text,
  }));
