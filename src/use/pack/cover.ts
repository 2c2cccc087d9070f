import { cutList, type LaidOnOf } from '../../cutlist/cut-list.ts';
import type { Handover } from '../../model/handover.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { Shop } from '../../model/shop.ts';
import { frontHtml } from '../../paper/sheet/front-html.ts';
import { smallBlankSvg, svgAddress } from '../../paper/write/small-blank-svg.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';
import { frontPage } from '../job/front-page.ts';
import type { ListedPart } from './parts-list.ts';
import { laidOnOf, sheetsOf } from '../laid/laid-on.ts';
import { type PackedSheet, SHEETS_FOLDER } from './laid-in.ts';
import { MANIFEST, PARTS_LIST } from './manifest.ts';

/** Name of the page to open first. */
export const COVER = 'index.html';

export interface CoverOf {
  readonly job: string;
  readonly shop: Shop;
  readonly handover: Handover;
  readonly parts: readonly ListedPart[];
  /** A mark for each of them. */
  readonly marks: readonly PaperMark[];
  readonly units?: PrintUnit | undefined;
  /** The sheets that the parts are laid on. */
  readonly laid: readonly PackedSheet[];
}

/**
 * The first page of an archive, as that of a job: what it holds, what is to be beware of, which
 * file is which part. Its pictures are in the page, so that nothing lies beside the cut files that
 * might be taken for one.
 */
export const coverPage = ({ job, shop, handover, parts, marks, units, laid }: CoverOf): string => {
  const blanks = parts.map(({ part: { made } }) => ({
    result: made.result,
    materialFamily: made.material.family,
    flat: made.flat,
  }));
  const drawings = new Map(parts.map(({ part: { made } }) => [made.result.name, made.drawing]));
  const laidOn: LaidOnOf = (material, thicknessMm, own) =>
    laid.length === 0
      ? null
      : laidOnOf(
          sheetsOf(
            laid.map(({ sheet }) => sheet),
            material,
            thicknessMm,
          ),
          own.map(({ result }) => result),
          drawings,
        );
  return frontHtml(
    frontPage({
      title: job,
      about: [
        'Cut files hold the cut alone; fold lines stand on the drawings.',
        `General tolerances: class ${handover.tolerance} of ISO 2768-1.${handover.protect === 'none' ? '' : ` The ${handover.protect} face of the finished part is to be protected.`}`,
      ],
      entries: parts.map(({ part: { made, note, revision }, file, drawing }, i) => ({
        name: made.result.name,
        of: made.result.name,
        part: made.result,
        note,
        revision,
        picture: svgAddress(smallBlankSvg(made.flat)),
        sheet: drawing,
        paperMark: marks[i],
        links: [
          { to: file, text: `Cut file: ${file}` },
          ...(drawing === undefined ? [] : [{ to: drawing, text: `Drawing: ${drawing}` }]),
        ],
      })),
      groups: cutList(blanks, shop, laidOn),
      papers: [
        { to: PARTS_LIST, text: 'Parts list (CSV)' },
        { to: MANIFEST, text: 'Manifest (JSON)' },
        ...laid.flatMap(sheetLinks),
      ],
      print: printedIn(units),
    }),
  );
};

/** The files of a sheet: what is cut, and its picture on paper. */
const sheetLinks = ({
  sheet,
  files,
}: PackedSheet): { readonly to: string; readonly text: string }[] =>
  files.flatMap(({ name }) => {
    const what = name.endsWith('.dxf') ? 'cut file' : name.endsWith('.pdf') ? 'picture' : undefined;
    return what === undefined
      ? []
      : [{ to: SHEETS_FOLDER + name, text: `Sheet ${sheet.name}: ${what}` }];
  });
