import { sheetName } from '../../model/paper.ts';
import { linksHome } from '../../paper/sheet/content.ts';
import type { MadeTube } from '../made-part.ts';
import type { FilesRequest } from './files-of.ts';

/** What is asked of the files of a tube: what is asked of those of any part, but for sheet and sets. */
export type TubeFilesRequest = Omit<FilesRequest, 'part' | 'set' | 'shop' | 'sizes' | 'cardOf'> & {
  readonly tube: MadeTube;
};

/** Greatest distance of the chords of a model for viewing from its curves, mm. */
export const TUBE_MODEL_MM = 0.05;

/** What is told on a tube's sheet beside the tube. */
export const sheetOf = ({
  tube: { result, mark },
  paper = 'a4',
  printUnits: units = 'mm',
  isHanded = true,
  report,
  note,
  revision,
  date,
  home,
}: TubeFilesRequest) => ({
  result,
  mark,
  paper: sheetName(paper),
  units,
  isHanded,
  report,
  note,
  revision,
  date,
  links: linksHome(home),
});
