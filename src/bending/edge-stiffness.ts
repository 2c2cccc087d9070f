/** Second moments of area of a strip of sheet about its own neutral axis, mm4. */
export interface EdgeStiffness {
  readonly flatMm4: number;
  readonly foldedMm4: number;
  /** How many times stiffer the strip is with its flange. */
  readonly ratio: number;
}

/**
 * A strip with one edge folded square against the same strip left flat, by the parallel axis
 * theorem; the corner is square, without its radius. `flangeMm` is measured over the outside. It
 * compares stiffness in bending along the edge, and says nothing about strength. Worked out in
 * tests/published/forming.json.
 */
export const edgeStiffness = (
  widthMm: number,
  thicknessMm: number,
  flangeMm: number,
): EdgeStiffness => {
  const wall = { b: widthMm, h: thicknessMm, y: thicknessMm / 2 };
  const rise = flangeMm - thicknessMm;
  const flange = { b: thicknessMm, h: rise, y: thicknessMm + rise / 2 };
  const both = [wall, flange];
  const area = both.reduce((sum, { b, h }) => sum + b * h, 0);
  const middle = both.reduce((sum, { b, h, y }) => sum + b * h * y, 0) / area;
  const own = ({ b, h }: { readonly b: number; readonly h: number }): number => (b * h ** 3) / 12;
  const foldedMm4 = both.reduce(
    (sum, one) => sum + own(one) + one.b * one.h * (one.y - middle) ** 2,
    0,
  );
  const flatMm4 = own(wall);
  return { flatMm4, foldedMm4, ratio: foldedMm4 / flatMm4 };
};
