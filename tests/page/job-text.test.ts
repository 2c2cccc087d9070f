import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { parse } from 'yaml';
import { describe, expect, test } from 'vitest';
import { changed, type History, redone, startOf, undone } from '../../src/page/model/history.ts';
import {
  EMPTY_JOB,
  jobValue,
  withCopy,
  withEntry,
  withLines,
  withMove,
  withoutPart,
  withPart,
} from '../../src/page/model/job-text.ts';
import { fixedRuns } from '../helpers/extent.ts';

/** The texts of a job as the page changes them. The witness is the YAML package's plain reader. */

const CART = readFileSync('templates/demo/cart.job.yaml', 'utf8');
const DIFFERENT = (a: string, b: string): string[] => {
  const known = new Set(a.split('\n'));
  return b.split('\n').filter((line) => !known.has(line));
};

interface Read {
  readonly title: string;
  readonly measurements: Readonly<Record<string, unknown>>;
  readonly parts: readonly {
    readonly family: string;
    readonly name?: string;
    readonly inputs: Readonly<Record<string, unknown>>;
  }[];
}
const read = (text: string): Read => parse(text) as Read;

describe('one entry changed', () => {
  test('every other line of the file stays as it is, comments and order with them', () => {
    const text = withEntry(CART, ['parts', 0, 'inputs', 'legA'], '72');
    expect(DIFFERENT(CART, text)).toEqual(['      legA: 72']);
    expect(read(text).parts[0]?.inputs['legA']).toBe(72);
  });

  test.each([
    ['a figure', '72', 72],
    ['a fraction of an inch', '2 1/2"', '2 1/2"'],
    ['a sum', '120-2*3', '120-2*3'],
    ['a sum of measurements', 'tankWidth - 12', 'tankWidth - 12'],
    ['a tolerance', '60+-1', '60+-1'],
    ['a figure with more noughts than it needs', '60.0', '60.0'],
    ['half a figure', '6.', '6.'],
    ['a colon and a brace', '{a: b}', '{a: b}'],
    ['a word that YAML takes for another', 'no', 'no'],
    ['a hash', '# 4', '# 4'],
    ['blanks round it', ' 60 ', ' 60 '],
    ['letters of any alphabet', 'Güllefass № 2', 'Güllefass № 2'],
  ])('%s is read back as it was typed', (_, typed, value) => {
    const text = withEntry(CART, ['parts', 0, 'inputs', 'legA'], typed);
    expect(read(text).parts[0]?.inputs['legA']).toStrictEqual(value);
    expect(read(text).parts.slice(1)).toEqual(read(CART).parts.slice(1));
  });

  test('what was left out is put in, and taken out again', () => {
    const text = withEntry(CART, ['parts', 0, 'inputs', 'bendAngle'], '60');
    expect(read(text).parts[0]?.inputs['bendAngle']).toBe(60);
    const again = withEntry(text, ['parts', 0, 'inputs', 'bendAngle'], undefined);
    expect(read(again)).toEqual(read(CART));
  });

  test('in a job that has nothing yet', () => {
    const text = withEntry(EMPTY_JOB, ['measurements', 'tray'], '242');
    expect(read(text).measurements).toEqual({ tray: 242 });
    const part = withPart(text, { family: 'strap', inputs: {} });
    const typed = withEntry(part, ['parts', 0, 'inputs', 'width'], '40');
    expect(read(typed).parts).toEqual([{ family: 'strap', inputs: { width: 40 } }]);
    // As a person would write it: nothing in braces.
    expect(typed).not.toMatch(/[{}]/);
  });

  test('a text that is no YAML comes back as it is', () => {
    const broken = 'parts: [a: b: c';
    expect(withEntry(broken, ['title'], 'x')).toBe(broken);
    expect(withPart(broken, { family: 'strap' })).toBe(broken);
    expect(jobValue('a: *b')).toBeNull();
  });

  test('whatever is typed wherever is read back, and nothing else changes', () => {
    const before = read(CART);
    const places = before.parts.flatMap(({ inputs }, i) =>
      Object.keys(inputs).map((name) => ['parts', i, 'inputs', name] as const),
    );
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.string({ minLength: 1 }), (path, typed) => {
        const text = withEntry(CART, path, typed);
        const [, i, , name] = path;
        const now = read(text);
        expect(String(now.parts[i]?.inputs[name])).toBe(typed);
        expect(now.parts.length).toBe(before.parts.length);
        for (const [k, part] of now.parts.entries())
          for (const [key, value] of Object.entries(part.inputs))
            if (k !== i || key !== name) expect(value).toEqual(before.parts[k]?.inputs[key]);
      }),
      { numRuns: fixedRuns(200) },
    );
  });
});

