import type { PartResult, ReportResult } from '../../contract/part.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { SheetName } from '../../model/paper.ts';
import { figure } from '../../text/figures.ts';
import type { PrintUnit } from '../../text/printed.ts';
import { safeName } from '../../text/safe-name.ts';
import type { TubeBase } from '../../tube/tube-part.ts';
import type { SheetHead, SheetLink } from '../sheet/content.ts';

/** What the sheet of any tube tells beside the tube. */
export interface TubeSheetRequest {
  readonly result: PartResult;
  readonly mark: string;
  readonly paperMark: PaperMark;
  readonly paper: SheetName;
  readonly units: PrintUnit;
  readonly isHanded: boolean;
  readonly report?: ReportResult | undefined;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
  readonly date?: string | undefined;
  readonly links: readonly SheetLink[];
}

/** The head of a tube's sheet, and what its title block says. */
export const tubeHead = ({
  tube,
  result,
  mark,
  paperMark,
  isHanded,
  note,
  revision = '',
  date = '',
}: TubeSheetRequest & {
  readonly tube: TubeBase;
}): SheetHead => {
  const { name, family, piece, hand, quantity } = result;
  return {
    name,
    ...(isHanded && { hand: `${hand.toUpperCase()} HAND` }),
    quantity: `${quantity} off`,
    sheet: `${tube.grade.name}, ${figure(tube.diameterMm)} x ${figure(tube.wallMm)} mm`,
    lines: [
      piece === null ? family : `${family}: ${piece}`,
      ...(revision === '' ? [] : [`Revision ${revision}`]),
      ...(note === undefined ? [] : [note]),
    ],
    mark,
    paperMark,
    title: { paper: `${safeName(name)}-sheet`, scale: 'not to scale', revision, date },
  };
};
