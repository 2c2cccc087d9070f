import type { FindingResult } from '../../contract/part.ts';
import type { RuleName } from '../../rules/index.ts';
import type { MarkedFile, TextFile } from '../../model/output-file.ts';
import { ANY_IMPORT } from '../../model/shop.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import { sheetHtml } from '../../paper/sheet/sheet-html.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import { copeSheetContent } from '../../paper/tube/cope-sheet.ts';
import { wrapCardPages } from '../../paper/tube/wrap-card.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { writeGlb } from '../../solid/glb.ts';
import { writeCopeStep } from '../../solid/step.ts';
import { writeStl } from '../../solid/stl.ts';
import { copedMesh } from '../../tube/cope/coped-mesh.ts';
import type { CopedTube } from '../../tube/cope/coped-part.ts';
import type { Patterns } from '../../tube/cope/coped-tube.ts';
import { seatText } from '../../tube/cope/seat-text.ts';
import { cutFileMark } from './cut-file-mark.ts';
import { cutFiles, dxfText } from './cut-files.ts';
import type { MadeTube } from '../made-part.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PartFiles } from './files-of.ts';
import type { OutputId } from './index.ts';
import { sheetOf, TUBE_MODEL_MM, type TubeFilesRequest } from './tube-request.ts';

const WRITING = { cutOnly: false, dxfVersion: 'r2000', form: ANY_IMPORT } as const;

/**
 * The files of a coped tube: its patterns always, in the place of a cut file; at true size on pages of
 * paper with `card`, the sheet with `sheet`, the models with `model` and `step`.
 */
export async function copedFiles(tube: CopedTube, request: TubeFilesRequest): Promise<PartFiles> {
  const { outputs = [] } = request;
  const { base, mark, result } = request.tube;
  const patterns = tube.patterns(result.name);
  const cut = patternFiles(patterns, request.tube);
  const paperMark = await cutFileMark(result.name, request.revision, cut);
  const files: MarkedFile[] = cut.map((file) => ({ ...file, mark }));
  const add = (id: OutputId, ending: string, contents: () => MarkedFile['contents']): void => {
    if (outputs.includes(id)) files.push({ name: base + ending, contents: contents(), mark });
  };
  const sheet = () => copeSheetContent({ ...sheetOf(request), tube, paperMark });
  add('card', '-card.pdf', () =>
    writePdf(wrapPages(tube, patterns, request, paperMark), {
      title: `${result.name}: wrap`,
      mark,
    }),
  );
  add('sheet', '-sheet.html', () => sheetHtml(sheet()));
  add('sheet', '-sheet.pdf', () =>
    writePdf(sheetPages(sheet()), { title: `${result.name}: cope sheet`, mark }),
  );
  const mesh = () => copedMesh(tube, result.name, TUBE_MODEL_MM);
  add('model', '.glb', () => writeGlb(mesh(), mark));
  add('model', '.stl', () => writeStl(mesh(), mark));
  if (!outputs.includes('step')) return { files, findings: [] };
  const step = await writeCopeStep(tube, { name: result.name, mark });
  // The tube can be cut without this file, so a missing one is no more than a warning.
  if (!step.ok) return { files, findings: [{ ...step.finding, severity: 'warn' }] };
  return {
    files: [...files, { name: `${base}.step`, contents: step.text, mark }],
    // A saw goes straight through, and leaves what the file has.
    findings: tube.asked.seat.kind === 'mitre' ? [] : [STEP_IS_FITTED],
  };
}

/** The patterns of a coped tube in the place of its cut files. */
export const patternFiles = (
  { drawing: bare }: Pick<Patterns, 'drawing'>,
  { base, mark }: Pick<MadeTube, 'base' | 'mark'>,
): readonly TextFile[] => {
  const drawing = { ...bare, mark };
  return cutFiles(base, () => dxfText(drawing, WRITING), drawing, WRITING);
};

const STEP_IS_FITTED: FindingResult = {
  rule: 'cope-step-fitted' satisfies RuleName,
  severity: 'note',
  message:
    'In the STEP file the end follows what it sits on through the whole wall, as a hole saw leaves it; GLB and STL have the square cut of the pattern.',
};

const wrapPages = (
  tube: CopedTube,
  patterns: Patterns,
  { tube: { result }, paper = 'a4', note, revision, date, isHanded = true }: TubeFilesRequest,
  paperMark: PaperMark,
) =>
  wrapCardPages({
    ...patterns,
    title: [
      `${result.name} ${seatText(tube.asked.seat)}`,
      ...(isHanded ? [`${result.hand.toUpperCase()} HAND`] : []),
    ].join(', '),
    about: [
      `${result.quantity} off`,
      `${tube.grade.name} ${tube.diameterMm} x ${tube.wallMm} mm`,
      ...(revision === undefined ? [] : [`revision ${revision}`]),
      ...(date === undefined ? [] : [date]),
      ...(note === undefined ? [] : [note]),
    ].join(', '),
    paper,
    paperMark,
    cautions: cautionsAmong(result.findings).map(({ short }) => short),
  });
