import type { Picture } from '../model/picture.ts';
import { sheetContent, type SheetRequest } from './sheet-content.ts';
import { sheetHtml } from './sheet-html.ts';
import { sheetPages } from './sheet-pages.ts';

/** All that is to be known at the machine to make one part, as one HTML page that asks for nothing else. */
export const jobSheetHtml = (request: SheetRequest): string => sheetHtml(sheetContent(request));

/** The same on pages of A4. */
export const jobSheetPages = (request: SheetRequest): readonly Picture[] => sheetPages(sheetContent(request));
