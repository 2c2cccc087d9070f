import { describe, expect, test } from 'vitest';
import { make, makeOne, rulesOf } from '../helpers/check-template.ts';

describe('what cannot be made is refused with the figure that can', () => {
  const FRUSTUM = {
    width: 200,
    height: 160,
    endWidth: 100,
    endHeight: 80,
    length: 150,
    material: 's235',
    thickness: 1.5,
  };

  test.each([
    ['wall-too-steep', { length: 20 }, /give ([\d.]+) or more/, 'length'],
    ['end-lips-meet', { end: 'lip-in', endLip: 45 }, /endLip ([\d.]+) or less/, 'endLip'],
    [
      'lip-too-short',
      { lip: 2 },
      /lip [\d.]+ is all taken by its bend: give ([\d.]+) or more, or lip 0/,
      'lip',
    ],
    [
      'lip-too-short',
      { end: 'lip-out', endLip: 3 },
      /endLip [\d.]+ is all taken by its bend: give ([\d.]+) or more/,
      'endLip',
    ],
    ['lip-hole-too-big', { lip: 20, lipHole: 16 }, /lip ([\d.]+) or more/, 'lip'],
    [
      'wall-too-small',
      { endWidth: 20, endHeight: 80, end: 'lip-out', leastSlot: 18 },
      /give ([\d.]+) or more/,
      'endWidth',
    ],
    [
      'duct-too-short',
      { length: 10, end: 'stub', thickness: 10 },
      /give ([\d.]+) or more/,
      undefined,
    ],
    [
      'stub-without-bore',
      { end: 'stub', stub: 20, stubWall: 10 },
      /give ([\d.]+) or less/,
      undefined,
    ],
  ])('%s', async (rule, inputs, figure, input) => {
    const [refused] = await make('duct-box', { ...FRUSTUM, ...inputs });
    expect(rulesOf(refused, 'stop')).toContain(rule);
    const said = figure.exec(
      refused?.result.findings.find((f) => f.rule === rule)?.message ?? '',
    )?.[1];
    expect(Number(said)).toBeGreaterThan(0);
    if (input === undefined) return;
    const [mended] = await make('duct-box', { ...FRUSTUM, ...inputs, [input]: Number(said) });
    expect(rulesOf(mended, 'stop')).not.toContain(rule);
  });

  test('a blank too large for the sheet is cut in halves, or warned about where it may not be', async () => {
    const sheet = { ...FRUSTUM, sheetLength: 450, sheetWidth: 400 };
    const halves = await make('duct-box', sheet);
    expect(halves).toHaveLength(2);
    expect(rulesOf(halves[0], 'note')).toContain('duct-in-halves');
    for (const { result } of halves) {
      expect(result.findings.filter((f) => f.severity !== 'note')).toEqual([]);
      const size = [result.blank?.widthMm ?? NaN, result.blank?.heightMm ?? NaN];
      expect(Math.max(...size)).toBeLessThan(450);
      expect(Math.min(...size)).toBeLessThan(400);
    }
    const [whole] = await make('duct-box', { ...sheet, blanks: 'whole' });
    expect(
      Math.max(whole?.result.blank?.widthMm ?? 0, whole?.result.blank?.heightMm ?? 0),
    ).toBeGreaterThan(450);
    expect(rulesOf(whole, 'warn')).toEqual(['blank-over-sheet']);
  });

  test('what is given and not used is said', async () => {
    const part = await makeOne('duct-box', { ...FRUSTUM, lip: 0, lipHole: 5, cornerRadius: 3 });
    expect(
      part.result.findings.flatMap(({ rule, message }) =>
        rule === 'input-unused' ? [message] : [],
      ),
    ).toEqual([
      'lipHole 5 has no meaning here, only where lip is more than 0: leave out lipHole.',
      'cornerRadius 3 has no meaning here, only where lip is more than 0, or end is lip-in or lip-out: leave out cornerRadius.',
    ]);
  });
});
