import { cardAbout, cardPages } from './draw/card-template.ts';
import { figure } from './figures.ts';
import type { MadePart } from './job.ts';
import type { PaperKind } from './jobfile/job-file.ts';
import type { OutputFile } from './model/output-file.ts';
import type { PaperSize } from './model/paper.ts';
import { safeName } from './safe-name.ts';
import { writePdf } from './write/pdf.ts';

export interface PapersRequest {
  readonly part: MadePart;
  readonly kinds: readonly PaperKind[];
  readonly paper: PaperSize;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
}

/** The papers of one part, beside the files to cut. None of a part that was stopped. */
export async function papersOf(request: PapersRequest): Promise<OutputFile[]> {
  if (request.part.stopped) return [];
  const files: OutputFile[] = [];
  if (request.kinds.includes('card')) files.push(await cardOf(request));
  return files;
}

async function cardOf({ part: { flat, drawing, result, mark }, paper, note, revision }: PapersRequest): Promise<OutputFile> {
  const { name, hand, quantity, material } = result;
  if (flat === undefined || drawing === undefined) throw new Error(`${name} has no blank`);
  const sheet = `${material.id} ${figure(material.thicknessMm, 3)} mm`;
  const about = cardAbout({ quantity, sheet, flat, ...(revision !== undefined && { revision }), ...(note !== undefined && { note }) });
  const pages = cardPages({ flat, drawing, name, hand, about, paper });
  return { name: `${safeName(name)}-card.pdf`, contents: await writePdf(pages, { title: `${name}: card template`, mark }) };
}
