import type { HandedPart } from './pack-part.ts';
import { csv } from '../../text/csv.ts';

/** A part with the names of its files. */
export interface ListedPart {
  readonly part: HandedPart;
  /** Name of the cut file. */
  readonly file: string;
  /** Name of the drawing of its folds, where the service folds it. */
  readonly drawing: string | undefined;
}

const HEADER = [
  'file',
  'part',
  'hand',
  'material',
  'material_name',
  'thickness_mm',
  'quantity',
  'blank_width_mm',
  'blank_height_mm',
  'area_mm2',
  'mass_kg',
  'cut_length_mm',
  'pierces',
  'folds',
  'folded_by',
  'revision',
  'note',
  'drawing',
] as const;

/**
 * The parts list: a row for each part in each hand, with sizes, area, mass and cut length of one.
 * Two hands that are cut from one blank have two rows with the same file; the quantities in these
 * rows add up to the one in its name.
 */
export const partsList = (parts: readonly ListedPart[]): string =>
  csv([HEADER, ...parts.map(rowOf)]);

const rowOf = ({
  part: {
    made: { result, material },
    revision = '',
    note = '',
    fold,
  },
  file,
  drawing = '',
}: ListedPart): (string | number)[] => [
  file,
  result.name,
  result.hand,
  result.material.id,
  material.name,
  rounded(result.material.thicknessMm, 3),
  result.quantity,
  rounded(result.blank.widthMm, 2),
  rounded(result.blank.heightMm, 2),
  rounded(result.blank.areaMm2, 0),
  rounded(result.blank.massKg, 3),
  rounded(result.blank.cutLengthMm, 1),
  result.blank.pierces,
  result.bends.length,
  result.bends.length === 0 ? 'nobody' : fold === 'service' ? 'service' : 'customer',
  revision,
  note,
  drawing,
];

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));
