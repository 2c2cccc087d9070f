import type { PaperSize } from '../../model/paper.ts';
import { cardLayout } from '../../paper/draw/card-layout.ts';
import type { MadeTube } from '../made-part.ts';
import type { OutputId } from './index.ts';

/** Endings of the files that tubes have: always, and by what is asked for. */
const ENDINGS = {
  bent: {
    always: ['.svg'],
    sheet: ['-sheet.html', '-sheet.pdf'],
    model: ['.glb', '.stl'],
    step: ['.step'],
  },
  coped: {
    always: ['.dxf', '.svg'],
    card: ['-card.pdf'],
    sheet: ['-sheet.html', '-sheet.pdf'],
    model: ['.glb', '.stl'],
    step: ['.step'],
  },
} as const satisfies Record<
  MadeTube['tube']['kind'],
  Partial<Record<OutputId | 'always', readonly string[]>>
>;

/** Names of the files that would be written of a tube, told before any is. */
export const tubeNamesAhead = (
  { base, tube }: MadeTube,
  outputs: readonly OutputId[],
): readonly string[] => {
  const endings: Partial<Record<OutputId | 'always', readonly string[]>> = ENDINGS[tube.kind];
  return (['always', ...outputs] as const)
    .flatMap((id) => endings[id] ?? [])
    .map((ending) => base + ending);
};

/** How many pages of paper the patterns of a tube take; none of one that has none. */
export const wrapPageCount = ({ tube, result }: MadeTube, paper: PaperSize): number => {
  if (tube.kind === 'bent') return 0;
  const { widthMm, heightMm } = tube.patterns(result.name);
  return cardLayout(widthMm, heightMm, paper).tiles.length;
};
