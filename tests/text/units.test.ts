import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  MM_PER_INCH,
  parseAngle,
  parseLength,
  parseNumber,
  type ParsedNumber,
} from '../../src/text/units.ts';

const valueOf = (parsed: ParsedNumber): number => {
  if (!parsed.ok) throw new Error(parsed.reason);
  return parsed.value;
};
const reasonOf = (parsed: ParsedNumber): string => {
  if (parsed.ok) throw new Error(`read as ${parsed.value}`);
  return parsed.reason;
};

// An inch is 25.4 mm exactly and a foot 12 inches (ISO 80000-3); the millimetres are worked out
// from that by hand.
describe('lengths', () => {
  test.each([
    ['101.6', 101.6],
    ['101.6mm', 101.6],
    ['10 cm', 100],
    ['1.2 m', 1200],
    ['4in', 101.6],
    ['4 IN', 101.6],
    ['4"', 101.6],
    ['4″', 101.6],
    ['4”', 101.6],
    ["4''", 101.6],
    ['2 1/2"', 63.5],
    ['3 1/2 in', 88.9],
    ['1/8in', 3.175],
    ['1⁄8 in', 3.175],
    ['½in', 12.7],
    ['2½"', 63.5],
    ['2 ⅛ in', 53.975],
    ["5'", 1524],
    ['5 ft', 1524],
    ['2ft 3in', 685.8],
    ['2′ 3 1/2″', 698.5],
    ['-2\' 3"', -685.8],
    ['2 1/2', 2.5],
    ['3/4', 0.75],
    ['.5', 0.5],
    ['1e3', 1000],
    [' 60 ', 60],
    ['-0', 0],
    ['100000', 100_000],
  ])('%s is %d mm', (text, mm) => {
    expect(parseLength(text)).toEqual({ ok: true, value: mm });
  });

  test.each([
    ['120-2*3', 114],
    ['4in + 1/8in', 104.775],
    ['(300-2*1.5)/2', 148.5],
    ['(1 + 1/8)in', 28.575],
    ['2*1/8in', 6.35],
    ['1/8in*2', 6.35],
    ['4in/2', 50.8],
    ['10 + 4in', 111.6],
    ['100 - 1/8in', 96.825],
    ['2ft - 3in', 533.4],
    ['-(2+3)*2', -10],
    ['2*-3', -6],
    ['−5', -5],
    ['3×4÷2', 6],
    ['20-5-3', 12],
    ['100/5/2', 10],
    [`${'('.repeat(20)}7${')'.repeat(20)}`, 7],
    [Array(21).fill('(2)').join('+'), 42],
  ])('%s comes to %d mm', (text, mm) => {
    expect(parseLength(text)).toEqual({ ok: true, value: mm });
  });

  test.each([
    ['', /nothing is given/],
    ['  ', /nothing is given/],
    ['1,5', /character 2.*write 1\.5$/],
    ['1,000', /1\.000, or 1000/],
    ['2+,5', /comma at character 3/],
    ['NaN', /'NaN' at character 1/],
    ['Infinity', /'Infinity' at character 1/],
    ['0x10', /'x10' at character 2 is no unit/],
    ['1e400', /without end/],
    ['100001', /100001.*100000 mm/],
    ['-4000in', /-101600.*100000 mm/],
    ['10 foo', /'foo' at character 4 is no unit.*mm, cm, m, in/],
    ['10deg', /'deg' at character 3 is no unit/],
    ['10 20', /'20' at character 4/],
    ['4in 3in', /'3in' at character 5/],
    ['4 mm mm', /'mm' at character 6/],
    ['5ft 3', /inches/],
    ['4in*2in', /character 4 multiplies a length by a length/],
    ['8/(2in)', /character 2 divides by a length/],
    ['6/1/8in', /character 2 divides by a length/],
    ['1/0', /character 2 divides by zero/],
    ['3 5/4in', /5\/4.*less than 1/],
    ['3 4/4in', /4\/4.*less than 1/],
    ['2 1/0in', /1\/0.*less than 1/],
    ['((1)', /bracket at character 1 is not closed/],
    ['1)', /'\)' at character 2/],
    ['2(3)', /'\(' at character 2/],
    [`${'('.repeat(21)}7${')'.repeat(21)}`, /character 21.*20 brackets/],
    ['4in-', /missing at the end/],
    ['*3', /'\*' at character 1/],
    ['1..2', /'\.2' at character 3/],
    ['1_000', /'_000' at character 2/],
    ['\u0007', /'U\+0007' at character 1/],
    ['1'.repeat(201), /200 characters/],
  ])('%j is refused, and the place is named', (text, reason) => {
    expect(reasonOf(parseLength(text))).toMatch(reason);
  });

  test.each([
    ['10 +-0.2', /second sign/],
    ['5 - -3', /second sign/],
    ['10±0.2', /'±' at character 3/],
    ['4-1/8"', /character 2 can be read in two ways.*4 1\/8in.*4mm - 1\/8in/],
    ['2\'-3"', /character 3 can be read in two ways/],
    ['2ft-3in', /character 4 can be read in two ways/],
  ])('%s, which people read differently, is refused', (text, reason) => {
    expect(reasonOf(parseLength(text))).toMatch(reason);
  });

  test('no text makes it throw or gives anything but a finite number within limits', () => {
    const bits = fc.array(
      fc.constantFrom(
        '1',
        '2.5',
        ' ',
        '/',
        '*',
        '+',
        '-',
        '(',
        ')',
        'in',
        '"',
        "'",
        'mm',
        '½',
        ',',
        'e3',
        '.',
        'ft',
        '°',
        '\0',
      ),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 220 }),
          bits.map((b) => b.join('')),
        ),
        (text) => {
          const parsed = parseLength(text);
          expect(parsed.ok ? Math.abs(parsed.value) <= 100_000 : parsed.reason !== '').toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

const decimal = fc.integer({ min: 0, max: 9_999_999 }).map((n) => n / 1000);

describe('the same length, however it is written', () => {
  test('a decimal is read back as it was', () => {
    fc.assert(
      fc.property(decimal, (n) => {
        expect(valueOf(parseLength(String(n)))).toBe(n);
      }),
    );
  });

  test('inches are 25.4 times as many millimetres', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3_900_000 }), (thousandths) => {
        // In ten-thousandths of a millimetre the product is a whole number, so no rounding is
        // involved.
        expect(valueOf(parseLength(`${thousandths / 1000}in`))).toBe((thousandths * 254) / 10_000);
      }),
    );
  });

  test('a mixed number is its whole and its fraction', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.constantFrom(2, 4, 8, 16, 32, 64),
        fc.nat(),
        (whole, bottom, n) => {
          const top = 1 + (n % (bottom - 1));
          expect(valueOf(parseLength(`${whole} ${top}/${bottom}in`))).toBeCloseTo(
            (whole + top / bottom) * MM_PER_INCH,
            9,
          );
        },
      ),
    );
  });

  test('spaces round signs and brackets round the whole change nothing', () => {
    fc.assert(
      fc.property(decimal, decimal, (a, b) => {
        const plain = valueOf(parseLength(`${a}-${b}*2`));
        expect(valueOf(parseLength(` ( ${a}  -  ${b} * 2 ) mm`))).toBe(plain);
      }),
    );
  });
});

