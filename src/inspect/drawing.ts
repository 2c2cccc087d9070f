import { decodeDxf } from '../dxf/read/decode.ts';
import { type DrawnLines, drawnLines } from '../dxf/read/drawn.ts';
import { readRecords } from '../dxf/read/records.ts';
import {
  type DxfUnit,
  type StatedUnit,
  UNSTATED_UNITS,
  type UnstatedUnit,
  unitOf,
} from '../dxf/read/units.ts';
import type { UnitFrom } from '../contract/inspection.ts';

/** What a file draws, in mm. */
export interface DxfDrawing extends DrawnLines, Pick<StatedUnit, 'system' | 'unknown'> {
  readonly version: string;
  readonly unit: DxfUnit;
  readonly unitFrom: UnitFrom;
  readonly isCutOff: boolean;
}

/**
 * Reads the bytes of a DXF file. A unit that is asked for goes before that of the file. Refuses a
 * file that cannot be read.
 */
export const readDrawing = (bytes: Uint8Array, asked: UnstatedUnit | undefined): DxfDrawing => {
  const { text, version } = decodeDxf(bytes);
  const sections = readRecords(text);
  const { stated, system, unknown } = unitOf(sections.header);
  const unit = asked === undefined ? (stated ?? UNSTATED_UNITS.mm) : UNSTATED_UNITS[asked];
  const unitFrom = asked !== undefined ? 'asked' : stated === undefined ? 'assumed' : 'file';
  return {
    version,
    unit,
    unitFrom,
    system,
    unknown,
    isCutOff: sections.isCutOff,
    ...drawnLines(sections, unit.mm),
  };
};
