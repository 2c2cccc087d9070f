/** A space at which no line is broken. */
export const KEPT = '\u00a0';

/** The text with whole inches and their fraction held together: no line ends between `2` and `3/8`. */
export const unbroken = (text: string): string => text.replace(/(?<=\d) (?=\d+\/\d)/g, KEPT);

/** The same with plain spaces again, once its lines are known. */
export const withPlainSpaces = (text: string): string => text.replaceAll(KEPT, ' ');
