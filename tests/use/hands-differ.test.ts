import { describe, expect, test } from 'vitest';
import { applyMend } from '../../src/forms/apply-mend.ts';
import { readDifferences } from '../../src/forms/differences.ts';
import { readJob } from '../../src/jobfile/read.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { apartLines } from '../../src/use/assembly/apart-lines.ts';
import { makeFiles } from '../../src/use/make/make-files.ts';
import { makeInStages } from '../../src/use/make/make-in-stages.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { partAsPanels } from '../../src/use/panels/as-panels.ts';
import { ALL_FAMILIES } from '../../templates/index.ts';
import { loadFamily, rulesOf } from '../helpers/check-template.ts';
import { inTurns, IS_FULL } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Both hands of one set of inputs, of which the right one differs in what is named. */

type Inputs = Readonly<Record<string, unknown>>;

const make = async (family: string, inputs: Inputs) => {
  const made = makeParts(await loadFamily(family), inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made;
};

/** What of a part does not depend on its name. */
const cutOf = ({ flat }: { readonly flat?: { readonly outline: Loop } | undefined }): Loop =>
  flat?.outline ?? [];

const ANGLE = { legA: 60, legB: 40, width: 80, thickness: 2, holesA: '20,20,M8' };
const CASES: readonly (readonly [family: string, inputs: Inputs, differs: Inputs])[] = [
  ['bracket-angle', ANGLE, { width: 77, holesA: '20,50,M8', cornerRadius: 4 }],
  [
    'tray',
    { length: 240, depth: 160, height: 40, thickness: 1.5 },
    { height: 55, material: 'dc01', thickness: 1 },
  ],
  [
    'tank-plan',
    {
      outline: '0,0; 400,0; 400,250 c60; 0,250',
      floor: '1: 0; 2: 9; 4: 12',
      top: 200,
      thickness: 2,
      lean: '2: 4',
      breather: '200,80,10',
    },
    { top: 185, lean: null },
  ],
];

describe.each(CASES)('%s', (family, inputs, rightDiffers) => {
  test('the left one is as it was, the right one the mirror image of what it differs to', async () => {
    const both = await make(family, { ...inputs, hand: 'both', rightDiffers });
    const left = await make(family, { ...inputs, hand: 'left' });
    const own = Object.fromEntries(
      Object.entries({ ...inputs, ...rightDiffers, hand: 'right' }).filter(
        ([, value]) => value !== null,
      ),
    );
    const right = await make(family, own);
    expect(both.parts.map(cutOf)).toEqual([...left.parts, ...right.parts].map(cutOf));
    expect(both.parts.map(({ result }) => result.hand)).toEqual([
      ...left.parts.map(() => 'left'),
      ...right.parts.map(() => 'right'),
    ]);
    for (const { result, base } of both.parts) {
      expect(result.name.endsWith(result.hand === 'left' ? '-L' : '-R')).toBe(true);
      expect(base.endsWith(result.hand === 'left' ? '-L' : '-R')).toBe(true);
    }
    expect(both.reports.map(({ figures }) => figures)).toEqual(
      [...left.reports, ...right.reports].map(({ figures }) => figures),
    );
  });
});

test.each(inTurns(CASES, 0, 3))(
  '%s: stage by stage it is the same',
  async (family, inputs, rightDiffers) => {
    const asked = { ...inputs, hand: 'both', rightDiffers };
    const stages = makeInStages(await loadFamily(family), asked, UNPLANNED);
    let step = stages.next();
    while (step.done !== true) step = stages.next();
    if (!step.value.ok) throw new Error('no parts');
    const whole = await make(family, asked);
    expect(step.value.parts.map(({ result }) => result)).toEqual(
      whole.parts.map(({ result }) => result),
    );
  },
);

test('of tubes too', async () => {
  const load = ALL_FAMILIES.get('tube-bent');
  if (load === undefined) throw new Error('no tubes');
  const template = (await load()).default;
  const inputs: Inputs = { ...template.examples[0]?.inputs, hand: 'both' };
  const made = makeParts(template, { ...inputs, rightDiffers: 'wall: 2' }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  expect(made.tubes.map(({ result }) => [result.hand, result.material.thicknessMm])).toEqual([
    ['left', Number(inputs.wall)],
    ['right', 2],
  ]);
});

test('which blanks are of one hand alone is told on each, and that the others are cut alike', async () => {
  const { parts } = await make('tank-plan', {
    ...CASES[2]?.[1],
    hand: 'both',
    rightDiffers: 'breather: 100,80,10',
  });
  for (const part of parts) {
    const note = part.result.findings.find(({ rule }) => rule === 'hands-differ');
    expect(note?.message).toContain('breather 100,80,10 (left 200,80,10)');
    const isTop = part.result.piece === 'top';
    expect(note?.message.includes('cut it from its own file')).toBe(isTop);
    expect(rulesOf(part, 'note').includes('other-hand')).toBe(!isTop);
  }
});

test('a blank that is its own mirror image is no blank for both where the hands differ', async () => {
  const asked = { ...ANGLE, holesA: '', hand: 'both' };
  const alike = await make('bracket-angle', asked);
  expect(alike.parts.every((part) => rulesOf(part, 'note').includes('hands-share-blank'))).toBe(
    true,
  );
  const unlike = await make('bracket-angle', { ...asked, rightDiffers: { legA: 62 } });
  for (const part of unlike.parts) {
    expect(rulesOf(part, 'note')).toContain('hands-differ');
    expect(rulesOf(part, 'note')).not.toContain('hands-share-blank');
  }
  // Another quantity changes no blank.
  const more = await make('bracket-angle', { ...asked, rightDiffers: { quantity: 3 } });
  expect(more.parts.map(({ result }) => result.quantity)).toEqual([1, 3]);
  expect(more.parts.every((part) => rulesOf(part, 'note').includes('hands-share-blank'))).toBe(
    true,
  );
});

test('what mends the right part alone is one more difference', async () => {
  const asked = { ...ANGLE, hand: 'both', rightDiffers: 'width: 77 | leg-b: 3' };
  const found = (await make('bracket-angle', asked)).parts.flatMap(({ result }) =>
    result.findings.flatMap(({ mends = [], severity }) =>
      severity === 'stop' ? mends.map((mend) => ({ mend, hand: result.hand })) : [],
    ),
  );
  expect(found.length).toBeGreaterThan(0);
  for (const { mend, hand } of found) {
    expect([hand, mend.input]).toEqual(['right', 'rightDiffers']);
    const mended = await make('bracket-angle', applyMend(asked, mend));
    expect(mended.parts[1]?.stopped).toBe(false);
    expect(cutOf(mended.parts[0] ?? {})).toEqual(
      cutOf((await make('bracket-angle', ANGLE)).parts[0] ?? {}),
    );
  }
});

test('the notation: names, colons and bars, or a map; wrong ones are told with their input', async () => {
  expect(readDifferences('top: 255 | floor: 1: 0; 2: 12')).toEqual(
    readDifferences({ top: '255', floor: '1: 0; 2: 12' }),
  );
  expect(readDifferences('lean:')).toEqual(readDifferences({ lean: null }));
  const problemsOf = async (rightDiffers: unknown) => {
    const made = makeParts(await loadFamily('bracket-angle'), {
      ...ANGLE,
      hand: 'both',
      rightDiffers,
    });
    return made.ok ? [] : made.problems.map(({ input }) => input);
  };
  expect(await problemsOf({ wid: 3 })).toEqual(['rightDiffers.wid']);
  expect(await problemsOf('width: -3')).toEqual(['rightDiffers.width']);
  for (const wrong of ['width 3', ': 3', 'hand: left', 'name: x', 'width: 3 | width: 4', 7])
    expect(await problemsOf(wrong)).toEqual(['rightDiffers']);
  // Beside one hand it has no meaning.
  const one = await make('bracket-angle', { ...ANGLE, rightDiffers: 'width: 77' });
  expect(one.parts).toHaveLength(1);
  expect(rulesOf(one.parts[0], 'note')).toContain('input-unused');
  expect(
    partAsPanels({
      template: await loadFamily('bracket-angle'),
      inputs: { ...ANGLE, hand: 'both', rightDiffers: 'width: 77' },
      file: 'p.yaml',
    }).ok,
  ).toBe(false);
});

test('in a job measurements stand in it by name, and a mistake is told with its line', async () => {
  const families = new Map([['bracket-angle', await loadFamily('bracket-angle')]]);
  const job = (differs: string): string =>
    `measurements: { seat: 80, less: 3 }\nparts:\n  - family: bracket-angle\n    hand: both\n    inputs:\n      legA: 60\n      legB: 40\n      width: seat\n      thickness: 2\n      rightDiffers: ${differs}\n`;
  for (const differs of ["'width: seat - less | legB: 44'", '{ width: seat - less, legB: 44 }']) {
    const read = readJob(job(differs), families);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const { parts } = await make('bracket-angle', read.job.parts[0]?.inputs ?? {});
    expect(parts.map(({ result }) => result.folded?.sizeMm[0])).toEqual([
      expect.closeTo(80, 6),
      expect.closeTo(77, 6),
    ]);
  }
  const wrong = readJob(job('\n        width: -1'), families);
  expect(wrong.ok || wrong.problems.map(({ given }) => given)).toEqual([
    expect.stringContaining('line 11'),
  ]);
});

test('a pair that is linked is reckoned with the tank of the other hand, and its papers tell', async () => {
  const template = await loadFamily('tank-plan');
  const inputs = {
    name: 'pair',
    outline: '0,0; 600,0; 600,400; 0,400',
    floor: 0,
    top: 300,
    measure: 'inside',
    thickness: 2,
    longestBay: 650,
    link: '120,50,20',
    pickup: '60,60,12',
    pair: true,
    hand: 'both',
    rightDiffers: { outline: '0,0; 500,0; 500,400; 0,400', link: '120,60,20' },
  };
  const made = makeParts(template, inputs, UNPLANNED);
  if (!made.ok) throw new Error('no parts');
  const [left, right] = made.reports.map(
    ({ figures }) => new Map(figures.map(({ name, value }) => [name, value])),
  );
  expect(made.reports.map(({ name }) => name)).toEqual(['pair-L', 'pair-R']);
  for (const side of [left, right])
    expect(side?.get('usable volume of the pair')).toBeCloseTo(0.95 * (72 + 60), 9);
  // The higher of the two holes begins at 50: the tank that is not drawn from keeps as much below it.
  expect(left?.get('left in the other tank')).toBeCloseTo(0.2 * 50, 9);
  expect(right?.get('left in the other tank')).toBeCloseTo(0.24 * 50, 9);
  const [line] = apartLines(made.parts.slice(0, 3).map(({ result }) => result));
  expect(line).toMatch(
    /^The right part differs from the left one: outline .*\. Of this hand alone: floor, wrap, top\.$/,
  );
  if (!IS_FULL) return;
  const done = await makeFiles({
    template,
    inputs,
    options: UNPLANNED,
    outputs: ['assembly', 'sheet'],
  });
  if (!done.ok) throw new Error('no files');
  const text = (name: string): string =>
    String(done.files.find((file) => file.name === name)?.contents ?? '');
  expect(text('pair-L-assembly.html')).toContain(
    'The right part differs from the left one: outline',
  );
  expect(text('pair-floor-R-sheet.html')).toContain('This blank is of the right hand alone');
  // Each hand's first sheet has its own report.
  expect(text('pair-floor-L-sheet.html')).toContain('gross volume</td><td class="big n">72<');
  expect(text('pair-floor-R-sheet.html')).toContain('gross volume</td><td class="big n">60<');
});
