import { describe, expect, test } from 'vitest';
import {
  type Answer,
  comparedOf,
  figureOf,
  hasSettled,
  isMet,
  missedOf,
  tableOf,
} from './report.ts';

/** What the answers of the bench are made of, and whether they keep to their aims: no times here. */

const answer = (more: Partial<Answer> = {}): Answer => ({
  question: 'a part',
  wallMs: { middle: 2 },
  cpuMs: { middle: 3 },
  perSecond: 500,
  ratio: { middle: 1.4, scatter: 0.07 },
  cpuRatio: { middle: 1.2 },
  against: 'nothing',
  ...more,
});

describe('the middle and the scatter', () => {
  // Common practice: the median absolute deviation of 1, 1, 2, 2, 4, 6, 9 is 1 about their median 2, and
  // a normal deviate's is 0.6745 of its standard deviation.
  test('are those of the middle ones, whatever a wild value says', () => {
    expect(figureOf([9, 1, 2, 4, 1, 6, 2])).toEqual({ middle: 2, scatter: 1 / 0.6745 });
    expect(figureOf([900, 1, 2, 4, 1, 6, 2])).toEqual({ middle: 2, scatter: 1 / 0.6745 });
  });

  test('a single value has no scatter', () => {
    expect(figureOf([7])).toEqual({ middle: 7 });
  });
});

test('ratios are taken pair by pair, so that a slow minute that met both does not count', () => {
  const pair = (slow: number) => ({
    work: { wallMs: 6 * slow, cpuMs: 4 },
    bare: { wallMs: 2 * slow, cpuMs: 1 },
  });
  const compared = comparedOf([pair(1), pair(10), pair(3)]);
  expect(compared.ratio).toEqual({ middle: 3, scatter: 0 });
  expect(compared.cpuRatio).toEqual({ middle: 4, scatter: 0 });
  expect(compared.wallMs.middle).toBe(18);
  expect(compared.perSecond).toBeCloseTo(1000 / 18);
  expect(compared.cpuMs.middle).toBe(4);
});

test('calls have settled once three blocks brought nothing more', () => {
  expect(hasSettled([6, 3, 2])).toBe(false);
  expect(hasSettled([2, 2, 2])).toBe(false);
  expect(hasSettled([2, 2, 2, 2])).toBe(true);
  expect(hasSettled([6, 2, 2.1, 1.95, 1.91])).toBe(true);
  expect(hasSettled([6, 2, 2.1, 1.95, 1.89])).toBe(false);
  // A slow block of a busy machine is not what is waited for.
  expect(hasSettled([6, 3, 9, 2.5])).toBe(false);
});

describe('an aim', () => {
  test.each([
    [{ on: 'ratio', atMost: 1.5 }, true],
    [{ on: 'ratio', atMost: 1.4 }, true],
    [{ on: 'ratio', atMost: 1.39 }, false],
    [{ on: 'ratio', atLeast: 1.4 }, true],
    [{ on: 'ratio', atLeast: 1.41 }, false],
    [{ on: 'cpuRatio', atMost: 1.3 }, true],
    [{ on: 'cpuMs', atMost: 2.9 }, false],
    [{ on: 'wallMs', atMost: 2 }, true],
  ] as const)('%j is held against what it names', (aim, met) => {
    expect(isMet(answer({ aim }))).toBe(met);
    expect(missedOf([answer({ aim }), answer()])).toHaveLength(met ? 0 : 1);
  });

  test('where there is none, none is missed', () => {
    expect(isMet(answer())).toBeUndefined();
  });

  test('on what is no number is missed, and on what was not measured a fault of ours', () => {
    expect(isMet(answer({ ratio: { middle: Number.NaN }, aim: { on: 'ratio', atMost: 1 } }))).toBe(
      false,
    );
    const { cpuMs: _, ...unread } = answer({ aim: { on: 'cpuMs', atMost: 1 } });
    expect(() => isMet(unread)).toThrow('cpuMs was not measured');
  });
});

test('the table has a line for each answer, its columns below their heads', () => {
  const { cpuMs: _, cpuRatio: __, ...clockOnly } = answer({ question: 'a page', p95Ms: 12.34 });
  const [head = '', ...lines] = tableOf([
    answer({ aim: { on: 'ratio', atMost: 1.5 } }),
    answer({ aim: { on: 'cpuMs', atMost: 2 } }),
    clockOnly,
  ]).split('\n');
  expect(lines).toEqual([
    'a part    2.000 ms  3.000 ms              500/s  1.40 ±5 %  1.20          nothing  met: ratio at most 1.5',
    'a part    2.000 ms  3.000 ms              500/s  1.40 ±5 %  1.20          nothing  MISSED: at most 2 ms of processor',
    'a page    2.000 ms             12.3 ms    500/s  1.40 ±5 %                nothing',
  ]);
  for (const [name, cell] of [
    ['clock', '2.000 ms'],
    ['ratio', '1.40'],
    ['aim', 'met'],
  ] as const)
    expect(head.indexOf(name)).toBe(lines[0]?.indexOf(cell));
});
