import type { Shape, ShapeRole, StepPicture } from '../draw/fold-step.ts';
import { figure } from '../figures.ts';
import { pointExtents } from '../geometry/extents.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { FoldStep } from '../plan/part-plan.ts';
import { fileNumber } from './numbers.ts';
import { singleLine, xmlText } from './text.ts';

/** One step: what is to be done, and its pictures; a fold made by hand has none. */
export interface DrawnStep {
  readonly step: FoldStep;
  readonly picture?: StepPicture;
}

export interface FoldSheetHead {
  readonly title: string;
  /** By which the file is known again. */
  readonly mark: string;
  /** As a person calls it. */
  readonly machine: string;
}

/** Width of an A4 page less its margins, mm. */
const PAGE_MM = 190;
const ROW_MM = 78;
const HEAD_MM = 21;
const TEXT_MM = 4;
/** The three pictures of a row, side by side under its text. */
const CELL_MM = { width: 60, height: 58, gap: 5 };

/** Told apart by shade and line, so that they read in black and white. */
const STYLES: Readonly<Record<ShapeRole, string>> = {
  machine: 'fill="#d8d8d8" stroke="#808080" stroke-width="0.15"',
  held: 'fill="#000000" stroke="#000000" stroke-width="0.5" stroke-linejoin="round"',
  swung: 'fill="#ffffff" stroke="#000000" stroke-width="0.5" stroke-linejoin="round"',
  broadside: 'fill="#000000" fill-opacity="0.06" stroke="#000000" stroke-width="0.25" stroke-dasharray="1 0.6"',
  face: 'fill="#ffffff" stroke="#000000" stroke-width="0.2" stroke-linejoin="round"',
  'swung-face': 'fill="#e8e8e8" stroke="#000000" stroke-width="0.2" stroke-linejoin="round"',
  'fold-line': 'fill="none" stroke="#000000" stroke-width="0.9" stroke-dasharray="2.5 1.2"',
};

/**
 * The steps of a fold plan as one SVG page, in the width of A4: for each the section of the machine with the part in it
 * before the stroke (held side black) and after it, and the part in view with its next fold as a thick broken line. Not
 * to scale.
 */
export function writeFoldSteps({ title, mark, machine }: FoldSheetHead, steps: readonly DrawnStep[]): string {
  const height = HEAD_MM + steps.reduce((sum, s) => sum + rowHeight(s), 0);
  let top = HEAD_MM;
  const rows = steps.flatMap((drawn, i) => {
    const row = rowOf(drawn, i + 1, top);
    top += rowHeight(drawn);
    return row;
  });
  const name = xmlText(singleLine(title));
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${PAGE_MM}mm" height="${height}mm" viewBox="0 0 ${PAGE_MM} ${height}" font-family="sans-serif">`,
    `  <title>${name}: how it is folded</title>`,
    `  <desc>${xmlText(singleLine(mark))}</desc>`,
    `  <rect width="${PAGE_MM}" height="${height}" fill="#ffffff"/>`,
    `  <text x="0" y="7" font-size="5.5" font-weight="bold">${name}: how it is folded</text>`,
    `  <text x="0" y="12" font-size="3.4">On ${xmlText(singleLine(machine))}</text>`,
    `  <text x="0" y="16.5" font-size="3.4">Black is clamped, white is swung, broken lines stand beside the tools. Not to scale.</text>`,
    ...rows,
    '</svg>',
    '',
  ].join('\n');
}

const rowHeight = ({ picture }: DrawnStep): number => (picture === undefined ? 3 * TEXT_MM : ROW_MM);

function rowOf({ step, picture }: DrawnStep, number: number, top: number): string[] {
  const lines = linesOf(step, number);
  const texts = lines.map((line, i) => `  <text x="0" y="${top + TEXT_MM * (i + 1)}" font-size="${i === 0 ? 4.2 : 3.4}"${i === 0 ? ' font-weight="bold"' : ''}>${xmlText(singleLine(line))}</text>`);
  if (picture === undefined) return texts;
  const under = top + TEXT_MM * 3 + 2;
  return [...texts, ...[picture.before, picture.after, picture.view].flatMap((shapes, i) => cell(shapes, i * (CELL_MM.width + CELL_MM.gap), under, i < 2, `cell-${number}-${i + 1}`))];
}

function linesOf(s: FoldStep, number: number): string[] {
  const moves = [...(s.flip ? ['turn it over'] : []), ...(s.turnDeg > 0 ? [`turn it by ${figure(s.turnDeg, 1)} degrees`] : [])];
  const mark = s.sightLineMm === null ? `mark: by ${s.from}` : `mark: ${figure(s.sightLineMm, 1)} mm from ${s.from}`;
  const tools = s.fingersMm.length === 0 ? '' : `; tools ${s.fingersMm.map((w) => figure(w, 0)).join(' + ')} mm`;
  return [
    `${number}. Fold ${s.bend}: stop at ${figure(s.stopAtDeg, 1)} degrees${moves.length > 0 ? `; first ${moves.join(' and ')}` : ''}`,
    `${mark}; clamp ${s.clampedSide}${tools}`,
    ...(s.note === null ? [] : [s.note]),
  ];
}

/** Sections show the part and what of the machine is near it; views show all of it. */
function cell(shapes: readonly Shape[], x: number, y: number, isSection: boolean, id: string): string[] {
  const near = shapes.filter((s) => s.role !== 'machine').flatMap((s) => s.points);
  const box = pointExtents(isSection ? [...near, [-45, -20], [45, 60]] : near) ?? { minX: 0, minY: 0, maxX: 1, maxY: 1 };
  const margin = 4;
  const scale = Math.min((CELL_MM.width - margin) / (box.maxX - box.minX), (CELL_MM.height - margin) / (box.maxY - box.minY));
  const middle: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  const place = ([px, py]: Vec2): string =>
    `${fileNumber(x + CELL_MM.width / 2 + (px - middle[0]) * scale)},${fileNumber(y + CELL_MM.height / 2 - (py - middle[1]) * scale)}`;
  return [
    `  <clipPath id="${id}"><rect x="${x}" y="${y}" width="${CELL_MM.width}" height="${CELL_MM.height}"/></clipPath>`,
    `  <g clip-path="url(#${id})">`,
    ...shapes.map(({ role, points }) => `    <${role === 'fold-line' ? 'polyline' : 'polygon'} points="${points.map(place).join(' ')}" ${STYLES[role]}/>`),
    '  </g>',
    `  <rect x="${x}" y="${y}" width="${CELL_MM.width}" height="${CELL_MM.height}" fill="none" stroke="#808080" stroke-width="0.15"/>`,
  ];
}
