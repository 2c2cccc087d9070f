import type { InspectedFile } from '../../contract/inspection.ts';
import { inspectDxf, type InspectOptions } from '../../inspect/inspect.ts';
import { markedSvg } from '../../inspect/marked-svg.ts';
import { mendedCopy } from '../../inspect/mend.ts';
import { safeName } from '../../text/safe-name.ts';
import type { UseCase } from '../use-case.ts';

export interface InspectRequest {
  /** What the file is called in what is told of it. */
  readonly name: string;
  /** The same without folders and extension: what comes of the file is called after it. */
  readonly title: string;
  readonly bytes: Uint8Array;
  /** As `inspectOptions` reads them. */
  readonly options: InspectOptions;
  /** Makes a mended copy; none where more than a mend stands in the way. */
  readonly mend?: boolean | undefined;
  /** Draws the file, with a numbered mark where something was found. */
  readonly draw?: boolean | undefined;
}

/**
 * What is in a DXF of any program, and what stands in the way of cutting it. The mended copy and
 * the picture are its files, by the names that the result has for them. Never throws.
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
