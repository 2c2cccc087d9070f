import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';

checkTemplate('bracket-angle');

/**
 * Worked by hand with K = 0.42: s = (r + t) tan(A/2), or r + t over 90; BA = A pi/180 (r + K t); BD
 * = 2 s - BA.
 */
const BY_HAND = {
  legA: 60,
  legB: 40,
  width: 80,
  material: 's275',
  thickness: 3,
  radius: 3,
  rule: 'k:0.42',
};

describe('an angle 60 x 40, 3 mm, inside radius 3', () => {
  test.each([
    { bendAngle: 90, s: 6, ba: 6.6916, bd: 5.3084, blank: 94.6916, size: [80, 60, 40] },
    // Legs from the mould corner: over all 60 + 40 cos 45 by 40 sin 45 + 3 cos 45.
    {
      bendAngle: 45,
      s: 2.4853,
      ba: 3.3458,
      bd: 1.6248,
      blank: 98.3752,
      size: [80, 88.2843, 30.4056],
    },
    // The far end of leg B lies 34 beyond the bend: 9 + 34 sin 120 up.
    { bendAngle: 120, s: 6, ba: 8.9221, bd: 3.0779, blank: 96.9221, size: [80, 60, 38.4449] },
  ])('folded by $bendAngle degrees', async ({ bendAngle, s, ba, bd, blank, size }) => {
    const {
      result,
      blank: sheet,
      folded,
    } = await makeOne('bracket-angle', { ...BY_HAND, bendAngle });
    expect(sheet.widthMm).toBeCloseTo(80, 6);
    expect(sheet.heightMm).toBeCloseTo(blank, 4);
    const [bend] = result.bends;
    expect(bend?.setbackMm).toBeCloseTo(s, 4);
    expect(bend?.allowanceMm).toBeCloseTo(ba, 4);
    expect(bend?.deductionMm).toBeCloseTo(bd, 4);
    expect(bend?.centreLine[0][1]).toBeCloseTo(60 - s + ba / 2, 4);
    expect(bend?.centreLine[1][1]).toBeCloseTo(60 - s + ba / 2, 4);
    expect(bend?.direction).toBe('up');
    for (const [i, length] of size.entries()) expect(folded.sizeMm[i]).toBeCloseTo(length, 4);
  });

  test('holes lie as far from the outside corner and the left end as asked', async () => {
    const { flat } = await makeOne('bracket-angle', {
      ...BY_HAND,
      holesA: '20,15,6.6',
      holesB: [{ across: 22, along: '70mm', size: 'M8' }],
    });
    const [a, b] = flat.cutouts;
    // Leg A: 60 - 20. Leg B: tangent line at 54, bend 6.6916, then 22 less the setback of 6. M8
    // medium by ISO 273: 9.
    expect(a).toMatchObject({ kind: 'round', diameterMm: 6.6 });
    expect(b).toMatchObject({ kind: 'round', diameterMm: 9 });
    expect(a?.kind === 'round' && a.centre[0]).toBeCloseTo(15, 6);
    expect(a?.kind === 'round' && a.centre[1]).toBeCloseTo(40, 6);
    expect(b?.kind === 'round' && b.centre[0]).toBeCloseTo(70, 6);
    expect(b?.kind === 'round' && b.centre[1]).toBeCloseTo(76.6916, 4);
  });

  test('mass, cut length and pierces are those of the metal', async () => {
    const { blank } = await makeOne('bracket-angle', { ...BY_HAND, holesA: '30,15,10' });
    const area = 80 * 94.6916 - (Math.PI / 4) * 100;
    expect(blank.areaMm2).toBeCloseTo(area, 2);
    expect(blank.massKg).toBeCloseTo(area * 3 * 7850e-9, 5);
    expect(blank.cutLengthMm).toBeCloseTo(2 * (80 + 94.6916) + Math.PI * 10, 3);
    expect(blank.pierces).toBe(2);
  });

  test('inside dimensions are outside ones less the thickness', async () => {
    const outside = await makeOne('bracket-angle', BY_HAND);
    const inside = await makeOne('bracket-angle', {
      ...BY_HAND,
      legA: 57,
      legB: 37,
      measure: 'inside',
    });
    expect(inside.blank.heightMm).toBeCloseTo(outside.blank.heightMm, 6);
    expect(inside.folded.sizeMm[1]).toBeCloseTo(60, 6);
  });

  test('all four free corners are rounded, and only they', async () => {
    const { flat } = await makeOne('bracket-angle', { ...BY_HAND, cornerRadius: 5 });
    expect(flat.outline.filter((v) => v.bulge !== 0).map((v) => v.bulge)).toEqual(
      Array(4).fill(expect.closeTo(Math.tan(Math.PI / 8), 9)),
    );
  });

  test('or cut off: 5 off both edges', async () => {
    const [sharp, cut] = [
      await makeOne('bracket-angle', BY_HAND),
      await makeOne('bracket-angle', { ...BY_HAND, cornerChamfer: 5 }),
    ];
    expect(cut.flat.outline.filter((v) => v.bulge !== 0)).toEqual([]);
    expect(cut.flat.outline).toHaveLength(sharp.flat.outline.length + 4);
    expect(cut.blank.areaMm2).toBeCloseTo(sharp.blank.areaMm2 - 4 * 12.5, 6);
  });

  test('not both', async () => {
    const made = makeParts(
      await loadFamily('bracket-angle'),
      { ...BY_HAND, cornerChamfer: 5, cornerRadius: 5 },
      { cutOnly: false, dxfVersion: 'r2000' },
    );
    expect(made.ok ? [] : made.problems.map((p) => p.input)).toEqual(['cornerChamfer']);
  });

  test('a corner radius that does not fit is told with the one that does', async () => {
    // Leg B has 40 - 6 = 34 of flat metal beside its free corners.
    const [part] = await make('bracket-angle', { ...BY_HAND, cornerRadius: 35 });
    expect(rulesOf(part, 'stop')).toEqual(['corner-radius-too-big']);
    expect(part?.result.findings.find((f) => f.severity === 'stop')?.message).toContain(
      'give 34 or less',
    );
    expect(part?.files()).toEqual([]);
  });
});
