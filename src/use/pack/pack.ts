import { grouped } from '../../text/grouped.ts';
import type { MakeOptions } from '../make/make-parts.ts';
import type { Handover } from '../../model/handover.ts';
import type { PrintUnit } from '../../text/printed.ts';
import type { OutputFile } from '../../model/output-file.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PaperSize, SizesBy } from '../../model/paper.ts';
import { importFor, type Shop } from '../../model/shop.ts';
import { safeName } from '../../text/safe-name.ts';
import { cutFileMark } from '../outputs/cut-file-mark.ts';
import { dxfText } from '../outputs/cut-files.ts';
import { archive, type Entry, utf8 } from './archive.ts';
import { COVER, coverPage } from './cover.ts';
import { drawingPdf } from './drawing-pdf.ts';
import { manifest, markLine, PARTS_LIST } from './manifest.ts';
import { type PackedSheet, SHEETS_FOLDER } from './laid-in.ts';
import { FileNames, nameBy, thicknessWord } from './names.ts';
import { isPair, type LeftPart, type PackPart, sorted, type HandedPart } from './pack-part.ts';
import { type ListedPart, partsList } from './parts-list.ts';
import { type MadeSet, setsOf } from '../assembly/assembled.ts';
import { assembliesIn } from './assemblies.ts';

export type { PackPart };

export interface PackOptions {
  /** Name of the job, after which the archives are named. */
  readonly job: string;
  readonly shop: Shop;
  readonly handover: Handover;
  readonly dxfVersion: MakeOptions['dxfVersion'];
  /** Of its drawings; what is usual for each when left out. */
  readonly paper?: PaperSize | undefined;
  /** How sizes on them are written; from the datum when left out. */
  readonly sizes?: SizesBy | undefined;
  /** The day that they bear, as the user wrote it. */
  readonly date?: string | undefined;
  /** Unit of lengths on its cover; mm when left out. */
  readonly printUnits?: PrintUnit | undefined;
  /** The sheets that the parts are laid on, with their files. */
  readonly laid?: readonly PackedSheet[] | undefined;
}

/** An archive for a cutting service. */
export interface PackedZip extends OutputFile {
  readonly contents: Uint8Array;
  /** Mark by which it is recognised, a line near its start. */
  readonly mark: string;
  /** Id of the material; `null` where it holds several sheets. */
  readonly material: string | null;
  readonly thicknessMm: number | null;
  /** Names of the parts in it. */
  readonly parts: readonly string[];
}

export interface Packed {
  readonly zips: readonly PackedZip[];
  readonly left: readonly LeftPart[];
}

/**
 * Packs parts for a cutting service: an archive for each sheet, or one for all, with a cut file of
 * each blank, the parts list, a drawing of each part that the service folds, the assembly of pieces
 * that are welded to a whole, and a manifest. Cut
 * files hold cut lines alone, since a fold line might be cut; the drawing shows where the folds
 * lie. Parts that a `stop` finding forbids stay behind. The same parts give the same bytes.
 */
export const packOf = async (parts: readonly PackPart[], options: PackOptions): Promise<Packed> => {
  const { whole, left } = sorted(parts);
  const sets = setsOf(parts.map(({ made }) => made));
  const zips: PackedZip[] = [];
  const names = new FileNames();
  for (const sheet of sheetsOf(whole, options)) zips.push(await zipOf(sheet, sets, names, options));
  return { zips, left };
};

interface Sheet {
  readonly material: string | null;
  readonly thicknessMm: number | null;
  readonly parts: readonly HandedPart[];
}

/** The parts of each archive, in the order in which their sheets first occur. */
const sheetsOf = (
  parts: readonly HandedPart[],
  { handover: { perSheet } }: PackOptions,
): Sheet[] => {
  const keyOf = ({
    made: {
      result: { material },
    },
  }: HandedPart): string => `${material.id} ${material.thicknessMm}`;
  return grouped(parts, (part) => (perSheet ? keyOf(part) : '')).map((group): Sheet => {
    const isOne = group.every((part) => keyOf(part) === keyOf(group[0] as HandedPart));
    const { id, thicknessMm } = (group[0] as HandedPart).made.result.material;
    return isOne
      ? { material: id, thicknessMm, parts: group }
      : { material: null, thicknessMm: null, parts: group };
  });
};

