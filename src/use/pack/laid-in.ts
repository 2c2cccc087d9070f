import type { InputProblem } from '../../forms/problem.ts';
import { faultText } from '../../laid/fault-text.ts';
import { layoutFaultsOfDxf } from '../../laid/check-dxf.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { MarkedFile } from '../../model/output-file.ts';
import { importFor, type Shop } from '../../model/shop.ts';
import { laidFiles, type LaidOptions } from '../laid/laid-files.ts';
import { notLaid } from '../laid/read-layout.ts';
import type { HandedPart } from './pack-part.ts';

/** A laid sheet with its files. */
export interface PackedSheet {
  readonly sheet: LaidSheet;
  readonly files: readonly MarkedFile[];
}

/** Where the files of sheets lie in an archive: no part's file is called so. */
export const SHEETS_FOLDER = 'sheets/';

/**
 * The sheets that parts are laid on, with their files, which hold the cut alone. A layout of other
 * parts, or of these before they were changed, is refused: each file is read again and measured.
 */
export const laidIn = async (
  sheets: readonly LaidSheet[],
  parts: readonly HandedPart[],
  options: Omit<LaidOptions, 'family' | 'materialName'> & { readonly shop: Shop },
): Promise<readonly PackedSheet[] | InputProblem> => {
  const problem = notLaid(
    sheets,
    parts.map(({ made }) => made.result),
  );
  if ('given' in problem) return problem;
  const drawings = new Map(parts.map(({ made }) => [made.result.name, made.drawing]));
  const packed: PackedSheet[] = [];
  for (const sheet of sheets) {
    const material = parts.find(({ made }) => made.material.id === sheet.material)?.made.material;
    const form = importFor(options.shop, sheet.thicknessMm);
    const { files, pieces } = await laidFiles(sheet, drawings, {
      ...options,
      family: material?.family,
      materialName: material?.name,
      writing: { ...options.writing, form, cutOnly: true },
    });
    const [fault] = pieces.flatMap((piece) =>
      layoutFaultsOfDxf({ ...piece, drawings, unit: form.units }),
    );
    if (fault !== undefined) return stale(sheet, faultText(fault));
    packed.push({ sheet, files });
  }
  return packed;
};

const stale = ({ name }: LaidSheet, fault: string): InputProblem => ({
  input: 'laid',
  given: `${name}, on which ${fault}`,
  allowed: 'a layout of the parts as they are now',
  mend: 'lay the job again',
});
