import { LEAST_LINE_MM } from '../draw/line-types.ts';
import { boxRing, line } from '../draw/strokes.ts';
import { fittedSizeMm, textWidthMm } from '../draw/text-width.ts';
import { firstAngleSymbol } from '../draw/title-block.ts';
import type { PictureItem } from '../../model/picture.ts';
import { handedName, type SheetHead } from './content.ts';

/** The title block at the foot of every page, a strip as wide as the page's content, mm. */
export const TITLE_STRIP_MM = 9.5;

/** A field: its heading, what it says, and its share of the width. */
export interface Field {
  readonly heading: string;
  readonly text: string;
  readonly share: number;
}

/** What the strip says, in words; the last field holds the sign of projection. */
export const titleFields = (
  head: Pick<SheetHead, 'name' | 'hand' | 'paperMark' | 'title'>,
): readonly Field[] => {
  const { file, sha } = head.paperMark;
  const { paper, scale, revision, date } = head.title;
  return [
    { heading: 'Part', text: handedName(head), share: 40 },
    { heading: 'Paper', text: paper, share: 34 },
    {
      heading: sha === undefined ? 'Cut file' : `Cut file, SHA-256 ${sha}`,
      text: file ?? (sha === undefined ? '-' : 'all of its pieces'),
      share: 42,
    },
    { heading: 'Scale', text: scale, share: 18 },
    { heading: 'Revision', text: revision === '' ? '-' : revision, share: 15 },
    { heading: 'Issued', text: date, share: 20 },
  ];
};

/** Shares of the fields before the sign of projection and the page. */
const SIGN_SHARE = 14;
const PAGE_SHARE = 18;
const RULE = { widthMm: 0.35 } as const;
const THIN = { widthMm: LEAST_LINE_MM } as const;
const FIELD_RIM_MM = 0.9;
const LETTERS_MM = { heading: 2.1, text: 3.2 } as const;

/** Part, file, scale, revision, date and page as a title block has them (ISO 7200), from the origin. */
export const titleStripItems = (
  head: Pick<SheetHead, 'name' | 'hand' | 'paperMark' | 'title'>,
  page: string,
  wide: number,
): PictureItem[] =>
  stripItems(
    [
      ...titleFields(head),
      { heading: FIRST_ANGLE, text: '', share: SIGN_SHARE },
      { heading: 'Page', text: page, share: PAGE_SHARE },
    ],
    wide,
  );

/** The field that holds the sign of projection. */
const FIRST_ANGLE = 'First angle';

/** A strip of fields from the origin. */
export const stripItems = (fields: readonly Field[], wide: number): PictureItem[] => {
  const all = fields.reduce((sum, { share }) => sum + share, 0);
  let x = 0;
  const items = fields.flatMap((field): PictureItem[] => {
    const [from, widthMm] = [x, (field.share * wide) / all];
    x += widthMm;
    const room = widthMm - 2 * FIELD_RIM_MM;
    const written = (words: string, want: number, at: number): PictureItem => {
      const text = cutOff(words, room);
      const sizeMm = fittedSizeMm(text, want, room);
      return { kind: 'label', at: [from + FIELD_RIM_MM, at], sizeMm, text };
    };
    return [
      ...(from === 0 ? [] : [line([from, 0], [from, TITLE_STRIP_MM], THIN)]),
      written(field.heading, LETTERS_MM.heading, TITLE_STRIP_MM - 2.6),
      ...(field.text === '' ? [] : [written(field.text, LETTERS_MM.text, 1.8)]),
      ...(field.heading === FIRST_ANGLE
        ? firstAngleSymbol([from + widthMm / 2 - SIGN_OFF * SIGN_SCALE, 3.3], SIGN_SCALE)
        : []),
    ];
  });
  return [
    {
      kind: 'curve',
      pieces: boxRing({ minX: 0, minY: 0, maxX: wide, maxY: TITLE_STRIP_MM }),
      stroke: RULE,
    },
    ...items,
  ];
};

/** The least letters of the strip, mm; what is too long for them has its end cut off. */
const LEAST_MM = 2.05;

const cutOff = (text: string, widthMm: number): string => {
  if (textWidthMm(text, LEAST_MM) <= widthMm) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidthMm(`${letters.join('')}...`, LEAST_MM) > widthMm)
    letters.pop();
  return `${letters.join('')}...`;
};

/** Of the sign in the title block of a drawing. */
const SIGN_SCALE = 0.44;
/** Of the sign's middle from its place, mm at full size. */
const SIGN_OFF = 1.75;
