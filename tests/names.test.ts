import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { atLeast, atMost, figure } from '../src/figures.ts';
import { nearest } from '../src/nearest.ts';
import { safeName } from '../src/safe-name.ts';

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
    ['...', 'part'],
    ['日本', 'part'],
    ['a\0b\nc', 'a-b-c'],
    ['a. ', 'a'],
  ])('%j becomes %j', (name, safe) => {
    expect(safeName(name)).toBe(safe);
  });

  test('whatever the name, the result is safe, and safe names stay', () => {
    const words = fc.oneof(fc.string({ unit: 'binary', maxLength: 200 }), fc.constantFrom('COM1', 'aux', 'nul.', '.-.', 'x'.repeat(300)));
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
