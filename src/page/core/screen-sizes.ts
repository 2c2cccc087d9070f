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
