import { parseAngle } from '../text/units.ts';
import type { TestBend } from '../tube/springback.ts';
import { TEXT } from './accepts.ts';
import { type Field, type FieldReading, makeOptionalField, type Said } from './field.ts';
import { shown } from './given.ts';
import { entriesOf } from './split-entries.ts';

const MOST_TESTS = 100;
const MOST_DEG = 240;

/** Test bends of a bender: what it was pulled to, and what stayed; `undefined` where left out. */
export const optionalTestBends = (
  options: Said & { readonly otherwise: string },
): Field<readonly TestBend[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'test bend', many: 'test bends' },
      allowed:
        "two bends at least, each as what the bender was pulled to and what stayed, with an equals sign between, and ';' between bends",
      example: '20 = 18.2; 120 = 115.4',
      ...options,
    },
    TEXT,
    readTestBends,
  );

/** Reads `20 = 18.2; 120 = 115.4`. */
export function readTestBends(given: string): FieldReading<readonly TestBend[]> {
  const entries = entriesOf(given, MOST_TESTS);
  if (entries.length < 2)
    return { ok: false, mend: 'one bend does not tell how springback grows with the angle' };
  const tests: TestBend[] = [];
  for (const [i, entry] of entries.entries()) {
    const [pulled, stayed, ...more] = entry.split('=').map((text) => parseAngle(text));
    if (pulled?.ok !== true || stayed?.ok !== true || more.length > 0)
      return { ok: false, given: `${shown(entry.trim())} as bend ${i + 1}` };
    if (stayed.value <= 0 || pulled.value < stayed.value || pulled.value > MOST_DEG)
      return {
        ok: false,
        given: `${shown(entry.trim())} as bend ${i + 1}`,
        mend: 'write what it was pulled to first: no less than what stayed',
      };
    tests.push({ pulledDeg: pulled.value, stayedDeg: stayed.value });
  }
  return Math.max(...tests.map((t) => t.stayedDeg)) - Math.min(...tests.map((t) => t.stayedDeg)) <
    LEAST_APART_DEG
    ? { ok: false, mend: 'take angles that lie far apart, such as 20 and 120 degrees' }
    : { ok: true, value: tests };
}

/** Bends of angles nearer to each other tell more of the reading than of the bender. */
const LEAST_APART_DEG = 10;
