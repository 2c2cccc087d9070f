import type { Drawing } from '../../model/drawing.ts';
import { lineExtents } from '../../model/drawing-extents.ts';
import { ANY_IMPORT, type CutterImport } from '../../model/shop.ts';
import { dxfR12 } from './dxf-r12.ts';
import { dxfR2000 } from './dxf-r2000.ts';
import { inForm } from './file-form.ts';
import { fileItems } from './file-items.ts';
import { dxfText, headLines } from './text.ts';

export interface DxfOptions {
  /** `r2000` for all present readers, `r12` for old controllers. */
  readonly version: 'r2000' | 'r12';
  /** Whether everything but outline and holes is left out. */
  readonly cutOnly: boolean;
  /**
   * The form that the reading program wants; all layers, true arcs and millimetres when left out.
   */
  readonly form?: CutterImport;
}

/**
 * The drawing as the text of a DXF file, in millimetres unless another form is asked for: loops as
 * closed polylines with bulges, circles, lines and texts, one layer per role. The text is ASCII,
 * and the same for the same drawing. A drawing without lines has its extents at the origin. Throws
 * when a number is not finite.
 */
export const writeDxf = (
  drawing: Drawing,
  { version, cutOnly, form = ANY_IMPORT }: DxfOptions,
): string => {
  const items = inForm(fileItems(drawing, { cutOnly }), form);
  const extents = lineExtents(items) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const comments = headLines(drawing).map((line) => `999\n${dxfText(line)}\n`);
  return (
    comments.join('') +
    (version === 'r12' ? dxfR12(items, extents) : dxfR2000(items, extents, form.units))
  );
};
