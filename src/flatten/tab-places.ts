/** What the layout of tabs along a seam depends on, mm. */
export interface TabSizes {
  readonly thicknessMm: number;
  readonly clearanceMm: number;
  /** Width of the cutter's narrowest slot, which the relief beside a foot has. */
  readonly reliefMm: number;
}

/**
 * A tab is so many thicknesses wide, and no narrower than a shop likes to tack; another follows about
 * every so many mm. All are common practice.
 */
const TAB_THICKNESSES = 6;
const LEAST_TAB_MM = 12;
const TAB_EVERY_MM = 120;

/**
 * Where tabs stand on a stretch: each in the middle of its share, two at least where they find room,
 * with metal of a thickness left between the reliefs of neighbours; none where there is no room.
 */
export const tabPlaces = (
  { from, to }: { readonly from: number; readonly to: number },
  { thicknessMm, clearanceMm, reliefMm }: TabSizes,
): readonly { readonly from: number; readonly to: number }[] => {
  const widthMm = Math.max(LEAST_TAB_MM, TAB_THICKNESSES * thicknessMm, 3 * reliefMm);
  const leastShare = widthMm + 2 * clearanceMm + 2 * (2 * reliefMm + thicknessMm);
  const most = Math.floor((to - from) / leastShare);
  const count = Math.min(most, Math.max(2, Math.round((to - from) / TAB_EVERY_MM)));
  return Array.from({ length: Math.max(0, count) }, (_, i) => {
    const middle = from + ((i + 0.5) * (to - from)) / count;
    return { from: middle - widthMm / 2, to: middle + widthMm / 2 };
  });
};
