import { line } from '../draw/strokes.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import { TYPE_MM } from './content.ts';
import { wrapped } from '../draw/wrap.ts';

/**
 * A piece of a page, as wide as the page's content, that is never divided. Its origin is its lower
 * left corner.
 */
export interface Strip {
  readonly heightMm: number;
  readonly items: readonly PictureItem[];
}

/** Strips that belong together; the head is repeated where they go on on a new page. */
export interface Section {
  readonly head: readonly Strip[];
  readonly body: readonly Strip[];
}

/** Height of a line of text over the size of its letters. */
const LEADING = 1.25;
/** Height of the base line above the foot of its line, over the size of the letters. */
const FOOT_SHARE = 0.3;

export const lineMm = (sizeMm: number): number => LEADING * sizeMm;

export interface TextStyle {
  readonly sizeMm: number;
  readonly isBold?: boolean;
  readonly x?: number;
  /** Room for it; lines that are broken already and stand on the left need none. */
  readonly widthMm?: number;
  readonly align?: 'left' | 'right';
}

/** Lines of text one below the other; the top of the first one is at the height `top`. */
export const linesFrom = (
  lines: readonly string[],
  top: number,
  { sizeMm, isBold = false, x = 0, widthMm = 0, align = 'left' }: TextStyle,
): Label[] =>
  lines.map((text, i) => ({
    kind: 'label',
    at: [align === 'left' ? x : x + widthMm, top - lineMm(sizeMm) * (i + 1) + FOOT_SHARE * sizeMm],
    sizeMm,
    text,
    isBold,
    ...(align === 'right' && { align }),
  }));

export const textStrip = (text: string, style: TextStyle & { readonly widthMm: number }): Strip => {
  const lines = wrapped(text, style.widthMm, style.sizeMm, style.isBold);
  const heightMm = lines.length * lineMm(style.sizeMm);
  return { heightMm, items: linesFrom(lines, heightMm, style) };
};

const ABOVE_TITLE_MM = 2;
const UNDER_TITLE_MM = 1;

/** The title of a section, with a line under it. */
export const titleStrip = (text: string, widthMm: number): Strip => {
  const lines = wrapped(text, widthMm, TYPE_MM.title, true);
  const tall = lines.length * lineMm(TYPE_MM.title);
  return {
    heightMm: ABOVE_TITLE_MM + tall + UNDER_TITLE_MM,
    items: [
      ...linesFrom(lines, tall + UNDER_TITLE_MM, { sizeMm: TYPE_MM.title, isBold: true }),
      line([0, 0.5], [widthMm, 0.5], { widthMm: 0.35 }),
    ],
  };
};

export const captionStrips = (captions: readonly string[], widthMm: number): Strip[] =>
  captions.map((text) => textStrip(text, { sizeMm: TYPE_MM.small, widthMm }));

/** One strip with others side by side in it, their tops level. */
export const beside = (
  ...cells: readonly { readonly x: number; readonly strip: Strip }[]
): Strip => {
  const heightMm = Math.max(0, ...cells.map((c) => c.strip.heightMm));
  return {
    heightMm,
    items: cells.map(({ x, strip }) => ({
      kind: 'group',
      at: [x, heightMm - strip.heightMm],
      items: strip.items,
    })),
  };
};

/** One strip with others one below the other in it. */
export const stacked = (strips: readonly Strip[]): Strip => {
  const heightMm = strips.reduce((sum, s) => sum + s.heightMm, 0);
  let top = heightMm;
  const items = strips.map((s): PictureItem => {
    top -= s.heightMm;
    return { kind: 'group', at: [0, top], items: s.items };
  });
  return { heightMm, items };
};

export const gapStrip = (heightMm: number): Strip => ({ heightMm, items: [] });
