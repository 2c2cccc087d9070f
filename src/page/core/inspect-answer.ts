import { inspectFile } from '../../use/inspect/inspect-file.ts';
import { inspectOptions } from '../../use/inspect/inspect-options.ts';
import type { InspectAnswer } from './questions.ts';

/** A DXF of anybody's, looked at: what is wrong with it, on its picture, and a mended copy. */
export const inspected = (name: string, bytes: Uint8Array, thickness: string): InspectAnswer => {
  const options = inspectOptions(thickness === '' ? {} : { thickness });
  if (!options.ok) return { problems: options.problems, findings: [], picture: '', files: [] };
  const title = name.replace(/\.[^.]*$/, '');
  const done = inspectFile({
    name,
    title,
    bytes,
    options: options.options,
    mend: true,
    draw: true,
  });
  if (!done.ok) return { problems: done.problems, findings: [], picture: '', files: [] };
  const picture = done.files.find((file) => file.name.endsWith('.svg'));
  return {
    problems: [],
    findings: done.findings,
    picture: typeof picture?.contents === 'string' ? picture.contents : '',
    files: done.files
      .filter((file) => file.name.endsWith('.dxf'))
      .map((file) => ({ name: file.name, contents: file.contents })),
  };
};
