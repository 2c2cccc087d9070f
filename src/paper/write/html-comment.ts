import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';

/** A comment may hold no two hyphens in a row, nor end with one (HTML Living Standard, 13.1.6). */
export const htmlComment = (value: string): string =>
  xmlText(singleLine(value)).replace(/--+/g, '-').replace(/-$/, '');
