import { describe, expect, test } from 'vitest';
import { coreAnswers } from '../../src/page/core/answers.ts';
import type { BlankAnswer } from '../../src/page/core/questions.ts';
import { TUBE_FAMILIES } from '../../templates/index.ts';

/** What the page is told of tubes, which have marks and patterns in the place of blanks. */

const core = coreAnswers();

const JOB = `title: cart
parts:
  - family: bracket-angle
    inputs: { legA: 60, legB: 40, width: 80, thickness: 3 }
  - family: tube-bent
    name: stay
    hand: both
    inputs: { points: '0,0,0; 0,0,320; 240,120,420; 460,120,420', diameter: 25, wall: 2.5, radius: 75 }
  - family: tube-cope
    name: cross
    inputs: { diameter: 30, wall: 2, header: 38, angle: 60 }
  - family: tube-mitre
    name: elbow
    inputs: { diameter: 76, wall: 2 }
  - family: tube-cope
    name: stopped
    inputs: { diameter: 40, wall: 2, header: 30 }
  - family: tube-bent
    name: open
    inputs: { diameter: 25 }
`;

const ask = (index: number, job = JOB) => ({ job, shop: null, index, isNarrow: false });

const blankOf = async (index: number, at = 0): Promise<BlankAnswer> => {
  const { blanks } = await core.part(ask(index));
  return blanks[at] as BlankAnswer;
};

const textsOf = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text = '']) => text);

test.each([...TUBE_FAMILIES.keys()])('%s has a picture where parts are added', async (family) => {
  expect(await core.familyPicture(family)).toMatch(/^<svg/);
  expect((await core.families(null)).map((one) => one.family)).toContain(family);
});

describe('a bent tube', () => {
  test('shows its marks, and says what its proof found', async () => {
    const { blanks, problems } = await core.part(ask(1));
    expect([problems, blanks.map(({ hand }) => hand)]).toEqual([[], ['left', 'right']]);
    const [blank] = blanks as [BlankAnswer];
    expect(blank.tube).toMatchObject({
      kind: 'bent',
      bends: 2,
      proof: 'walked back, the sheet meets every point asked',
    });
    const texts = textsOf(blank.flat?.svg ?? '');
    for (const begin of ['1: ', '2: ', 'cut: ', 'leading end'])
      expect(texts.some((text) => text.startsWith(begin))).toBe(true);
    expect(blank.sheet).toBe('E235+N, 25 x 2.5 mm');
  });

  test('has a step for each bend, with its mark and the tube as it is then', async () => {
    const { steps, machine } = await blankOf(1);
    expect(machine).toBeNull();
    expect(steps.map(({ title }) => title)).toEqual(['Bend 1', 'Bend 2']);
    const [first, second] = steps;
    expect(first?.lines.map(([word]) => word)).toEqual([
      'Mark',
      'Turn',
      'Pull to',
      'Let go',
      'Check',
    ]);
    // The mark of a step is the one of its picture, and the turn is told of the second.
    const mark = first?.lines[0]?.[1].split(' ')[0] ?? '';
    expect(textsOf(first?.pictures[0]?.picture ?? '')).toContain(`1: ${mark}`);
    expect(second?.lines[1]?.[1]).toMatch(/clockwise/);
    // Once the first bend is made, the second has no number yet.
    expect(textsOf(first?.pictures[1]?.picture ?? '')).toEqual(['1']);
    expect(textsOf(second?.pictures[1]?.picture ?? '').toSorted()).toEqual(['1', '2']);
  });

  test('in inches it has no length in mm', async () => {
    const { blanks } = await core.part({ ...ask(1), unit: 'inch' });
    const [blank] = blanks as [BlankAnswer];
    const told = [
      blank.sheet,
      blank.tube?.proof ?? '',
      ...textsOf(blank.flat?.svg ?? ''),
      ...blank.steps.flatMap(({ lines }) => lines.map(([, text]) => text)),
    ];
    expect(told.filter((text) => /\bmm\b/.test(text))).toEqual([]);
    expect(blank.steps[0]?.lines[0]?.[1]).toMatch(/ in from the leading end/);
  });
});

