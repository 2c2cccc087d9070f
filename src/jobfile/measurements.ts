import { nearest } from '../text/nearest.ts';
import { parseAngle, parseLength } from '../text/units.ts';

/** A measurement that cannot be used: its name, and what is wrong with it. */
export interface MeasurementProblem {
  readonly name: string;
  readonly allowed: string;
  readonly mend?: string;
}

/** Longest chain of measurements: far more than anybody measures, and few enough for the stack. */
const MOST_IN_A_ROW = 500;

export interface Measurements {
  /** Values in mm, or degrees for those given so. */
  readonly values: ReadonlyMap<string, number>;
  readonly problems: readonly MeasurementProblem[];
}

/**
 * A name has three letters or more, so that it is not mistaken for a unit, a thread or a point's
 * name; it holds letters, digits and _.
 */
const NAME = /^[A-Za-z_][A-Za-z_0-9]{2,39}$/;

/** Words of the notations in which inputs are written. */
const WORDS = new Set(
  (
    'deg degrees arc down left right both none slots joggle inch inches feet foot yes true false ' +
    'from the middle for tapped csk drill off grid pitch square hex'
  ).split(' '),
);

/**
 * Works out named measurements, each of which may be a sum of others. A circle of names is reported
 * with the names that form it. Measurements that cannot be worked out are left out of the values.
 */
export function measurementsOf(texts: Readonly<Record<string, string | number>>): Measurements {
  const names = Object.keys(texts);
  const values = new Map<string, number>();
  const problems: MeasurementProblem[] = [];
  const bad = new Set<string>();
  const fail = (name: string, allowed: string, mend?: string): void => {
    bad.add(name);
    problems.push({ name, allowed, ...(mend !== undefined && { mend }) });
  };
  for (const name of names) {
    const wrong = nameProblem(name);
    if (wrong !== undefined) fail(name, ...wrong);
  }
  const solve = (name: string, path: readonly string[]): void => {
    if (values.has(name) || bad.has(name)) return;
    const circle = path.indexOf(name);
    if (circle >= 0) {
      fail(
        name,
        'measurements that do not need themselves',
        `it goes round in a circle: ${[...path.slice(circle), name].join(' -> ')}`,
      );
      return;
    }
    if (path.length > MOST_IN_A_ROW) {
      fail(name, `measurements that build on at most ${MOST_IN_A_ROW} others in a row`);
      return;
    }
    const text = String(texts[name]);
    for (const other of namesIn(text))
      if (Object.hasOwn(texts, other)) solve(other, [...path, name]);
    if (bad.has(name)) return;
    const broken = namesIn(text).find((other) => bad.has(other));
    if (broken !== undefined) {
      bad.add(name);
      return;
    }
    const read = parseLength(text, values);
    const angle = read.ok ? read : parseAngle(text, values);
    if (angle.ok) values.set(name, angle.value);
    else
      fail(
        name,
        'a length or a sum of lengths and other measurements',
        unknownName(text, names) ?? (read.ok ? undefined : read.reason),
      );
  };
  for (const name of names) solve(name, []);
  return { values, problems };
}

/** What a name has to be and what to call it instead; `undefined` for a good one. */
const nameProblem = (name: string): readonly [allowed: string, mend: string] | undefined => {
  if (!NAME.test(name) || /^[A-Za-z]{1,2}\d+$/.test(name))
    return [
      'names of 3 to 40 letters, digits and _, other than a thread or a size',
      `call it ${name.replace(/[^A-Za-z_0-9]/g, '')}Size`,
    ];
  return WORDS.has(name.toLowerCase())
    ? ['names that inputs do not use as words of their own', `call it ${name}Size`]
    : undefined;
};

/** The words in a text that may be names. */
export const namesIn = (text: string): string[] =>
  [...text.matchAll(/[\p{L}_][\p{L}\p{N}_]*/gu)].map(([found]) => found);

/** Message for a misspelt name, with the name that was most likely meant. */
export const unknownName = (text: string, names: readonly string[]): string | undefined => {
  for (const given of namesIn(text)) {
    if (names.includes(given)) continue;
    const meant = nearest(given, names);
    if (meant !== undefined) return `there is no ${given}; did you mean ${meant}?`;
  }
  return undefined;
};

/**
 * A text with the values of measurements in place of their names. Words that have another meaning
 * stay: a word before a colon names a point, the word after 'from' says what a hole is measured
 * from, words after 'to' say what it is bolted to, and the word after 'edge' names an edge.
 */
export const withMeasurements = (text: string, values: ReadonlyMap<string, number>): string =>
  text.replace(/[^;,\n]+/gu, (entry) => {
    const names = entry.lastIndexOf(':') + 1;
    return (
      entry.slice(0, names) +
      entry.slice(names).replace(KEPT_OR_WORD, (found, kept: string | undefined) => {
        const value = kept === undefined ? values.get(found) : undefined;
        return value === undefined ? found : plainNumber(value);
      })
    );
  });

/** Words that stay, among them a length of a part such as `base.width`; or one word. */
const KEPT_OR_WORD =
  /(\bfrom\s+(?:the\s+)?[\p{L}_][\p{L}\p{N}_]*|\bto\s.*$|\bedge\s+[^\s;]+|[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*)+)|[\p{L}_][\p{L}\p{N}_]*/gu;

/**
 * The number as text, to twelve figures: more than any length has, and few enough to hide the noise
 * of a sum such as 0.1 + 0.2.
 */
const plainNumber = (value: number): string => {
  const figures = Number(value.toPrecision(12));
  const text = String(figures).includes('e') ? figures.toFixed(9) : String(figures);
  return value < 0 ? `(${text})` : text;
};
