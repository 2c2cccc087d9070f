import type { Vec2 } from '../../geometry/vec2.ts';
import { type Affine, mapPoint, mapVector } from './affine.ts';
import { printable } from './printable.ts';
import { type DxfRecord, numberAt, textAt } from './records.ts';

/** A line of text of the drawing, in mm. */
export interface WrittenText {
  readonly text: string;
  /** The left end of its base line. */
  readonly at: Vec2;
  /** Of its capitals. */
  readonly heightMm: number;
  readonly angleDeg: number;
}

/** Entities that hold texts; what some of them say is not read. */
export const TEXTS = new Set([
  'TEXT',
  'MTEXT',
  'ATTRIB',
  'ATTDEF',
  'DIMENSION',
  'LEADER',
  'MULTILEADER',
  'MLEADER',
  'TOLERANCE',
  'ARCALIGNEDTEXT',
  'RTEXT',
  'ACAD_TABLE',
]);

/** Higher or lower letters than these, mm, are a mistake of the file. */
const HEIGHTS_MM = [0.1, 2000] as const;

/** Changes of font, colour and the like within a paragraph (DXF Reference, MTEXT). */
const FORMAT = /\\[ACFHQTWfp][^;]*;|\\[LlOoKk]|[{}]/g;

/**
 * What TEXT and MTEXT say, a line each, about where it stands: the widths of its font are not
 * known here, so that texts aligned otherwise than to the left begin where they are aligned.
 */
export const writtenText = (record: DxfRecord, map: Affine): WrittenText[] => {
  if (record.type !== 'TEXT' && record.type !== 'MTEXT') return [];
  const up = mapVector(map, [0, numberAt(record, 40, 0)]);
  const heightMm = Math.hypot(...up);
  const turn = (numberAt(record, 50) * Math.PI) / 180;
  const [dx, dy] = mapVector(map, [Math.cos(turn), Math.sin(turn)]);
  const [x, y] = mapPoint(map, [numberAt(record, 10), numberAt(record, 20)]);
  const angleDeg = (Math.atan2(dy, dx) * 180) / Math.PI;
  if (![x, y, angleDeg].every(Number.isFinite)) return [];
  if (!(heightMm >= HEIGHTS_MM[0] && heightMm <= HEIGHTS_MM[1])) return [];
  const isParagraph = record.type === 'MTEXT';
  const lines = (textAt(record, 1) ?? '')
    .split(isParagraph ? /\\P/ : /\n/)
    .map((line) => printable(isParagraph ? line.replace(FORMAT, '') : line));
  const down: Vec2 = [Math.sin((angleDeg * Math.PI) / 180), -Math.cos((angleDeg * Math.PI) / 180)];
  return lines.flatMap((text, i): WrittenText[] => {
    // A paragraph is placed by the top of its first line, and its lines stand 5/3 apart.
    const below = heightMm * (isParagraph ? 1 + (5 / 3) * i : 0);
    const at: Vec2 = [x + below * down[0], y + below * down[1]];
    return text === '' ? [] : [{ text, at, heightMm, angleDeg }];
  });
};
