import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { JobFile } from '../../src/jobfile/job-file.ts';
import { measurementsOf, withMeasurements } from '../../src/jobfile/measurements.ts';
import { readJob } from '../../src/jobfile/read.ts';
import { ALL_FAMILIES } from '../../templates/index.ts';

const TEMPLATES = new Map(
  await Promise.all(
    [...ALL_FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
  ),
);

const jobIn = (text: string): JobFile => {
  const read = readJob(text, TEMPLATES);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
};

const problemsIn = (text: string) => {
  const read = readJob(text, TEMPLATES);
  if (read.ok) throw new Error('it was read');
  return read.problems;
};

const PART =
  'parts:\n  - family: bracket-angle\n    inputs: { legA: 60, legB: 40, width: 80, thickness: 3 }\n';

describe('a job file', () => {
  test('gives every part its inputs: its own, then the defaults of the job, measurements put in', () => {
    const { title, parts, papers, paper } = jobIn(`title: cart
defaults: { material: s275, thickness: 3, foldAt: service, kerf: shop, papers: [card], paper: roll 610 }
measurements:
  width: 80
  inner: width - 2*thick
  thick: 1/8in
parts:
  - family: bracket-angle
    name: seat post
    hand: both
    quantity: 2
    revision: B
    note: behind the seat
    inputs: { legA: 60, legB: inner/2, width: width, thickness: thick, holesA: '35,width/4,M8' }
  - { family: ring, inputs: { outer: 100, inner: 40, boltCircle: 70 }, foldAt: here, silence: [sharp-corners] }
`);
    expect([title, papers, paper]).toEqual(['cart', ['card'], { rollMm: 610 }]);
    expect(parts[0]).toMatchObject({
      name: 'seat post',
      folder: 'seat-post',
      note: 'behind the seat',
      revision: 'B',
      way: { foldAt: 'service', kerf: 'shop' },
      silence: [],
    });
    // An eighth of an inch is 3.175 mm: 80 - 6.35, halved.
    expect(parts[0]?.inputs).toEqual({
      name: 'seat post',
      hand: 'both',
      quantity: 2,
      material: 's275',
      legA: 60,
      legB: '73.65/2',
      width: '80',
      thickness: '3.175',
      holesA: '35,80/4,M8',
    });
    expect(parts[1]).toMatchObject({
      name: 'ring',
      way: { foldAt: 'here' },
      silence: ['sharp-corners'],
      inputs: { material: 's275', thickness: 3, outer: 100, inner: 40, boltCircle: 70 },
    });
  });

  test('may be JSON; that of the demo is in order', () => {
    expect(
      jobIn(
        '{"title":"x","parts":[{"family":"bracket-angle","inputs":{"legA":60,"legB":40,"width":80,"thickness":3}}]}',
      ).parts,
    ).toHaveLength(1);
    expect(
      jobIn(readFileSync('templates/demo/cart.job.yaml', 'utf8')).parts.length,
    ).toBeGreaterThanOrEqual(ALL_FAMILIES.size);
  });
});

/** One mistake each: what is named, where it stands, and what is said of it. */
describe('what is wrong is told with its line and column', () => {
  test.each([
    ['no list of parts', 'title: x\n', 'parts', 'nothing in what begins at line 1', 'add parts'],
    ['nothing at all', '', 'job', 'nothing', 'begin with a title'],
    ['no YAML', 'parts: [\n', 'job', 'line 2, column 1', ''],
    [
      'a name that is not known',
      `titel: x\n${PART}`,
      'titel',
      'line 1, column 1',
      'did you mean title?',
    ],
    [
      'a family that is not known',
      'parts:\n  - family: bracket-angel\n',
      'parts[0].family',
      'line 2, column 13',
      'did you mean bracket-angle?',
    ],
    [
      'an input that is not known',
      PART.replace('width', 'widht'),
      'parts[0].inputs.widht',
      'line 3, column 35',
      'did you mean width?',
    ],
    [
      'a word on the part among its inputs',
      PART.replace('width: 80', 'width: 80, foldAt: service'),
      'parts[0].inputs.foldAt',
      'line 3, column 46',
      'write foldAt beside inputs, not in it',
    ],
    [
      'an input beside the others',
      PART.replace('    inputs', '    radius: 4\n    inputs'),
      'parts[0].radius',
      'line 3, column 5',
      'write radius under inputs',
    ],
    [
      'an input that is missing',
      PART.replace(', width: 80', ''),
      'parts[0].inputs.width',
      'line 2, column 5',
      'give it',
    ],
    [
      'an input out of its limits',
      PART.replace('60', '-60'),
      'parts[0].inputs.legA',
      'line 3, column 21',
      '',
    ],
    [
      'an input in kebab-case',
      PART.replace('legA: 60', 'leg-a: ten'),
      'parts[0].inputs.legA',
      'line 3, column 22',
      '',
    ],
    [
      'a hand that there is not',
      `${PART}    hand: middle\n`,
      'parts[0].hand',
      'line 4, column 11',
      '',
    ],
    [
      'a quantity of none',
      `${PART}    quantity: 0\n`,
      'parts[0].quantity',
      'line 4, column 15',
      '',
    ],
    [
      'a default that is no material',
      `defaults: { material: cheese }\n${PART}`,
      'defaults.material',
      'line 1, column 23',
      '',
    ],
    [
      'a default beyond its limits',
      `defaults: { thickness: 90 }\n${PART.replace(', thickness: 3', '')}`,
      'defaults.thickness',
      'line 1, column 24',
      '',
    ],
    [
      'a folder outside',
      `defaults: { out: ../elsewhere }\n${PART}`,
      'defaults.out',
      'line 1, column 18',
      '',
    ],
    [
      'a folder from the root',
      `defaults: { out: /elsewhere/x }\n${PART}`,
      'defaults.out',
      'line 1, column 18',
      '',
    ],
    [
      'a paper that there is not',
      `defaults: { paper: a9 }\n${PART}`,
      'defaults.paper',
      'line 1, column 20',
      '',
    ],
    [
      'papers that there are not',
      `defaults: { papers: [poster] }\n${PART}`,
      'defaults.papers[0]',
      'line 1, column 22',
      '',
    ],
    [
      'a kerf wider than any',
      `defaults: { kerf: 40 }\n${PART}`,
      'defaults.kerf',
      'line 1, column 19',
      '',
    ],
    [
      'two parts of one folder',
      `${PART}  - family: ring\n    name: Bracket angle\n    inputs: { outer: 100, inner: 40, boltCircle: 70, thickness: 2 }\n`,
      'parts[1].name',
      'line 5, column 11',
      'another name',
    ],
    [
      'inputs that are a list',
      'parts:\n  - family: ring\n    inputs: [1]\n',
      'parts[0].inputs',
      'line 3, column 13',
      '',
    ],
    [
      'a rule to silence that is no name',
      `silence: [Sharp Corners]\n${PART}`,
      'silence[0]',
      'line 1, column 11',
      'did you mean sharp-corners?',
    ],
    [
      'a rule to silence that is misspelt',
      `${PART}    silence: [other-hand, sharp-corner]\n`,
      'parts[0].silence[1]',
      'line 4',
      'did you mean sharp-corners?',
    ],
    [
      'a rule to silence that there is not',
      `silence: [all]\n${PART}`,
      'silence[0]',
      'line 1, column 11',
      'a stop cannot be silenced',
    ],
    [
      'a measurement that is no sum',
      `measurements: { width: 8 apples }\n${PART}`,
      'measurements.width',
      'line 1, column 24',
      'apples',
    ],
    [
      'a measurement with a short name',
      `measurements: { w: 8 }\n${PART}`,
      'measurements.w',
      'line 1, column 20',
      'wSize',
    ],
    [
      'a measurement called like a thread',
      `measurements: { M10: 8 }\n${PART}`,
      'measurements.M10',
      'line 1, column 22',
      '',
    ],
    [
      'a measurement called like a word',
      `measurements: { down: 8 }\n${PART}`,
      'measurements.down',
      'line 1, column 23',
      'downSize',
    ],
    [
      'a measurement of itself',
      `measurements: { one: two, two: three + 1, three: one }\n${PART}`,
      'measurements.one',
      'line 1, column 22',
      'one -> two -> three -> one',
    ],
    [
      'a measurement of another that there is not',
      `measurements: { width: 8, inner: widht - 2 }\n${PART}`,
      'measurements.inner',
      'line 1, column 34',
      'did you mean width?',
    ],
    [
      'a measurement that there is not, in an input',
      `measurements: { postWidth: 8 }\n${PART.replace('80', 'postWidht')}`,
      'parts[0].inputs.width',
      'line 4, column 42',
      'did you mean postWidth?',
    ],
    ['a name twice', `title: x\ntitle: y\n${PART}`, 'job', 'line 2, column 1', 'second time'],
  ])('%s', (_, text, input, given, mend) => {
    const problems = problemsIn(text);
    expect(problems.map((p) => p.input)).toEqual([input]);
    expect(problems[0]?.given).toContain(given);
    expect(problems[0]?.mend ?? '').toContain(mend);
  });

  test('one default that is wrong is told by itself: what stands beside it is not missing', () => {
    const problems = problemsIn(
      `defaults: { thickness: 3, out: ../elsewhere, papers: [poster] }\n${PART.replace(', thickness: 3', '')}`,
    );
    expect(problems.map((p) => p.input)).toEqual(['defaults.out', 'defaults.papers[0]']);
  });

  test('all of it at once', () => {
    expect(
      problemsIn(
        `titel: x\nparts:\n  - { family: ring, inputs: { outer: 0 } }\n  - { family: rnig }\n`,
      ).map((p) => p.input),
    ).toEqual(expect.arrayContaining(['titel', 'parts[0].inputs.outer', 'parts[1].family']));
    expect(
      problemsIn(
        `parts:\n  - { family: ring, inputs: { outer: 0 } }\n  - { family: rnig }\n  - { family: strap, inputs: { over: tree } }\n`,
      ).map((p) => p.input),
    ).toEqual(
      expect.arrayContaining([
        'parts[0].inputs.outer',
        'parts[0].inputs.boltCircle',
        'parts[1].family',
        'parts[2].inputs.over',
      ]),
    );
  });
});

describe('measurements', () => {
  // What a sum comes to is written into the input that names it, wherever in its notation it
  // stands.
  test.each([
    [
      'outline',
      "'0,0; wide,0; wide,high r (wide/20); 0,high'",
      '0,0; 120,0; 120,80 r (120/20); 0,80',
    ],
    [
      'outline',
      "[ '0,0', { x: wide, y: 0 }, { x: wide, y: high, r: 6 } ]",
      ['0,0', { x: '120', y: 0 }, { x: '120', y: '80', r: 6 }],
    ],
    ['folds', "'0,high/2 wide,high/2 90 up'", '0,80/2 120,80/2 90 up'],
    ['cutouts', "'10,10; wide-10,10; 30,30'", '10,10; 120-10,10; 30,30'],
    [
      'points',
      "'post-wall: wide, post-rail: high, wall-rail: 100'",
      'post-wall: 120, post-rail: 80, wall-rail: 100',
    ],
    ['points', "'post: wide,high; wall: 0,0'", 'post: 120,80; wall: 0,0'],
    ['pointHoles', "'post: 6 x high'", 'post: 6 x 80'],
    [
      'holes',
      "'x wide/2, y high-20, M8 to wide rail; 20,high-20,5'",
      'x 120/2, y 80-20, M8 to wide rail; 20,80-20,5',
    ],
  ])('in %s: %s', async (input, written, became) => {
    const text = `measurements: { wide: 120, high: 80, post: 7, wall: 8 }\nparts:\n  - family: plate\n    inputs: { thickness: 2, ${input === 'outline' ? '' : "outline: '0,0; 200,0; 200,200; 0,200', "}${input}: ${written} }\n`;
    const read = readJob(text, TEMPLATES);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.job.parts[0]?.inputs[input]).toEqual(became);
  });

  test('what a hole is measured from stays what it is, though a measurement has its name', () => {
    expect(
      withMeasurements(
        'from base base, from the front 20, M8 to base',
        new Map([
          ['base', 35],
          ['front', 8],
        ]),
      ),
    ).toBe('from base 35, from the front 20, M8 to base');
  });

  test('a name, a note and words of a choice stay as they are', () => {
    const read = readJob(
      'measurements: { wide: 120 }\nparts:\n  - { family: plate, name: wide plate, note: wide, inputs: { thickness: 2, outline: "0,0; 9,0; 9,9" } }\n',
      TEMPLATES,
    );
    expect(read.ok && [read.job.parts[0]?.name, read.job.parts[0]?.note]).toEqual([
      'wide plate',
      'wide',
    ]);
  });

  test('follow from each other in any order', () => {
    const { values, problems } = measurementsOf({
      sum: 'one + two*2',
      two: 'one/4',
      one: '10 cm',
      slope: '14deg',
    });
    expect(problems).toEqual([]);
    expect(Object.fromEntries(values)).toEqual({ one: 100, two: 25, sum: 150, slope: 14 });
  });

  test('go into a text as numbers, whole names only', () => {
    const values = new Map([
      ['width', 80],
      ['drop', -12.5],
      ['fine', 0.1 + 0.2],
    ]);
    expect(withMeasurements('width/2, widths, drop; fine', values)).toBe(
      '80/2, widths, (-12.5); 0.3',
    );
  });

  test('of many, each of the one before it, are no matter', () => {
    const names = Array.from({ length: 500 }, (_, i) => [
      `step_${i}_`,
      i === 499 ? '1' : `step_${i + 1}_ + 1`,
    ]);
    const { values, problems } = measurementsOf(
      Object.fromEntries(names) as Record<string, string>,
    );
    expect(problems).toEqual([]);
    expect(values.get('step_0_')).toBe(500);
  });
});
