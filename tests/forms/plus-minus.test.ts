import { describe, expect, test } from 'vitest';
import { inputsJsonSchema, readInputs } from '../../src/forms/read.ts';
import angle from '../../templates/bracket-angle/index.ts';

const GIVEN = { legA: 60, legB: 40, width: 80, thickness: 3 };

const read = (inputs: Record<string, unknown>) => {
  const result = readInputs(angle, { ...GIVEN, ...inputs });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result;
};

describe('a length or an angle with how far it may be off', () => {
  // An inch is 25.4 mm: a sixteenth is 1.5875 mm.
  test.each([
    ['240+-1', 240, 1],
    ['240 +- 1', 240, 1],
    ['240 +/- 1', 240, 1],
    ['240±1', 240, 1],
    ['240 ± 0.5mm', 240, 0.5],
    ['24 cm+-1mm', 240, 1],
    ['(300-60)+-2/4', 240, 0.5],
    ['4in+-1/16in', 101.6, 1.5875],
    ['4in+-0.1', 101.6, 0.1],
    ['240+-0', 240, 0],
  ])('%s', (legA, value, plusMinus) => {
    const { values, plusMinus: told } = read({ legA });
    expect((values as unknown as { legA: number }).legA).toBeCloseTo(value, 9);
    expect(told).toEqual({ legA: expect.closeTo(plusMinus, 9) });
  });

  test('an angle, the thickness, the radius and K each in their unit', () => {
    const { values, plusMinus } = read({
      bendAngle: '72deg+-0.5',
      thickness: '16ga ± 0.05',
      radius: '3+-0.2',
      rule: 'k:0.42 +/- 0.02',
      width: '80',
    });
    expect(plusMinus).toEqual({ bendAngle: 0.5, thickness: 0.05, radius: 0.2, rule: 0.02 });
    expect(values).toMatchObject({ bendAngle: 72, insideRadiusMm: 3, rule: { id: 'k', k: 0.42 } });
    // Manufacturers' Standard Gauge 16: 0.0598 in.
    expect(values.thicknessMm).toBeCloseTo(1.519, 3);
  });

  test('changes nothing of what a template gets, and nothing of the schema', () => {
    expect(read({ legA: '60+-1', bendAngle: '90+-2' }).values).toEqual(read({}).values);
    expect(read({}).plusMinus).toEqual({});
    expect(JSON.stringify(inputsJsonSchema(angle))).not.toContain('+-');
  });

  test('a text keeps its signs', () => {
    expect(read({ name: 'gap 2+-1' }).values.name).toBe('gap 2+-1');
  });
});

describe('what is wrong with it is told', () => {
  test.each([
    ['legA', '240+-', 'write how far it may be off behind the sign, such as 240+-1'],
    ['legA', '240 ±  ', 'write how far it may be off behind the sign, such as 240+-1'],
    ['legA', '240+-x', /^behind the \+-: .*no number/],
    ['legA', '240+-1,5', /^behind the \+-: .*1\.5/],
    ['legA', '240+--1', 'write how far it may be off without a sign of its own, such as 240+-1'],
    ['legA', '240+-(-1)', 'write how far it may be off without a sign of its own, such as 240+-1'],
    ['legA', '240+-1+-2', /^behind the \+-: /],
    ['legA', '240+-101', 'write 100 or less behind the +-'],
    ['legA', '240+-1deg', /^behind the \+-: .*no unit/],
    ['bendAngle', '90+-50', 'write 45 or less behind the +-'],
    ['bendAngle', '90+-', 'write how far it may be off behind the sign, such as 90+-0.5'],
    ['thickness', '3+-x', /^behind the \+-: /],
    ['rule', 'k:0.42+-0.9', 'write 0.5 or less behind the +-'],
  ])('%s %s', (input, given, mend) => {
    const result = readInputs(angle, { ...GIVEN, [input]: given });
    if (result.ok) throw new Error('it was read');
    expect(result.problems).toHaveLength(1);
    expect(result.problems[0]).toMatchObject({
      input,
      given: `'${given}'`,
      mend: typeof mend === 'string' ? mend : expect.stringMatching(mend),
    });
    expect(result.problems[0]?.allowed).toContain('and behind +- how far it may be off');
  });

  test('what stands before the sign as ever, with all that was given', () => {
    const result = readInputs(angle, { ...GIVEN, legA: '0.5+-1', holesA: '20+-1,15,6.6' });
    expect(!result.ok && result.problems.map((p) => [p.input, p.given, p.mend])).toEqual([
      ['legA', "'0.5+-1'", 'write 1 or more'],
      // Lists of holes have no such sign.
      ['holesA', expect.any(String), expect.stringContaining('second sign')],
    ]);
  });

  test('a sign with nothing before it', () => {
    const result = readInputs(angle, { ...GIVEN, legA: '+-1' });
    expect(!result.ok && result.problems.map((p) => p.input)).toEqual(['legA']);
  });
});
