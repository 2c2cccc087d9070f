import { KEPT } from '../../text/unbroken.ts';
import { NO_SIZE_MM } from '../../geometry/tolerance.ts';
import { HELVETICA, HELVETICA_BOLD } from '../../data/helvetica.ts';

const widths = (table: typeof HELVETICA): ReadonlyMap<string, number> =>
  new Map(
    table.flatMap(([width, letters]) =>
      // A space at which no line may end is as wide as any.
      [...letters.replace(' ', ` ${KEPT}`)].map((letter) => [letter, width] as const),
    ),
  );

const [REGULAR, BOLD] = [widths(HELVETICA), widths(HELVETICA_BOLD)];

/** Wide enough for any letter that is not in the tables. */
const WIDEST = 1000;

/**
 * Width of a line of text in Helvetica, mm, kerning left out; `sizeMm` is the height of the font.
 */
export const textWidthMm = (text: string, sizeMm: number, isBold = false): number => {
  const table = isBold ? BOLD : REGULAR;
  let sum = 0;
  for (const letter of text) sum += table.get(letter) ?? WIDEST;
  return (sum * sizeMm) / 1000;
};

/** The size of letters, mm, at most the wanted one, in which a text is no wider than its field. */
export const fittedSizeMm = (
  text: string,
  wantedMm: number,
  widthMm: number,
  isBold = false,
): number =>
  Math.min(
    wantedMm,
    (wantedMm * widthMm) / Math.max(textWidthMm(text, wantedMm, isBold), NO_SIZE_MM),
  );
