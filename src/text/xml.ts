const XML_NAMES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/**
 * A line of text for XML 1.0, in an element or an attribute. Characters that XML cannot hold become
 * U+FFFD.
 */
export const xmlText = (line: string): string =>
  line
    .replace(/[\p{Cs}\uFFFE\uFFFF]/gu, '\uFFFD')
    .replace(/[&<>"]/g, (c) => XML_NAMES[c] as string);
