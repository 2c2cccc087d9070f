import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { atLeast, atMost, figure } from '../../src/text/figures.ts';
import { nearest } from '../../src/text/nearest.ts';
import { safeName } from '../../src/text/safe-name.ts';

describe('safeName', () => {
  test.each([
    ['seat-post-L', 'seat-post-L'],
    ['Träger für Sitz', 'Traeger-fuer-Sitz'],
    ['Señal nº 2', 'Senal-no-2'],
    ['../../etc/passwd', 'etc-passwd'],
    ['C:\\parts\\x', 'C-parts-x'],
    ['.hidden', 'hidden'],
    ['con', '_con'],
    ['NUL.dxf', '_NUL.dxf'],
    ['lpt1', '_lpt1'],
    ['console', 'console'],
    ['', 'part'],
    ['Ångström Øl æ ŁÓDŹ', 'Angstroem-Ol-ae-LODZ'],
    ['Ελλάδα', 'Ellada'],
    ['Ключ Щит подъём', 'Klyuch-Shchit-podem'],
    ['Їжак', 'Izhak'],
    ['日本', 'part-0qmsg4k'],
    ['日本 2', '2-06smc4a'],
    ['קערה', 'part-0nthsjs'],
    ['🔧', 'part-1dfqs7x'],
    ['🔧 bolt', 'bolt'],
    ['*', 'part-0d1yn99'],
    [' ', 'part'],
    ['a\0b\nc', 'a-b-c'],
    ['a. ', 'a'],
  ])('%j becomes %j', (name, safe) => {
    expect(safeName(name)).toBe(safe);
  });

  test('what has no spelling gets the number of the whole name, the same however its accents are written', () => {
    expect(safeName('…')).toMatch(/^part-[0-9a-z]{7}$/);
    expect(safeName('日本e\u0301')).toBe(safeName('日本\u00e9'));
    expect(
      new Set(['日本', '日木', '本日', '🔧', '🔩', '*', '?', '日本 2', '日木 2'].map(safeName))
        .size,
    ).toBe(9);
    const long = [
      '日'.repeat(90),
      '日'.repeat(89),
      `${'x'.repeat(90)}日`,
      `${'x'.repeat(90)}本`,
    ].map(safeName);
    expect(new Set(long).size).toBe(4);
    for (const name of long) expect(name.length).toBeLessThan(80);
  });

  test('whatever the name, the result is safe, and safe names stay', () => {
    const words = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 200 }),
      fc.constantFrom('COM1', 'aux', 'nul.', '.-.', 'x'.repeat(300)),
    );
    fc.assert(
      fc.property(words, (name) => {
        const safe = safeName(name);
        expect(safe).toMatch(/^[A-Za-z0-9_](?:[A-Za-z0-9._-]{0,78}[A-Za-z0-9_])?$/);
        expect(safe).not.toMatch(/^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i);
        expect(safeName(safe)).toBe(safe);
      }),
    );
  });
});

describe('nearest', () => {
  const NAMES = ['legA', 'legB', 'width', 'thickness', 'cornerRadius', 'radius'];
  test.each([
    ['wdith', 'width'],
    ['leg-a', 'legA'],
    ['thick', 'thickness'],
    ['corner_raduis', 'cornerRadius'],
    ['colour', undefined],
    ['', undefined],
    ['x'.repeat(1000), undefined],
  ])('%s -> %s', (word, name) => {
    expect(nearest(word, NAMES)).toBe(name);
  });
});

describe('figures', () => {
  test.each([
    [3, '3'],
    [3.1, '3.1'],
    [100, '100'],
    [2.499, '2.5'],
    [-0.001, '0'],
    [0.005, '0.01'],
  ])('%d reads %s', (value, text) => {
    expect(figure(value)).toBe(text);
  });

  test('what is recommended passes when it is typed', () => {
    expect(atMost(34.999)).toBe('34.99');
    expect(atMost(5.9999999999)).toBe('6');
    expect(atLeast(2.001)).toBe('2.01');
    expect(atLeast(6.0000000001)).toBe('6');
  });
});
