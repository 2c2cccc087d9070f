import type { TakenOptions } from './make-options.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { TextFile } from '../../model/output-file.ts';
import { WRITERS } from '../../paper/write/index.ts';

/** What is written for every part; writers of the same extension stand in for each other. */
const writersFor = (dxfVersion: TakenOptions['dxfVersion']): readonly string[] => [
  dxfVersion === 'r12' ? 'dxf-r12' : 'dxf',
  'svg',
];

/** The DXF of a drawing, in the dialect that is asked for. */
export const dxfText = (drawing: Drawing, { cutOnly, dxfVersion, form }: TakenOptions): string => {
  const ids = writersFor(dxfVersion);
  return (
    WRITERS.find(({ id, extension }) => extension === 'dxf' && ids.includes(id))?.write(drawing, {
      cutOnly,
      form,
    }) ?? ''
  );
};

/** The files of a part. The DXF is the very text that was proved. */
export const partFiles = (
  base: string,
  dxf: () => string,
  drawing: Drawing,
  { cutOnly, dxfVersion, form }: TakenOptions,
): TextFile[] => {
  const ids = writersFor(dxfVersion);
  return WRITERS.filter(({ id }) => ids.includes(id)).map(({ extension, write }) => ({
    name: `${base}.${extension}`,
    contents: extension === 'dxf' ? dxf() : write(drawing, { cutOnly, form }),
  }));
};