/** Precedence by hand: first every product from left to right, then the sum of what is left. */
const evaluated = (numbers: readonly number[], operators: readonly string[]): number => {
  const terms: number[] = [];
  numbers.forEach((n, i) => {
    const before = operators[i - 1];
    const last = terms.pop();
    if (last === undefined) terms.push(n);
    else if (before === '*') terms.push(last * n);
    else if (before === '/') terms.push(last / n);
    else terms.push(last, before === '-' ? -n : n);
  });
  return terms.reduce((a, b) => a + b, 0);
};

test('a sum has the precedence of school arithmetic', () => {
  const numbers = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 2, maxLength: 5 });
  fc.assert(
    fc.property(
      numbers,
      fc.array(fc.constantFrom('+', '-', '*', '/'), { minLength: 4, maxLength: 4 }),
      (ns, ops) => {
        const text = ns.map((n, i) => (i === 0 ? `${n}` : ` ${ops[i - 1]} ${n}.0`)).join('');
        expect(valueOf(parseLength(text))).toBeCloseTo(evaluated(ns, ops), 6);
      },
    ),
  );
});

describe('angles and numbers', () => {
  test.each([
    ['90', 90],
    ['90deg', 90],
    ['90°', 90],
    ['37.5 degrees', 37.5],
    ['180 - 45°', 135],
    ['-360', -360],
  ])('%s is %d degrees', (text, degrees) => {
    expect(parseAngle(text)).toEqual({ ok: true, value: degrees });
  });

  test.each([
    ['90mm', /'mm' at character 3 is no unit; angles take deg/],
    ['361', /361.*360 degrees/],
    ['45°*2°', /multiplies an angle by an angle/],
  ])('%s is no angle', (text, reason) => {
    expect(reasonOf(parseAngle(text))).toMatch(reason);
  });

  test('a plain number takes no unit', () => {
    expect(valueOf(parseNumber('210000'))).toBe(210_000);
    expect(valueOf(parseNumber('2*(3+4)'))).toBe(14);
    expect(reasonOf(parseNumber('4mm'))).toMatch(/'mm' at character 2.*takes none/);
    expect(reasonOf(parseNumber('0,42'))).toMatch(/write 0\.42/);
  });
});

test('names stand for numbers, and an unknown one is named', () => {
  const names = new Map([
    ['width', 300],
    ['t', 1.5],
  ]);
  expect(valueOf(parseLength('(width - 2*t)/2', names))).toBe(148.5);
  expect(reasonOf(parseLength('width - w', names))).toMatch(/'w' at character 9/);
  expect(reasonOf(parseLength('width'))).toMatch(/'width' at character 1/);
});
