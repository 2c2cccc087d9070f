import type { InspectedFile } from '../../contract/inspection.ts';
import { inspectDxf, type InspectOptions } from '../../inspect/inspect.ts';
import { markedSvg } from '../../inspect/marked-svg.ts';
import { mendedCopy } from '../../inspect/mend.ts';
import { safeName } from '../../text/safe-name.ts';
import type { UseCase } from '../use-case.ts';

export interface InspectRequest {
  /** Name of the file in messages. */
  readonly name: string;
  /** The file's name without folders and extension; the files made from it are named after it. */
  readonly title: string;
  readonly bytes: Uint8Array;
  /** Options, as `inspectOptions` reads them. */
  readonly options: InspectOptions;
  /** Whether a mended copy is made; there is none where something cannot be mended. */
  readonly mend?: boolean | undefined;
  /** Whether the file is drawn, with a numbered mark at each finding. */
  readonly draw?: boolean | undefined;
}

/**
 * What a DXF of any program holds, and what prevents cutting it. Its files are the mended copy and
 * the picture, under the names that the result has for them. It never throws.
 */
export function inspectFile(request: InspectRequest): UseCase<InspectedFile> {
  const { name, bytes, options } = request;
  const found = inspectDxf(bytes, options);
  if (!found.ok) {
    const problem = {
      input: 'file',
      given: `${name}, but ${found.reason}`,
      allowed: 'a DXF file in text form',
      mend: found.mend,
    };
    return { ok: false, problems: [problem] };
  }
  const title = safeName(request.title);
  const mark = `blankwright inspect: ${title}`;
  const mended = request.mend === true ? mendedCopy(found, options, title, mark) : undefined;
  const copy =
    mended?.ok === true ? { name: `${title}-mended.dxf`, contents: mended.text, mark } : undefined;
  const picture =
    request.draw === true
      ? { name: `${title}-inspected.svg`, contents: markedSvg(found, mark), mark }
      : undefined;
  const { inspection } = found;
  return {
    ok: true,
    result: {
      file: name,
      ...inspection,
      mended:
        mended?.ok === true && copy !== undefined
          ? { file: copy.name, changes: mended.changes }
          : null,
      unmended: mended?.ok === false ? mended.stops : null,
      picture: picture?.name ?? null,
    },
    findings: inspection.findings,
    files: [copy, picture].filter((file) => file !== undefined),
  };
}
