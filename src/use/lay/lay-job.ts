import type { LayResult } from '../../contract/lay.ts';
import { layOnStock } from '../../lay/sheets/lay-on-stock.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { MarkedFile } from '../../model/output-file.ts';
import type { StockPiece } from '../../model/stock.ts';
import { layoutFaultsOfDxf } from '../../laid/check-dxf.ts';
import { faultText } from '../../laid/fault-text.ts';
import { importFor } from '../../model/shop.ts';
import { type LaidFiles, type LaidOptions, laidFiles } from '../laid/laid-files.ts';
import type { ReadyJob } from '../job/ready-job.ts';
import type { Done } from '../use-case.ts';
import {
  assertLaid,
  type FilesOfSheet,
  type FoundLayout,
  laidSheets,
  layResult,
  leftOf,
  usedBy,
} from './lay-result.ts';
import { type LayAsked, layGroupsOfJob, onWhatIsLeft, type ToLay } from './lay-groups.ts';

export interface LayJobRequest {
  readonly ready: ReadyJob;
  /** What there is to cut from, as `stockOf` tells it of a shop. */
  readonly stock: readonly StockPiece[];
  readonly asked: LayAsked;
  readonly seed: number;
  /** Asked before each step with the number of steps made so far on this material. */
  readonly mayGoOn: (steps: number) => boolean;
}

/**
 * Lays the blanks of a job on the stock of the shop, material by material and thickness by
 * thickness, and makes the files of each sheet. The same seed and the same number of steps give the
 * same layout.
 */
export const layJob = async (request: LayJobRequest): Promise<Done<LayResult>> => {
  const { ready, stock, asked, seed, mayGoOn } = request;
  const toLay = layGroupsOfJob(ready, stock, asked);
  const found: FoundLayout[] = [];
  for (const group of toLay.groups) {
    const left = onWhatIsLeft(group, usedBy(found));
    const laid = layOnStock(left, { seed, mayGoOn });
    found.push({ group: { ...group, request: left }, seed, laid });
  }
  const { files, filesOf } = await filesOfSheets(toLay, found, {
    job: ready.job.title,
    shop: ready.shop,
    printUnits: ready.job.printUnits,
  });
  const result = layResult(toLay, found, filesOf, null);
  return { ok: true, result, findings: [...toLay.findings, ...result.findings], files };
};

/**
 * The files of all sheets, after the layout was measured by true outlines; and what was written of it is
 * read again and measured once more.
 */
export const filesOfSheets = async (
  toLay: ToLay,
  found: readonly FoundLayout[],
  options: LaidOptions,
): Promise<{
  readonly files: readonly MarkedFile[];
  readonly filesOf: ReadonlyMap<string, FilesOfSheet>;
}> => {
  const sheets = laidSheets(found);
  assertLaid(toLay, sheets, leftOf(toLay, found));
  const files: MarkedFile[] = [];
  const filesOf = new Map<string, FilesOfSheet>();
  for (const sheet of sheets) {
    const made = await laidFiles(sheet, toLay.drawings, { ...options, ...namesOf(sheet, found) });
    for (const piece of made.pieces) assertWritten(piece, toLay, options);
    files.push(...made.files);
    filesOf.set(sheet.name, { ...made, paths: made.files.map(({ name }) => name) });
  }
  return { files, filesOf };
};

/** Throws where the cut file of a sheet, read again, does not hold every part with its gaps. */
const assertWritten = (
  { sheet, dxf }: LaidFiles['pieces'][number],
  { drawings }: ToLay,
  { shop }: LaidOptions,
): void => {
  const unit = shop === undefined ? undefined : importFor(shop, sheet.thicknessMm).units;
  const [fault] = layoutFaultsOfDxf({ dxf, sheet, drawings, ...(unit !== undefined && { unit }) });
  if (fault !== undefined) throw new Error(`${sheet.name}: ${faultText(fault)}`);
};

/** What the material of a sheet is called, and its family. */
const namesOf = (
  { material, thicknessMm }: LaidSheet,
  found: readonly FoundLayout[],
): Pick<LaidOptions, 'family' | 'materialName'> => {
  const of = found.find(
    ({ group }) => group.material.id === material && group.thicknessMm === thicknessMm,
  );
  return { family: of?.group.material.family, materialName: of?.group.material.name };
};