const zipOf = async (
  { material, thicknessMm, parts }: Sheet,
  sets: readonly MadeSet[],
  names: FileNames,
  options: PackOptions,
): Promise<PackedZip> => {
  const {
    job,
    handover: { perSheet },
  } = options;
  const sheet =
    perSheet && material !== null && thicknessMm !== null
      ? `${safeName(material)}_${thicknessWord(thicknessMm)}`
      : 'all';
  const listed = listedOf(parts, options.handover.names);
  const cut = new Map(listed.map(({ part, file }) => [file, cutFile(part, options)]));
  const marks = await Promise.all(
    listed.map(async ({ part: { made, revision }, file }) => {
      const files = [{ name: file, contents: cut.get(file) ?? '' }];
      return cutFileMark(made.result.name, revision, files);
    }),
  );
  const drawn = listed.flatMap(({ part, drawing, file }, i) =>
    drawing === undefined ? [] : [{ part, drawing, file, paperMark: marks[i] as PaperMark }],
  );
  const assemblies = await assembliesIn(listed, sets, cut, options);
  const laid = sheetsFor(options.laid ?? [], parts);
  const files: Entry[] = [
    {
      name: COVER,
      bytes: utf8(
        coverPage({
          job,
          shop: options.shop,
          handover: options.handover,
          parts: listed,
          units: options.printUnits,
          marks,
          laid,
        }),
      ),
    },
    { name: PARTS_LIST, bytes: utf8(partsList(listed)) },
    ...[...cut].map(([name, contents]): Entry => ({ name, bytes: utf8(contents) })),
    ...drawn.map(({ part, drawing, file, paperMark }): Entry => ({
      name: drawing,
      bytes: drawingPdf(part, { cutFile: file, file: drawing, paperMark }, options),
    })),
    ...assemblies.map(({ name, bytes }): Entry => ({ name, bytes })),
    ...laid.flatMap(({ files: own }) => own.map(sheetEntry)),
  ];
  const mark = markLine(job, sheet);
  const first = await manifest(mark, job, files, listed, [
    ...assemblies,
    ...wholesOf(laid, listed),
  ]);
  const base = safeName(job);
  return {
    name: names.take(sheet === 'all' ? base : `${base}_${sheet}`, 'zip'),
    contents: archive(first, files),
    mark,
    material,
    thicknessMm,
    parts: parts.map((p) => p.made.result.name),
  };
};

/** The sheets that hold parts of an archive. Parts of one material and thickness share them. */
const sheetsFor = (
  laid: readonly PackedSheet[],
  parts: readonly HandedPart[],
): readonly PackedSheet[] => {
  const names = new Set(parts.map(({ made }) => made.result.name));
  return laid.filter(({ sheet }) => sheet.parts.some(({ name }) => names.has(name)));
};

const sheetEntry = ({ name, contents }: OutputFile): Entry => ({
  name: SHEETS_FOLDER + name,
  bytes: typeof contents === 'string' ? utf8(contents) : contents,
});

/** The files of sheets with the parts that are on each, for the manifest. */
const wholesOf = (
  laid: readonly PackedSheet[],
  listed: readonly ListedPart[],
): { readonly name: string; readonly of: readonly ListedPart[] }[] =>
  laid.flatMap(({ sheet, files }) => {
    const names = new Set(sheet.parts.map(({ name }) => name));
    const of = listed.filter(({ part: { made } }) => names.has(made.result.name));
    return files.map(({ name }) => ({ name: SHEETS_FOLDER + name, of }));
  });

/** The parts with the names of their files; two hands of one blank share its cut file. */
const listedOf = (parts: readonly HandedPart[], pattern: string): ListedPart[] => {
  const names = new FileNames();
  const shared = new Map<HandedPart, string>();
  return parts.map((part) => {
    const { result } = part.made;
    const named = (hand: string, quantity: number): string =>
      nameBy(pattern, {
        name: part.baseName,
        hand,
        material: result.material.id,
        thickness: thicknessWord(result.material.thicknessMm),
        quantity: String(quantity),
        revision: part.revision ?? '',
        family: result.family,
      });
    const other = part.sharesBlank
      ? parts.find((o) => o.sharesBlank && o.baseName === part.baseName && isPair(part, o))
      : undefined;
    const known = other === undefined ? undefined : shared.get(other);
    const file =
      known ??
      names.take(
        other === undefined
          ? named(result.hand, result.quantity)
          : named('both', result.quantity + other.made.result.quantity),
        'dxf',
      );
    shared.set(part, file);
    const drawing =
      part.fold === 'service' && result.bends.length > 0
        ? names.take(named(result.hand, result.quantity), 'pdf')
        : undefined;
    return { part, file, drawing };
  });
};

/** The cuts of the part's own DXF, and nothing else. */
const cutFile = (
  { made: { drawing, result } }: HandedPart,
  { shop, dxfVersion = 'r2000' }: PackOptions,
): string =>
  dxfText(drawing, {
    cutOnly: true,
    dxfVersion,
    form: importFor(shop, result.material.thicknessMm),
  });
