import type { Picture, PictureItem } from '../../model/picture.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';
import { boxRing } from '../draw/strokes.ts';
import { pictureSvg } from './picture-svg.ts';

/** Pages one under the other as one SVG on white, with a mark by which the file is known again. */
export const pagesSvg = (
  pages: readonly Picture[],
  { title, mark }: { readonly title: string; readonly mark: string },
): string => {
  const heightMm = pages.reduce((sum, page) => sum + page.heightMm, 0);
  const widthMm = Math.max(...pages.map((page) => page.widthMm));
  let top = heightMm;
  const items = pages.map((page): PictureItem => {
    top -= page.heightMm;
    return { kind: 'group', at: [0, top], items: page.items };
  });
  const white: PictureItem = {
    kind: 'area',
    rims: [boxRing({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm })],
    fill: 1,
  };
  const [open, ...rest] = pictureSvg({ widthMm, heightMm, items: [white, ...items] }).split('\n');
  return [
    open,
    `<title>${xmlText(singleLine(title))}</title>`,
    `<desc>${xmlText(singleLine(mark))}</desc>`,
    ...rest,
  ].join('\n');
};
