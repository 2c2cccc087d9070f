import type { MarkedFile } from '../../model/output-file.ts';
import { sheetHtml } from '../../paper/sheet/sheet-html.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import type { SheetContent } from '../../paper/sheet/content.ts';
import { bendSheetContent } from '../../paper/tube/bend-sheet.ts';
import { tubeSvg } from '../../paper/tube/tube-svg.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { writeGlb } from '../../solid/glb.ts';
import { writeTubeStep } from '../../solid/step.ts';
import { writeStl } from '../../solid/stl.ts';
import type { BentTube } from '../../tube/bent-tube.ts';
import { tubeMesh } from '../../tube/tube-mesh.ts';
import { printedIn } from '../../text/printed.ts';
import { copedFiles } from './coped-files.ts';
import type { PartFiles } from './files-of.ts';
import type { OutputId } from './index.ts';
import { sheetOf, TUBE_MODEL_MM, type TubeFilesRequest } from './tube-request.ts';

/**
 * The files of a tube: its drawing always, in the place of a cut file; the bend sheet with `sheet`, the
 * models with `model` and `step`. What is about sheet and its folds is left out.
 */
export async function tubeFiles(request: TubeFilesRequest): Promise<PartFiles> {
  const { tube } = request.tube;
  return tube.kind === 'bent' ? bentFiles(tube, request) : copedFiles(tube, request);
}

const bentFiles = async (tube: BentTube, request: TubeFilesRequest): Promise<PartFiles> => {
  const { outputs = [], printUnits = 'mm' } = request;
  const { base, mark, result } = request.tube;
  const print = printedIn(printUnits);
  const files: MarkedFile[] = [
    { name: `${base}.svg`, contents: tubeSvg(tube, { name: result.name, mark, print }), mark },
  ];
  const add = (id: OutputId, ending: string, contents: () => MarkedFile['contents']): void => {
    if (outputs.includes(id)) files.push({ name: base + ending, contents: contents(), mark });
  };
  add('sheet', '-sheet.html', () => sheetHtml(contentOf(tube, request)));
  add('sheet', '-sheet.pdf', () =>
    writePdf(sheetPages(contentOf(tube, request)), { title: `${result.name}: bend sheet`, mark }),
  );
  const mesh = () => tubeMesh(tube, result.name, TUBE_MODEL_MM);
  add('model', '.glb', () => writeGlb(mesh(), mark));
  add('model', '.stl', () => writeStl(mesh(), mark));
  if (!outputs.includes('step')) return { files, findings: [] };
  const { points, sheet } = tube;
  const step = await writeTubeStep({ points, bends: sheet.bends }, tube, {
    name: result.name,
    mark,
  });
  // The tube can be cut and bent without this file, so a missing one is no more than a warning.
  if (!step.ok) return { files, findings: [{ ...step.finding, severity: 'warn' }] };
  return { files: [...files, { name: `${base}.step`, contents: step.text, mark }], findings: [] };
};

const contentOf = (tube: BentTube, request: TubeFilesRequest): SheetContent =>
  bendSheetContent({
    ...sheetOf(request),
    tube,
    paperMark: { part: request.tube.result.name, revision: request.revision },
  });
