/** A shade from 0, black, to 1, white, as SVG and PDF writers take it. */
export const greyHex = (shade: number): string => {
  const hex = Math.round(Math.min(1, Math.max(0, shade)) * 255)
    .toString(16)
    .padStart(2, '0');
  return `#${hex}${hex}${hex}`;
};
