import type { Picture } from '../../model/picture.ts';
import type { Printed } from '../../text/printed.ts';
import type { BentTube } from '../../tube/bent-tube.ts';
import type { TubePart } from '../../tube/tube-part.ts';
import { pictureSvg } from '../write/picture-svg.ts';
import { htmlComment } from '../write/html-comment.ts';
import { markedTube } from './marked-tube.ts';
import { patternPicture } from './pattern-picture.ts';
import { tubeView } from './bend-sheet.ts';

const WIDTH_MM = 190;
const VIEW_MM = 110;
const NAME_MM = 6;
const BOX = { widthMm: 80, heightMm: 50 } as const;

/** The drawing of a tube: as it is when it is bent, and the straight tube with its marks under it. */
export const tubeSvg = (
  tube: BentTube,
  { name, mark, print }: { readonly name: string; readonly mark: string; readonly print: Printed },
): string => {
  const view = tubeView(tube, { widthMm: WIDTH_MM, heightMm: VIEW_MM }, print);
  const marked = markedTube(tube, WIDTH_MM, print);
  const picture: Picture = {
    widthMm: WIDTH_MM,
    heightMm: VIEW_MM + marked.heightMm + 2 * NAME_MM,
    items: [
      {
        kind: 'label',
        at: [0, VIEW_MM + marked.heightMm + 0.6 * NAME_MM],
        sizeMm: NAME_MM,
        text: name,
        isBold: true,
      },
      { kind: 'group', at: [0, marked.heightMm], items: view.items },
      { kind: 'group', at: [0, 0], items: marked.items },
    ],
  };
  return `<!-- ${htmlComment(mark)} -->\n${pictureSvg(picture, 'tube')}`;
};

/** The tube in small as an SVG of its own, for pages that show many. */
export const smallTubeSvg = (tube: TubePart, print: Printed): string =>
  pictureSvg(
    tube.kind === 'bent'
      ? tubeView(tube, BOX, print, true)
      : patternPicture(tube.patterns(''), BOX),
    'tube',
  );
