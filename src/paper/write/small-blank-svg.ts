import type { FlatPattern } from '../../model/flat.ts';
import { smallBlank } from '../draw/small-blank.ts';
import { pictureSvg } from './picture-svg.ts';

const BOX = { widthMm: 80, heightMm: 50 } as const;

/** The blank in small as an SVG of its own, for pages that show many. */
export const smallBlankSvg = (flat: FlatPattern): string =>
  pictureSvg(smallBlank(flat, BOX), 'blank');

/** An SVG as an address, so that a page holds its pictures itself. */
export const svgAddress = (svg: string): string => `data:image/svg+xml,${encodeURIComponent(svg)}`;
