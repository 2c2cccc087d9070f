import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { flatten } from '../../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../../src/fold/size.ts';
import { rectangle } from '../../../src/geometry/loop.ts';
import type { FlatPattern } from '../../../src/model/flat.ts';
import type { Part } from '../../../src/model/part.ts';
import { loadKernel, STEP_PACKAGE, writeStep } from '../../../src/solid/step.ts';
import { make } from '../../helpers/check-template.ts';
import { oneOfEach } from '../../helpers/extent.ts';
import { angle, fold, panel, part as partOf } from '../../helpers/parts.ts';
import { type ReadBody, readStep } from '../../helpers/step.ts';
import { TREES } from '../../helpers/trees.ts';

const MARK = 'blankwright plate cart-shelf left';

/** With the neutral line in mid-sheet folding keeps the volume, whatever is cut out of a bend. */
const HALF = { id: 'k', k: 0.5 } as const;

const written = async (
  part: Part,
  flat: FlatPattern,
): Promise<{ readonly body: ReadBody; readonly text: string; readonly inChords: boolean }> => {
  const made = await writeStep(part, flat, MARK);
  if (!made.ok) throw new Error(made.finding.message);
  return { body: await readStep(made.text), text: made.text, inChords: made.remarks.length > 0 };
};

/** The kernel's own checker, one solid, the metal of the blank and the size it is said to have. */
const expectWhole = async (part: Part, flat: FlatPattern, isExact: boolean): Promise<void> => {
  const { body, inChords } = await written(part, flat);
  expect(inChords).toBe(!isExact);
  expect(body).toMatchObject({ solids: 1, isValid: true });
  expect(Math.abs(body.volume / (flat.areaMm2 * part.thicknessMm) - 1)).toBeLessThan(
    isExact ? 1e-9 : 5e-4,
  );
  expect(body.size).toEqual(
    foldedSizeMm(part, flat).map((v) => expect.closeTo(v, isExact ? 6 : 1)),
  );
};

/** Trees with bends that end square to themselves, and some with reliefs and slanted ends. */
const EXACT = [
  'fold lines that are not parallel',
  'flange narrower than its edge, in the middle',
  'flange on a flange on a flange, changing direction',
  'bend of 1 degree',
  'bend of 179 degrees down',
  'two folds on one line with a gap',
  'inside radius 0',
];
const CUT = [
  'hem of no radius',
  'box',
  'chamfer swallowed by two bends',
  'flanges on both sides of an inner corner',
  'arc next to a fold',
];
const NAMED = [...EXACT, ...CUT].flatMap((name) => TREES.filter((tree) => tree.name === name));

describe.each(oneOfEach(NAMED, ({ name }) => EXACT.includes(name)))('$name', ({ name, part }) => {
  it('is read back by the kernel', async () =>
    expectWhole(part, flatten(part, HALF), EXACT.includes(name)));
});

it('all of those are there', () => {
  expect(NAMED.map(({ name }) => name)).toEqual([...EXACT, ...CUT]);
});

describe('families', () => {
  const families = [
    ['bracket-hat', true],
    ['ring', true],
    ['tray', false],
  ] as const;
  it.each(oneOfEach(families, ([, isExact]) => isExact))('%s', async (family, isExact) => {
    const { FAMILIES } = await import('../../../templates/index.ts');
    const [example] = (await FAMILIES.get(family)?.())?.default.examples ?? [];
    for (const { part, flat } of await make(family, { ...example?.inputs, rule: 'k:0.5' })) {
      if (part === undefined || flat === undefined) throw new Error('no part');
      await expectWhole(part, flat, isExact);
    }
  });

  it('a transition, whose panels meet in mid-sheet', async () => {
    const { FAMILIES } = await import('../../../templates/index.ts');
    const [example] = (await FAMILIES.get('duct-transition')?.())?.default.examples ?? [];
    for (const { part, flat } of await make('duct-transition', { ...example?.inputs })) {
      if (part === undefined || flat === undefined) throw new Error('no part');
      const { body } = await written(part, flat);
      expect(body).toMatchObject({ solids: 1, isValid: true });
      expect(body.volume / (flat.areaMm2 * part.thicknessMm)).toBeCloseTo(1, 3);
    }
  });
});

it('has the volume of two legs and the sector of a ring, by the formula', async () => {
  const [t, r, deg] = [3, 5, 90];
  const part = angle(60, 40, 80, deg, r, t);
  const flat = flatten(part, { id: 'din6935' });
  const { body } = await written(part, flat);
  const legs = (60 + 40 - 2 * (r + t)) * 80 * t;
  expect(body.volume / (legs + (deg / 360) * Math.PI * ((r + t) ** 2 - r ** 2) * 80)).toBeCloseTo(
    1,
    9,
  );
  expect(body.size).toEqual([80, 60, 40].map((v) => expect.closeTo(v, 9)));
  expect(body.faces).toBe(10);
});

it('a hole through a bend is cut out of its cylinders', async () => {
  const hole = { kind: 'round', from: 'hole', centre: [40, 57], diameterMm: 16 } as const;
  const part = partOf(
    [panel('leg A', rectangle(0, 0, 80, 60), [hole]), panel('leg B', rectangle(0, 0, 80, 60))],
    [fold('A', { panel: 'leg A', edge: 2 }, { panel: 'leg B', edge: 0 }, 90, 'up', 3)],
  );
  await expectWhole(part, flatten(part, HALF), false);
});

describe('the text', () => {
  const part = { ...angle(60, 40, 80, 90, 3, 2), name: "cart's shelf 'Süd'" };
  const flat = flatten(part, HALF);

  it('is the same each time, knows no date, and carries name and mark near its start', async () => {
    const [one, other] = [await written(part, flat), await written(part, flat)];
    expect(one.text).toBe(other.text);
    expect(one.text.slice(0, 2000)).toContain(MARK);
    expect(one.text).toContain(
      "FILE_NAME('cart''s shelf ''S\\X2\\00FC\\X0\\d''','1970-01-01T00:00:00'",
    );
    expect(one.text).toContain('AUTOMOTIVE_DESIGN');
    expect(one.text).not.toMatch(/20\d\d-\d\d-\d\dT/);
    expect(one.text).toMatch(/^[\x20-\x7e\n]*$/);
  });

  it('without the package there is a finding that names it', async () => {
    const missing = async () => {
      await Promise.resolve();
      return createRequire(import.meta.url)('a-package-nobody-has') as Awaited<
        ReturnType<typeof loadKernel>
      >;
    };
    const made = await writeStep(part, flat, MARK, missing);
    expect(made).toMatchObject({
      ok: false,
      finding: { rule: 'step-needs-package', severity: 'stop' },
    });
    expect(made.ok ? '' : made.finding.message).toContain(`npm install ${STEP_PACKAGE}`);
  });

  it('any other failure of the kernel is thrown on', async () => {
    await expect(
      writeStep(part, flat, MARK, () => Promise.reject(new Error('out of memory'))),
    ).rejects.toThrow('out of memory');
  });

  it('of a part that is stopped there is a finding', async () => {
    expect(
      await writeStep(part, { ...flat, outline: [], panels: [], bends: [] }, MARK),
    ).toMatchObject({ ok: false, finding: { rule: 'step-without-blank' } });
  });
});
