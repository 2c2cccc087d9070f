import { printedIn, type PrintUnit } from '../../text/printed.ts';
import type { ScreenSize } from '../../use/show/part-pictures.ts';

/** Sizes of pictures on the screen, in the millimetres of their texts. */
export const FLAT = { widthMm: 210, heightMm: 140 };
export const NARROW_FLAT = { widthMm: 100, heightMm: 84 };
export const FOLDED = { widthMm: 150, heightMm: 100 };
export const NARROW_FOLDED = { widthMm: 90, heightMm: 80 };
export const THUMB = { widthMm: 60, heightMm: 44 };
export const SKETCH = { widthMm: 110, heightMm: 84 };
export const MACHINE = { widthMm: 90, heightMm: 84 };
export const STEP = { widthMm: 92, heightMm: 72 };
export const SECTION = { widthMm: 100, heightMm: 78 };

/** What a picture is asked for: the width of the screen, and the unit of its figures. */
export interface Screen {
  /** Whether pictures are for a narrow screen: their texts are as large, so that fewer fit. */
  readonly isNarrow: boolean;
  /** The unit that lengths are told in; mm when left out. */
  readonly unit?: PrintUnit;
}

/** How a flat picture is drawn for a screen. */
export const flatSize = ({ isNarrow, unit }: Screen): ScreenSize => ({
  ...(isNarrow ? NARROW_FLAT : FLAT),
  print: printedIn(unit),
});
