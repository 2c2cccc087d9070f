import fc from 'fast-check';

/**
 * Pieces that spoil a text: numbers that are none, ends of strings, the notations of YAML, JSON,
 * DXF and CSV where they do not belong.
 */
const RUBBISH = [
  'NaN',
  'Infinity',
  '-1e999',
  '1e308',
  '999999999999',
  '-0',
  '1,5',
  '\u0000',
  '\ufeff',
  '\ud800',
  '\r',
  '\t',
  '"',
  "'",
  '{',
  '}',
  '[',
  '[[[[[[[[',
  ': ',
  '- ',
  '&a ',
  '*a',
  '<<: *a',
  '!!js/function x',
  '# ',
  '---\n',
  '...\n',
  '%YAML 9.9\n',
  '__proto__',
  'constructor',
  '🔧',
  'é',
  '=1+1',
  ';',
  '0\nEOF\n',
  '0\nSECTION\n',
  '0\nENDSEC\n',
  '10\n',
  '42\nNaN\n',
  '90\n1000000000\n',
];

/** A change to a text at a place given as a share of its length. */
const change: fc.Arbitrary<(text: string) => string> = fc.oneof(
  place((text, at) => text.slice(0, at)),
  span((text, from, to) => text.slice(0, from) + text.slice(to)),
  span((text, from, to) => text.slice(0, to) + text.slice(from)),
  fc.tuple(fc.constantFrom(...RUBBISH), fc.double({ min: 0, max: 1, noNaN: true })).map(
    ([token, share]) =>
      (text: string) =>
        insert(text, Math.floor(share * text.length), token),
  ),
  fc.tuple(fc.nat(), fc.constantFrom(...RUBBISH)).map(
    ([n, token]) =>
      (text: string) =>
        withNumber(text, n, token),
  ),
  fc.tuple(fc.nat(), fc.nat()).map(
    ([a, b]) =>
      (text: string) =>
        withLinesSwapped(text, a, b),
  ),
);

/** One to four changes, one on top of the other. */
export const mutilation: fc.Arbitrary<(text: string) => string> = fc
  .array(change, { minLength: 1, maxLength: 4 })
  .map((all) => (text: string) => all.reduce((done, next) => next(done), text));

function place(edit: (text: string, at: number) => string): fc.Arbitrary<(text: string) => string> {
  return fc
    .double({ min: 0, max: 1, noNaN: true })
    .map((share) => (text: string) => edit(text, Math.floor(share * text.length)));
}

function span(
  edit: (text: string, from: number, to: number) => string,
): fc.Arbitrary<(text: string) => string> {
  return fc
    .tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 1, max: 200 }))
    .map(([share, length]) => (text: string) => {
      const from = Math.floor(share * text.length);
      return edit(text, from, Math.min(text.length, from + length));
    });
}

const insert = (text: string, at: number, token: string): string =>
  text.slice(0, at) + token + text.slice(at);

/** The text with its n-th number, counted round, replaced by something else. */
const withNumber = (text: string, n: number, token: string): string => {
  const numbers = [...text.matchAll(/-?\d+(?:\.\d+)?/g)];
  const at = numbers[n % Math.max(1, numbers.length)];
  return at === undefined
    ? text
    : text.slice(0, at.index) + token + text.slice(at.index + at[0].length);
};

const withLinesSwapped = (text: string, a: number, b: number): string => {
  const lines = text.split('\n');
  const [i, j] = [a % lines.length, b % lines.length];
  return lines.map((line, k) => (k === i ? lines[j] : k === j ? lines[i] : line)).join('\n');
};