describe('parts', () => {
  const namesOf = (text: string) => read(text).parts.map(({ name, family }) => name ?? family);

  test('added, copied, moved, taken out: the others keep their comments', () => {
    const added = withPart(CART, { family: 'strap', name: 'new strap', inputs: { width: 40 } });
    expect(namesOf(added)).toEqual([...namesOf(CART), 'new strap']);
    const copied = withCopy(CART, 0, 'seat post 2');
    expect(namesOf(copied).slice(0, 3)).toEqual(['seat post', 'seat post 2', 'driver heel rest']);
    expect(read(copied).parts[1]?.inputs).toEqual(read(CART).parts[0]?.inputs);
    const moved = withMove(CART, 2, 0);
    expect(namesOf(moved).slice(0, 3)).toEqual(['battery tray', 'seat post', 'driver heel rest']);
    const out = withoutPart(CART, 1);
    expect(namesOf(out)).toEqual(namesOf(CART).filter((name) => name !== 'driver heel rest'));
    for (const text of [added, copied, moved, out])
      expect(text).toContain('# Battery tray of the vineyard cart');
  });
});

describe('a list of lines', () => {
  const PATH = ['parts', 0, 'inputs', 'flanges'];
  const JOB = `parts:
  - family: panels
    inputs:
      base: 120 x 80
      flanges:
        # of the lamp
        - ear on right 40 75 up
        - lip on top 12 90 up # short
`;
  const flanges = (text: string): unknown =>
    (parse(text) as { parts: [{ inputs: { flanges?: unknown } }] }).parts[0].inputs.flanges;

  test('is made, made longer, changed, made shorter and taken out; what stays keeps its comments', () => {
    const lines = ['ear on right 40 75 up', 'lip on top 14 90 up', 'foot on left 9 90 down'];
    const longer = withLines(JOB, PATH, lines);
    expect(flanges(longer)).toEqual(lines);
    expect(longer).toContain('# of the lamp');
    expect(longer).toContain('lip on top 14 90 up # short');
    const shorter = withLines(longer, PATH, lines.slice(0, 1));
    expect(flanges(shorter)).toEqual(lines.slice(0, 1));
    const none = withLines(shorter, PATH, []);
    expect(flanges(none)).toBeUndefined();
    expect(flanges(withLines(none, PATH, lines))).toEqual(lines);
  });
});

describe('the way back', () => {
  test('undo to the start and redo to the end give the same texts', () => {
    const steps: ((text: string) => string)[] = [
      (t) => withEntry(t, ['title'], 'vineyard cart 2'),
      (t) => withPart(t, { family: 'strap', inputs: {} }),
      (t) => withEntry(t, ['parts', 0, 'inputs', 'legA'], '72'),
      (t) => withEntry(t, ['parts', 0, 'inputs', 'legB'], undefined),
      (t) => withMove(t, 0, 3),
      (t) => withoutPart(t, 2),
      (t) => withCopy(t, 1, 'once more'),
      (t) => withEntry(t, ['measurements', 'tankLength'], 'tankWidth * 3'),
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...steps), { maxLength: 12 }), (list) => {
        let history: History = startOf(CART);
        const texts = [CART];
        for (const [i, step] of list.entries()) {
          const text = step(history.text);
          history = changed(history, text, { words: String(i), of: '', joins: false });
          if (text !== texts.at(-1)) texts.push(text);
        }
        for (const text of texts.toReversed()) {
          expect(history.text).toBe(text);
          history = undone(history);
        }
        for (const text of texts) {
          expect(history.text).toBe(text);
          history = redone(history);
        }
      }),
      { numRuns: fixedRuns(60) },
    );
  });

  test('the letters of one figure are one step, in words from what it was', () => {
    let history = startOf(CART);
    for (const typed of ['7', '72', '72.5'])
      history = changed(history, withEntry(CART, ['parts', 0, 'inputs', 'legA'], typed), {
        words: `legA 60 -> ${typed}`,
        of: 'visit 1',
        joins: true,
      });
    expect(history.past.map(({ words }) => words)).toEqual(['legA 60 -> 72.5']);
    expect(undone(history).text).toBe(CART);
    // Typed back to what it was, it is no step at all.
    history = changed(history, CART, { words: '', of: 'visit 1', joins: true });
    expect(history.past).toEqual([]);
  });

  test('a change after undo takes the place of what was undone', () => {
    const one = changed(startOf('a'), 'b', { words: '', of: '', joins: false });
    const other = changed(undone(one), 'c', { words: '', of: '', joins: false });
    expect(redone(other).text).toBe('c');
    expect(undone(other).text).toBe('a');
  });
});
