import type { FindingResult, ReportResult } from '../../contract/part.ts';
import type { Contents, MarkedFile } from '../../model/output-file.ts';
import type { PrintUnit } from '../../text/printed.ts';
import type { PaperSize, SizesBy } from '../../model/paper.ts';
import type { Shop } from '../../model/shop.ts';
import type { MadeSet } from '../assembly/assembled.ts';
import type { MadePart, WholePart } from '../made-part.ts';
import { isCardOf } from './card-of.ts';
import { cutFileMark } from './cut-file-mark.ts';
import { ASKED_OUTPUTS, type OutputId } from './index.ts';
import type { AskedOutput, OutputSource } from './output.ts';

export interface FilesRequest {
  readonly part: MadePart;
  /** The outputs that are wanted besides the cut files; none when left out. */
  readonly outputs?: readonly OutputId[] | undefined;
  /** Paper size; A4 when left out. */
  readonly paper?: PaperSize | undefined;
  /** How sizes of the blank are written; from the datum when left out. */
  readonly sizes?: SizesBy | undefined;
  /** Figures and tables of its family for this part's sheet. */
  readonly report?: ReportResult | undefined;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
  /** The day that papers bear, in the user's words. */
  readonly date?: string | undefined;
  readonly shop?: Shop | undefined;
  /** The set that the part is a piece of, for outputs that are made of a whole set. */
  readonly set?: MadeSet | undefined;
  /** Pieces that cards are made of, in small letters; all when left out. */
  readonly cardOf?: readonly string[] | undefined;
  /** Unit of lengths that are printed; mm when left out. */
  readonly printUnits?: PrintUnit | undefined;
  /** Where the front page of its job lies from its folder. */
  readonly home?: string | undefined;
  /** Whether there is another hand from which this one has to be told; there is when left out. */
  readonly isHanded?: boolean | undefined;
}

export interface PartFiles {
  readonly files: readonly MarkedFile[];
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
  const outputs = wanted(part, request, ids);
  const cut = part.files().map((file) => ({ ...file, mark: part.mark }));
  const paperMark = await cutFileMark(part.result.name, request.revision, cut);
  const written = new Map<AskedOutput, Contents>();
  const findings: FindingResult[] = [];
  const write = async (some: readonly AskedOutput[]): Promise<void> => {
    const source = sourceOf(part, request, { paperMark, findings: [...findings] });
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
  const asked = outputs.flatMap((output): MarkedFile[] => {
    const contents = written.get(output);
    const { mark } = ownerOf(output, request.set, part);
    const name = nameOf(output, request.set, part);
    return contents === undefined ? [] : [{ name, contents, mark }];
  });
  return { files: [...cut, ...asked], findings };
}

/** The names of the files that would be made, without making any but the cut files. */
export const namesAhead = ({
  part,
  outputs = [],
  set,
  cardOf,
}: Pick<FilesRequest, 'part' | 'outputs' | 'set' | 'cardOf'>): readonly string[] =>
  part.stopped
    ? []
    : [
        ...part.files().map(({ name }) => name),
        ...wanted(part, { set, cardOf }, outputs).map((output) => nameOf(output, set, part)),
      ];

const ownerOf = (
  output: AskedOutput,
  set: MadeSet | undefined,
  part: WholePart,
): Pick<WholePart, 'base' | 'mark'> => (ofSet(output) ? (set ?? part) : part);

const nameOf = (output: AskedOutput, set: MadeSet | undefined, part: WholePart): string =>
  ownerOf(output, set, part).base + output.extension;

const ofSet = ({ needs }: AskedOutput): boolean => needs.includes('assembly');

/** What is made of a whole set is written with its first piece. */
const wanted = (
  part: WholePart,
  { set, cardOf }: Pick<FilesRequest, 'set' | 'cardOf'>,
  ids: readonly string[],
): AskedOutput[] =>
  ASKED_OUTPUTS.filter(
    (output) =>
      ids.includes(output.id) &&
      (output.id !== 'card' || isCardOf(cardOf, [part.result.piece, part.result.name])) &&
      (part.plan !== undefined || !output.needs.includes('plan')) &&
      (!ofSet(output) || set?.parts[0]?.base === part.base),
  );

const sourceOf = (
  made: WholePart,
  {
    paper = 'a4',
    sizes = 'baseline',
    report,
    note,
    revision,
    date,
    shop,
    set,
    home,
    printUnits = 'mm',
    isHanded = true,
  }: FilesRequest,
  known: Pick<OutputSource, 'paperMark' | 'findings'>,
): OutputSource => ({
  made,
  drawing: made.drawing,
  cutOnly: made.writing.cutOnly,
  form: made.writing.form,
  paper,
  sizes,
  report,
  note,
  revision,
  date,
  shop,
  set,
  home,
  printUnits,
  isHanded,
  ...known,
});
