import type { Drawing } from '../../model/drawing.ts';
import type { CutterImport } from '../../model/shop.ts';
import { writeDxf } from '../../dxf/write/dxf.ts';
import { writeSvg } from './svg.ts';

/** Turns a drawing into the text of a file. Pure: the same drawing gives the same text. */
export interface Writer {
  readonly id: string;
  /** Of the file, without the dot. */
  readonly extension: string;
  readonly write: (
    drawing: Drawing,
    options: { readonly cutOnly: boolean; readonly form?: CutterImport },
  ) => string;
}

export const WRITERS: readonly Writer[] = [
  {
    id: 'dxf',
    extension: 'dxf',
    write: (drawing, options) => writeDxf(drawing, { version: 'r2000', ...options }),
  },
  {
    id: 'dxf-r12',
    extension: 'dxf',
    write: (drawing, options) => writeDxf(drawing, { version: 'r12', ...options }),
  },
  { id: 'svg', extension: 'svg', write: writeSvg },
];
