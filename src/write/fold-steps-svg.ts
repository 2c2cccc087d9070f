import type { StepPicture } from '../draw/fold-step.ts';
import { stepCells } from '../draw/fold-step-picture.ts';
import { STEP_KEY, stepWords } from '../draw/fold-words.ts';
import { boxRing } from '../draw/strokes.ts';
import type { PictureItem } from '../model/picture.ts';
import type { FoldStep } from '../plan/part-plan.ts';
import { pictureSvg } from './picture-svg.ts';
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
const CELL = { widthMm: 60, heightMm: 58 };
const GAP_MM = 5;

/**
 * The steps of a fold plan as one SVG page, in the width of A4: for each the section of the machine with the part in it
 * before the stroke (held side black) and after it, and the part in view with its next fold as a thick broken line. Not
 * to scale.
 */
export function writeFoldSteps({ title, mark, machine }: FoldSheetHead, steps: readonly DrawnStep[]): string {
  const heightMm = HEAD_MM + steps.reduce((sum, s) => sum + rowHeight(s), 0);
  const name = `${singleLine(title)}: how it is folded`;
  let top = heightMm - HEAD_MM;
  const rows = steps.flatMap((drawn, i) => {
    const row = rowOf(drawn, i + 1, top);
    top -= rowHeight(drawn);
    return row;
  });
  const text = (down: number, sizeMm: number, line: string, isBold = false): PictureItem => ({ kind: 'label', at: [0, heightMm - down], sizeMm, text: line, isBold });
  const page = pictureSvg(
    {
      widthMm: PAGE_MM,
      heightMm,
      items: [
        { kind: 'area', rims: [boxRing({ minX: 0, minY: 0, maxX: PAGE_MM, maxY: heightMm })], fill: 1 },
        text(7, 5.5, name, true),
        text(12, 3.4, `On ${machine}`),
        text(16.5, 3.4, STEP_KEY),
        ...rows,
      ],
    },
    'cell',
  );
  const [open, ...rest] = page.split('\n');
  return [open, `<title>${xmlText(name)}</title>`, `<desc>${xmlText(singleLine(mark))}</desc>`, ...rest].join('\n');
}

const rowHeight = ({ picture }: DrawnStep): number => (picture === undefined ? 3 * TEXT_MM : ROW_MM);

function rowOf({ step, picture }: DrawnStep, number: number, top: number): PictureItem[] {
  const { title, moves, lines } = stepWords(step, number);
  const texts = [moves === null ? title : `${title}; ${moves}`, ...lines].map((text, i): PictureItem => ({ kind: 'label', at: [0, top - TEXT_MM * (i + 1)], sizeMm: i === 0 ? 4.2 : 3.4, isBold: i === 0, text }));
  if (picture === undefined) return texts;
  const bottom = top - TEXT_MM * 3 - 2 - CELL.heightMm;
  return [...texts, ...stepCells(picture, CELL).map(({ items }, i): PictureItem => ({ kind: 'group', at: [i * (CELL.widthMm + GAP_MM), bottom], items }))];
}