describe('a coped tube', () => {
  test('shows its pattern and has no steps', async () => {
    const blank = await blankOf(2);
    expect(blank.tube).toMatchObject({ kind: 'coped', bends: 0, proof: '' });
    expect(blank.steps).toEqual([]);
    expect(textsOf(blank.flat?.svg ?? '')).toContain('0 acute side');
  });

  test('of a mitred bend there is one of each piece, with its number', async () => {
    const { blanks, reports } = await core.part(ask(3));
    expect(blanks.map(({ piece, quantity }) => [piece, quantity])).toEqual([
      ['end', 2],
      ['middle', 2],
    ]);
    expect(reports[0]?.tables.map(({ title }) => title)).toContain('Joints to weld, all round');
  });
});

describe('the finished tube', () => {
  test.each([1, 2, 3])(
    'of part %i is a closed surface, and drawn where there are no solids',
    async (index) => {
      const model = await core.model({ ...ask(index), blank: 0, isSet: false, isPlanned: false });
      const skin = model?.pieces[0]?.panels[0]?.skin;
      if (skin === undefined) throw new Error('no skin');
      expect(skin.places.length).toBe(skin.ways.length);
      // Each edge from place to place is run along once each way.
      const key = (i: number): string => Array.from(skin.places.slice(i, i + 3)).join();
      const runs = new Map<string, number>();
      for (let i = 0; i < skin.places.length; i += 9)
        for (const [a, b] of [
          [0, 3],
          [3, 6],
          [6, 0],
        ] as const) {
          const [from, to] = [key(i + a), key(i + b)];
          const [name, way] = from < to ? [`${from} ${to}`, 1] : [`${to} ${from}`, -1];
          runs.set(name, (runs.get(name) ?? 0) + way);
        }
      expect([...runs.values()].filter((n) => n !== 0)).toEqual([]);
      const drawn = await core.folded({
        ...ask(index),
        blank: 0,
        from: [30, 20],
        strokes: null,
        isSet: false,
        isApart: false,
      });
      expect(drawn).toMatch(/^<svg/);
    },
  );

  test('of the other hand is another one', async () => {
    const of = async (blank: number) =>
      core.model({ ...ask(1), blank, isSet: false, isPlanned: false });
    expect(JSON.stringify(await of(0))).not.toBe(JSON.stringify(await of(1)));
  });
});

test('its measures have letters and its materials are grades of tube', async () => {
  const sketches = await core.sketch(ask(2));
  expect(sketches[0]?.letters).toMatchObject({ diameter: 'a', wall: 'b', header: 'c', angle: 'd' });
  const { fields } = await core.part(ask(2));
  expect(fields.find(({ name }) => name === 'material')?.choices).toContain('6060-t4');
  // Before there is a tube, those of the family's example.
  expect((await core.sketch(ask(5))).length).toBeGreaterThan(0);
});

test('what stops a tube is told, and nothing is shown of it', async () => {
  const blank = await blankOf(4);
  expect(blank).toMatchObject({ stopped: true, flat: null, tube: null });
  expect(blank.findings.map(({ rule }) => rule)).toContain('cope-overhangs');
});

test('its paper is found by its square code, and told to be of the same pattern or of another', async () => {
  const { files } = await core.files({ ...ask(2), outputs: ['sheet'] });
  const page = String(files.find(({ name }) => name === 'cross-sheet.html')?.contents);
  const [words = ''] = /cross, cross\.dxf, SHA-256 \w{12}/.exec(page) ?? [];
  const find = (text: string, job = JOB) => core.paper({ job, shop: null, text });
  expect(await find(words)).toMatchObject({ index: 2, blank: 0, state: 'same' });
  const other = JOB.replace('header: 38, angle: 60', 'header: 38, angle: 61');
  expect(await find(words, other)).toMatchObject({ index: 2, state: 'changed' });
  // A bent tube has no cut file; its other hand is the second of its part.
  expect(await find('blankwright:stay-R')).toMatchObject({ index: 1, blank: 1, state: 'not told' });
});

test('its papers are made beside those of sheet, and the job is laid out and packed', async () => {
  const names = async (index: number) =>
    (await core.files({ ...ask(index), outputs: ['card', 'sheet', 'model'] })).files.map(
      ({ name }) => name,
    );
  expect(await names(1)).toContain('stay-L-sheet.pdf');
  expect(await names(2)).toContain('cross-card.pdf');
  expect(await core.cutlist({ job: JOB, shop: null })).toBeDefined();
  expect(await core.pack({ job: JOB, shop: null })).toBeDefined();
});
