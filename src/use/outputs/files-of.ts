import type { FindingResult, ReportResult } from '../../contract/part.ts';
import type { Contents, OutputFile } from '../../model/output-file.ts';
import type { PrintUnit } from '../../text/printed.ts';
import type { PaperSize } from '../../model/paper.ts';
import type { Shop } from '../../model/shop.ts';
import type { MadePart, WholePart } from '../made-part.ts';
import { ASKED_OUTPUTS, type OutputId } from './index.ts';
import type { AskedOutput, OutputSource } from './output.ts';

export interface FilesRequest {
  readonly part: MadePart;
  /** The outputs that are wanted besides the cut files; none when left out. */
  readonly outputs?: readonly OutputId[] | undefined;
  /** Paper size; A4 when left out. */
  readonly paper?: PaperSize | undefined;
  /** Figures and tables of its family for this part's sheet. */
  readonly report?: ReportResult | undefined;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
  readonly shop?: Shop | undefined;
  /** Unit of lengths that are printed; mm when left out. */
  readonly printUnits?: PrintUnit | undefined;
  /** Where the front page of its job lies from its folder. */
  readonly home?: string | undefined;
  /** Whether there is another hand from which this one has to be told; there is when left out. */
  readonly isHanded?: boolean | undefined;
}

export interface PartFiles {
  readonly files: readonly OutputFile[];
  /** Findings on the files. */
  readonly findings: readonly FindingResult[];
}

/**
 * The files of one part in the order of the list of outputs; none for a part that was stopped. A
 * file that cannot be made is a finding.
 */
export async function filesOf(request: FilesRequest): Promise<PartFiles> {
  const { part, outputs: ids = [] } = request;
  if (part.stopped) return { files: [], findings: [] };
  const outputs = wanted(part, ids);
  const written = new Map<AskedOutput, Contents>();
  const findings: FindingResult[] = [];
  const write = async (some: readonly AskedOutput[]): Promise<void> => {
    const source = sourceOf(part, request, [...findings]);
    for (const output of some) {
      const one = await output.write(source);
      findings.push(...(one.findings ?? []));
      if (one.contents !== undefined) written.set(output, one.contents);
    }
  };
  // Whether an output is written last, because it reports the findings on other files.
  const isLast = ({ needs }: AskedOutput): boolean => needs.includes('findings');
  await write(outputs.filter((output) => !isLast(output)));
  await write(outputs.filter(isLast));
  const asked = outputs.flatMap((output): OutputFile[] => {
    const contents = written.get(output);
    return contents === undefined ? [] : [{ name: part.base + output.extension, contents }];
  });
  return { files: [...part.files(), ...asked], findings };
}

const wanted = (part: WholePart, ids: readonly string[]): AskedOutput[] =>
  ASKED_OUTPUTS.filter(
    ({ id, needs }) => ids.includes(id) && (part.plan !== undefined || !needs.includes('plan')),
  );

const sourceOf = (
  made: WholePart,
  {
    paper = 'a4',
    report,
    note,
    revision,
    shop,
    home,
    printUnits = 'mm',
    isHanded = true,
  }: FilesRequest,
  findings: readonly FindingResult[],
): OutputSource => ({
  made,
  drawing: made.drawing,
  cutOnly: made.writing.cutOnly,
  form: made.writing.form,
  paper,
  report,
  note,
  revision,
  shop,
  home,
  printUnits,
  isHanded,
  findings,
});
