import type { Drawing } from '../../model/drawing.ts';
import type { TextFile } from '../../model/output-file.ts';
import type { DrawingForm } from '../made-part.ts';
import { cutOutputs } from './index.ts';

/** The DXF of a drawing, in the dialect that is asked for. */
export const dxfText = (drawing: Drawing, { cutOnly, dxfVersion, form }: DrawingForm): string => {
  const dxf = cutOutputs(dxfVersion).find(({ extension }) => extension === '.dxf');
  if (dxf === undefined) throw new Error(`no DXF of ${dxfVersion}`);
  return dxf.write({ drawing, cutOnly, form });
};

/** The cut files of a part. The DXF is the very text that was proved. */
export const cutFiles = (
  base: string,
  dxf: () => string,
  drawing: Drawing,
  { cutOnly, dxfVersion, form }: DrawingForm,
): TextFile[] =>
  cutOutputs(dxfVersion).map(({ extension, write }) => ({
    name: base + extension,
    contents: extension === '.dxf' ? dxf() : write({ drawing, cutOnly, form }),
  }));
