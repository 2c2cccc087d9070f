import fc from 'fast-check';
import { readDistances } from '../../src/forms/distances.ts';
import { solveDistances } from '../../src/survey/solve.ts';
import type { Distance, Survey } from '../../src/survey/survey.ts';

/** The survey of a text of distances and sides. */
export function surveyOf(text: string): Survey {
  const read = readDistances(text);
  if (!read.ok) throw new Error(`${read.given}: ${read.mend}`);
  return solveDistances(read.value.distances, { sides: read.value.sides });
}

export type Places = Readonly<Record<string, readonly [x: number, y: number]>>;

export const placesOf = ({ points }: Survey): Places =>
  Object.fromEntries(points.map(({ name, x, y }) => [name, [x, y] as const]));

/** Distance by Pythagoras. */
export const apart = (places: Places, from: string, to: string): number => {
  const [p, q] = [places[from] ?? [NaN, NaN], places[to] ?? [NaN, NaN]];
  return Math.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2);
};

/**
 * The largest difference between the distances of two sets of places, mm; mirror images have none.
 */
export const worstDifference = (one: Places, other: Places): number => {
  const names = Object.keys(one);
  return Math.max(
    ...names.flatMap((p) => names.map((q) => Math.abs(apart(one, p, q) - apart(other, p, q)))),
  );
};

/** Distances between all named points, in order. */
export const allDistances = (places: Places): Distance[] => {
  const names = Object.keys(places);
  return names.flatMap((from, i) =>
    names.slice(i + 1).map((to) => ({ from, to, mm: apart(places, from, to) })),
  );
};

/** Points at least `apartMm` from each other, in a field of 1000 by 800 mm. */
export const scatter = (least: number, most: number, apartMm: number): fc.Arbitrary<Places> =>
  fc
    .array(fc.tuple(fc.integer({ min: 0, max: 10_000 }), fc.integer({ min: 0, max: 8000 })), {
      minLength: least,
      maxLength: most,
    })
    .map((list): Places =>
      Object.fromEntries(
        list.map(([x, y], i) => ['ABCDEFGHIJ'.charAt(i), [x / 10, y / 10] as const]),
      ),
    )
    .filter((places) => allDistances(places).every((d) => d.mm >= apartMm));

/**
 * Twice the area of a triangle over its longest side: the distance of its flattest corner from the
 * opposite side.
 */
export const leastHeight = (places: Places, p: string, q: string, r: string): number => {
  const [a, b, c] = [apart(places, p, q), apart(places, q, r), apart(places, p, r)];
  const s = (a + b + c) / 2;
  return (2 * Math.sqrt(Math.max(s * (s - a) * (s - b) * (s - c), 0))) / Math.max(a, b, c);
};

/** Whether any three points stand well off one line. */
export const inGeneralPlace = (places: Places, leastMm: number): boolean => {
  const names = Object.keys(places);
  return names.every((p, i) =>
    names
      .slice(i + 1)
      .every((q, j) =>
        names.slice(i + j + 2).every((r) => leastHeight(places, p, q, r) >= leastMm),
      ),
  );
};
