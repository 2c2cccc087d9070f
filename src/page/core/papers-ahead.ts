import { cutterFor, type CutterImport, type Shop } from '../../model/shop.ts';
import { SHEET_NAMES, type SheetName } from '../../model/paper.ts';
import { cardPageCount } from '../../paper/draw/card-template.ts';
import { setOfPart, setsOf } from '../../use/assembly/assembled.ts';
import type { MadePart, MadeTube, WholePart } from '../../use/made-part.ts';
import { tubeNamesAhead, wrapPageCount } from '../../use/outputs/tube-names.ts';
import { namesAhead } from '../../use/outputs/files-of.ts';
import { OUTPUT_IDS, type OutputId } from '../../use/outputs/index.ts';

/** What would be written of a part, told before anything is. */
export interface PapersAhead {
  /** Names of the files, by the word that they are asked for; `cut` of those that need not be. */
  readonly files: Readonly<Partial<Record<OutputId | 'cut', readonly string[]>>>;
  /** Pages of its cards, by the paper that they are printed on. */
  readonly cardPages: Readonly<Record<SheetName, number>>;
  /** For which cutter its cut files are, and in which form, in words; empty where it is stopped. */
  readonly cutForm: string;
}

export const papersAhead = (
  { parts, tubes }: { readonly parts: readonly MadePart[]; readonly tubes: readonly MadeTube[] },
  shop: Shop,
): PapersAhead => {
  const whole = parts.filter((part): part is WholePart => !part.stopped);
  const sets = setsOf(parts);
  const names = (ids: readonly OutputId[]): string[] => [
    ...whole.flatMap((part) => namesAhead({ part, outputs: ids, set: setOfPart(sets, part) })),
    ...tubes.flatMap((tube) => tubeNamesAhead(tube, ids)),
  ];
  const cut = names([]);
  return {
    files: Object.fromEntries([
      ['cut', cut],
      ...OUTPUT_IDS.map((id) => [id, names([id]).filter((name) => !cut.includes(name))] as const),
    ]),
    cardPages: Object.fromEntries(
      SHEET_NAMES.map((paper) => [
        paper,
        whole.reduce((sum, { flat }) => sum + cardPageCount(flat, paper), 0) +
          tubes.reduce((sum, tube) => sum + wrapPageCount(tube, paper), 0),
      ]),
    ) as Record<SheetName, number>,
    cutForm: cutForm(whole[0], shop),
  };
};

const cutForm = (part: WholePart | undefined, shop: Shop): string => {
  if (part === undefined) return '';
  const cutter = cutterFor(shop, part.result.material.thicknessMm);
  const { form, dxfVersion } = part.writing;
  return `${cutter === undefined ? '' : `for ${cutter.name}: `}DXF of ${VERSIONS[dxfVersion]} and SVG, ${formWords(form)}`;
};

const VERSIONS = { r2000: 'release 2000', r12: 'release 12' };

const formWords = ({ layers, foldLines, curves, units }: CutterImport): string =>
  [
    layers === 'merged' ? 'all cuts on one layer' : 'a layer for each kind of line',
    foldLines === 'out' ? 'without fold lines' : 'with fold lines',
    curves === 'chords' ? 'arcs as short chords' : 'true arcs',
    units === 'inch' ? 'in inches' : 'in mm',
  ].join(', ');
