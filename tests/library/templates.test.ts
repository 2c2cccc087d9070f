import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkTemplate, FAMILIES, makeParts, type Template } from '../../src/index.ts';
import {
  angleWish,
  assemble,
  defineTemplate,
  diameterWish,
  edge,
  faceOf,
  fields,
  polygon,
  rectangle,
  stop,
  wish,
} from '../../src/template.ts';
import { FAMILIES as MODULES } from '../../templates/index.ts';
import { box, angle } from '../helpers/parts.ts';
import { fuzzRuns } from '../helpers/fuzz-runs.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** As it is written in JavaScript, where anything may stand anywhere. */
type Loose = Record<string, unknown>;

const DRAFT = {
  family: 'crate-stop',
  summary: 'A stop for the grape crates: a floor and a lip.',
  inputs: {
    floor: fields.length({ about: 'The floor.', min: 10, max: 500, example: 50 }),
    width: fields.length({ about: 'Along the fold.', min: 10, max: 500, default: 80 }),
  },
};

const panels = (floor: number, width: number) => [
  { id: 'floor', outline: rectangle(0, 0, width, floor) },
  { id: 'lip', outline: rectangle(0, 0, width, 20) },
];
const FOLD = {
  id: 'A',
  parent: { panel: 'floor', edge: 2 },
  child: { panel: 'lip', edge: 0 },
  angleDeg: 90,
  direction: 'up',
} as const;

/** Nothing but what must be given. */
const SHORT = defineTemplate({
  ...DRAFT,
  build: (v) => ({ part: { panels: panels(v.floor, v.width), folds: [FOLD] } }),
});

/** All that may be left out said as the common inputs say it. */
const LONG = defineTemplate({
  ...DRAFT,
  build: (v) => ({
    part: {
      name: v.name,
      thicknessMm: v.thicknessMm,
      measure: v.measure,
      root: 'floor',
      panels: panels(v.floor, v.width).map((p) => ({ ...p, cutouts: [] })),
      folds: [{ ...FOLD, insideRadiusMm: v.insideRadiusMm }],
      relief: {
        shape: v.reliefShape,
        widthMm: Math.max(v.thicknessMm, v.leastSlotMm),
        leastSlotMm: v.leastSlotMm,
      },
      cornerGapMm: v.cornerGapMm,
    },
  }),
});

const INPUTS = { floor: 50, thickness: 2 };
const filesOf = (
  template: Template,
  inputs: Loose = INPUTS,
  options?: Parameters<typeof makeParts>[2],
): Record<string, string> => {
  const made = makeParts(template, inputs, options);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return Object.fromEntries(made.parts.flatMap((p) => p.files().map((f) => [f.name, f.contents])));
};

describe('makeParts', () => {
  test('needs no options, and with none makes what the usual ones make', () => {
    const usual = filesOf(SHORT, INPUTS, { cutOnly: false, dxfVersion: 'r2000' });
    expect(Object.keys(usual)).toEqual(['crate-stop.dxf', 'crate-stop.svg']);
    expect(filesOf(SHORT)).toEqual(usual);
    expect(filesOf(SHORT, INPUTS, {})).toEqual(usual);
    expect(
      filesOf(SHORT, INPUTS, {
        cutOnly: undefined,
        dxfVersion: undefined,
        shop: undefined,
        foldAt: undefined,
        kerf: undefined,
        marks: undefined,
        fit: undefined,
      }),
    ).toEqual(usual);
  });

  test.each([null, undefined, 'legA: 60', 60, [60, 40]])(
    'inputs that are %j are a problem',
    (inputs) => {
      const made = makeParts(SHORT, inputs as never);
      expect(made).toEqual({
        ok: false,
        problems: [
          {
            input: 'inputs',
            given: expect.any(String) as string,
            allowed: 'an object of inputs by name, such as { floor: 50 }',
          },
        ],
      });
    },
  );

  test('an input of nothing is one too', () => {
    const made = makeParts(SHORT, { ...INPUTS, floor: null });
    expect(made.ok ? [] : made.problems).toMatchObject([
      { input: 'floor', given: 'nothing', allowed: 'a length from 10 to 500 mm' },
    ]);
  });

  test('what a template leaves out is what the common inputs say', () => {
    for (const inputs of [
      INPUTS,
      {
        ...INPUTS,
        radius: 5,
        measure: 'inside',
        relief: 'slit',
        leastSlot: 3,
        name: 'rear stop',
        hand: 'both',
      },
    ])
      expect(filesOf(SHORT, inputs)).toEqual(filesOf(LONG, inputs));
    const plain: Loose = {
      ...DRAFT,
      build: (v: Loose) => ({
        part: { panels: panels(Number(v['floor']), Number(v['width'])), folds: [FOLD] },
      }),
    };
    expect(filesOf(plain as unknown as Template)).toEqual(filesOf(SHORT));
  });

  test('straight lines need no bulge, and holes no name', () => {
    const bare = defineTemplate({
      ...DRAFT,
      build: (v) => ({
        part: {
          panels: [
            {
              id: 'floor',
              outline: [
                { x: 0, y: 0 },
                { x: v.width, y: 0 },
                { x: v.width, y: v.floor },
                { x: 0, y: v.floor },
              ],
              cutouts: [
                { kind: 'round', centre: [20, 20], diameterMm: 9 },
                {
                  kind: 'loop',
                  loop: [
                    { x: 40, y: 10 },
                    { x: 60, y: 10 },
                    { x: 60, y: 30 },
                  ],
                },
              ],
            },
          ],
        },
      }),
    });
    const made = makeParts(bare, INPUTS);
    expect(made.ok && made.parts[0]?.result.blank).toMatchObject({
      widthMm: 80,
      heightMm: 50,
      pierces: 3,
    });
    const small = makeParts(
      defineTemplate({
        ...DRAFT,
        build: () => ({
          part: {
            panels: [
              {
                id: 'floor',
                outline: rectangle(0, 0, 80, 50),
                cutouts: [{ kind: 'round', centre: [20, 20], diameterMm: 0.5 }],
              },
            ],
          },
        }),
      }),
      INPUTS,
    );
    expect(small.ok && small.parts[0]?.result.findings.map((f) => f.message).join()).toContain(
      'Hole hole 1 in floor',
    );
  });
});

describe('FAMILIES', () => {
  test('gives every family under its name', async () => {
    expect(Object.keys(FAMILIES)).toEqual([...MODULES.keys()]);
    const template = await FAMILIES['bracket-angle']();
    expect(template.family).toBe('bracket-angle');
    const made = makeParts(template, { legA: 60, legB: 40, width: 80, thickness: 3 });
    expect(made.ok && made.parts[0]?.result.folded?.sizeMm.toSorted((a, b) => a - b)).toEqual(
      [40, 60, 80].map((n) => expect.closeTo(n, 6)),
    );
    expect(Object.hasOwn(FAMILIES, 'constructor')).toBe(false);
  });
});

/**
 * A template that is spoilt in one place, the field that has to be named, and what has to be said
 * of it.
 */
const WRONG: readonly (readonly [name: string, template: unknown, input: string, says: string])[] =
  [
    ['nothing', undefined, 'template', 'defineTemplate'],
    ['a function', () => 0, 'template', 'a function'],
    ['no family', { ...SHORT, family: undefined }, 'template.family', 'crate-stop'],
    [
      'a family with capitals',
      { ...SHORT, family: 'Crate Stop' },
      'template.family',
      'small letters',
    ],
    ['no summary', { ...SHORT, summary: undefined }, 'template.summary', 'give summary'],
    ['inputs that are a list', { ...SHORT, inputs: [] }, 'template.inputs', 'object of inputs'],
    [
      'a field made by hand',
      { ...SHORT, inputs: { floor: { type: 'length' } } },
      'template.inputs.floor',
      'fields.length',
    ],
    [
      'a field that was not called',
      { ...SHORT, inputs: { floor: fields.length } },
      'template.inputs.floor',
      'a function',
    ],
    [
      'an input all families have',
      { ...SHORT, inputs: { thickness: DRAFT.inputs.floor } },
      'template.inputs.thickness',
      'leave it out',
    ],
    [
      'an input with hyphens',
      { ...SHORT, inputs: { 'leg-a': DRAFT.inputs.floor } },
      'template.inputs.leg-a',
      'legA',
    ],
    [
      'a default beyond its own limits',
      {
        ...SHORT,
        inputs: { floor: fields.length({ about: 'x.', min: 10, max: 20, default: 30 }) },
      },
      'template.inputs.floor',
      'a length from 10 to 20 mm',
    ],
    [
      'a condition on an input that there is not',
      {
        ...SHORT,
        inputs: {
          floor: fields.length({ about: 'x.', min: 10, max: 20, when: { flor: 'given' } }),
        },
      },
      'template.inputs.floor.when',
      'did you mean floor?',
    ],
    [
      'a default of an input that is not common',
      { ...SHORT, defaults: { matreial: 's235' } },
      'template.defaults.matreial',
      'did you mean material?',
    ],
    [
      'a default that is no material',
      { ...SHORT, defaults: { material: 'wood' } },
      'template.defaults.material',
      'catalogue',
    ],
    [
      'a caution nobody knows',
      { ...SHORT, cautions: ['sharp-edge'] },
      'template.cautions[0]',
      'did you mean sharp-edges?',
    ],
    [
      'an example without inputs',
      { ...SHORT, examples: [{ title: 'x' }] },
      'template.examples[0].inputs',
      'inputs by name',
    ],
    ['no build', { ...SHORT, build: undefined }, 'template.build', 'function of the values'],
  ];

describe('a template that is none', () => {
  test.each(WRONG)('%s: its field is named', (_, template, input, says) => {
    const problems = checkTemplate(template);
    expect(problems.map((p) => p.input)).toEqual(
      template === undefined || typeof template === 'function' ? ['template'] : [input],
    );
    expect(Object.values(problems[0] ?? {}).join('; ')).toContain(says);
    // Made all the same, it is refused in the same words, and nothing is thrown.
    const made = makeParts(template as Template, INPUTS);
    expect(made.ok ? [] : made.problems).toEqual(problems);
  });

  test('everything that is wrong with it at once', () => {
    expect(checkTemplate({ inputs: [], examples: 3 }).map((p) => p.input)).toEqual(
      ['family', 'summary', 'inputs', 'examples', 'build'].map((name) => `template.${name}`),
    );
  });
});

describe('checkTemplate', () => {
  test('finds nothing wrong with the families there are', async () => {
    for (const load of Object.values(FAMILIES)) expect(checkTemplate(await load())).toEqual([]);
  }, 60_000);

  test('makes the examples, and names the input that is wrong, the stop, or what build threw', () => {
    const withExample = (inputs: Loose, more: Loose = {}) =>
      checkTemplate({
        ...SHORT,
        examples: [
          { title: 'good', inputs: INPUTS },
          { title: 'bad', inputs },
        ],
        ...more,
      });
    expect(withExample(INPUTS)).toEqual([]);
    expect(withExample({ floor: 5, thickness: 2 })).toMatchObject([
      { input: 'template.examples[1].inputs.floor', given: '5' },
    ]);
    // The bend takes more than there is of the floor, and still more of the lip: one radius mends
    // both.
    expect(withExample({ ...INPUTS, radius: 60 })).toEqual([
      {
        input: 'template.examples[1]',
        given: expect.stringMatching(/stopped: lip .*give radius [\d.]+ or less/),
        allowed: 'inputs that make a part',
      },
    ]);
    const throws = withExample(INPUTS, {
      build: () => {
        throw new Error('no sheet left');
      },
    });
    expect(throws).toMatchObject([
      {
        input: 'template.build',
        given: 'an error: no sheet left',
        mend: 'see template.examples[0]',
      },
      {},
    ]);
  });
});

/** What `build` gives instead, the field that has to be named, and what has to be said. */
const BUILT: readonly (readonly [name: string, built: unknown, input: string, says: string])[] = [
  ['nothing', undefined, 'template.build', '{ part }'],
  ['a promise', Promise.resolve({}), 'template.build', 'leave out async'],
  ['an empty object', {}, 'template.build', 'neither a part nor pieces'],
  ['no pieces', { pieces: [] }, 'template.build', 'neither a part nor pieces'],
  [
    'a warning and no part',
    { findings: [{ rule: 'x', severity: 'warn', message: 'y' }] },
    'template.build',
    'return { part }',
  ],
  [
    'a finding without a message',
    { findings: [{ rule: 'x', severity: 'stop' }] },
    'template.build: findings[0].message',
    'a sentence',
  ],
  ['no panels', { part: {} }, 'template.build: part.panels', 'a list of panels'],
  [
    'a panel without an outline',
    { part: { panels: [{ id: 'a' }] } },
    'template.build: part.panels[0].outline',
    'a list of points',
  ],
  [
    'a panel without an id',
    { part: { panels: [{ outline: rectangle(0, 0, 9, 9) }] } },
    'template.build: part.panels[0].id',
    'leg A',
  ],
  [
    'points that are pairs',
    {
      part: {
        panels: [
          {
            id: 'a',
            outline: [
              [0, 0],
              [9, 0],
              [9, 9],
            ],
          },
        ],
      },
    },
    'template.build: part.panels[0].outline[0]',
    'a point { x, y }',
  ],
  [
    'a point without y',
    { part: { panels: [{ id: 'a', outline: [{ x: 0 }] }] } },
    'template.build: part.panels[0].outline[0].y',
    'a number',
  ],
  [
    'a fold that turns left',
    { part: { panels: panels(50, 80), folds: [{ ...FOLD, direction: 'left' }] } },
    'template.build: part.folds[0].direction',
    'up, down',
  ],
  [
    'a fold without a child',
    { part: { panels: panels(50, 80), folds: [{ ...FOLD, child: undefined }] } },
    'template.build: part.folds[0].child',
    'a side { panel, edge }',
  ],
  [
    'a relief of no width',
    { part: { panels: panels(50, 80), relief: { shape: 'round' } } },
    'template.build: part.relief.widthMm',
    'a number',
  ],
  [
    'a hole of no kind',
    {
      part: {
        panels: [
          { id: 'a', outline: rectangle(0, 0, 9, 9), cutouts: [{ centre: [1, 1], diameterMm: 2 }] },
        ],
      },
    },
    'template.build: part.panels[0].cutouts[0].kind',
    'round, loop',
  ],
  [
    'a hole with its centre as an object',
    {
      part: {
        panels: [
          {
            id: 'a',
            outline: rectangle(0, 0, 9, 9),
            cutouts: [{ kind: 'round', centre: { x: 1, y: 1 }, diameterMm: 2 }],
          },
        ],
      },
    },
    'template.build: part.panels[0].cutouts[0].centre',
    'two numbers',
  ],
  [
    'two pieces of one id',
    {
      pieces: ['end', 'end'].map((id) => ({
        id,
        part: { panels: [{ id: 'a', outline: rectangle(0, 0, 9, 9) }] },
      })),
    },
    'template.build: pieces[1].id',
    'unlike that of any other',
  ],
  [
    'a piece called like a path',
    { pieces: [{ id: '../end', part: { panels: [{ id: 'a', outline: rectangle(0, 0, 9, 9) }] } }] },
    'template.build: pieces[0].id',
    'small letters',
  ],
  [
    'a figure that is a text',
    {
      part: { panels: panels(50, 80), folds: [FOLD] },
      report: { figures: [{ name: 'x', value: '3', unit: 'mm' }] },
    },
    'template.build: report.figures[0].value',
    'a number',
  ],
];

describe('a build that gives something else', () => {
  test.each(BUILT)('%s: the field is named', (_, built, input, says) => {
    const made = makeParts(defineTemplate({ ...DRAFT, build: () => built as never }), INPUTS);
    expect(made.ok ? [] : made.problems.map((p) => p.input)).toContain(input);
    expect(
      made.ok ? '' : made.problems.map((p) => Object.values(p).join('; ')).join('\n'),
    ).toContain(says);
  });

  test('a part that is none is stopped with a reason, on either hand', () => {
    const wrong = [
      [{ panels: [{ id: 'floor', outline: [] }] }, "outline of panel 'floor' has 0 points"],
      [
        { panels: panels(50, 80), folds: [{ ...FOLD, child: { panel: 'lid', edge: 0 } }] },
        "Fold A has the child 'lid'",
      ],
      [{ panels: panels(50, 80) }, "Panel 'lip' hangs on nothing"],
      [{ panels: [{ id: 'floor', outline: polygon([0, 0], [0, 9], [9, 9]) }] }, 'runs clockwise'],
      [{ panels: [{ id: 'floor', outline: rectangle(0, 0, 9, NaN) }] }, 'NaN'],
    ] as const;
    for (const [part, says] of wrong) {
      const made = makeParts(defineTemplate({ ...DRAFT, build: () => ({ part }) }), {
        ...INPUTS,
        hand: 'both',
      });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      expect(made.parts.map((p) => [p.stopped, p.files()])).toEqual([
        [true, []],
        [true, []],
      ]);
      for (const { result } of made.parts)
        expect(
          result.findings
            .filter((f) => f.severity === 'stop')
            .map((f) => f.message)
            .join(),
        ).toContain(says);
    }
  });

  test('a part of a wrong sum is stopped, where the template says what its inputs mean', () => {
    const wishes = (floor: number) => [
      wish('floor', floor, edge('floor', 'down'), faceOf('lip', 'up', 'outside')),
    ];
    const made = [0, 0.4].map((wrong) =>
      makeParts(
        defineTemplate({
          ...DRAFT,
          build: (v) => ({
            part: {
              panels: panels(v.floor + wrong, v.width),
              folds: [FOLD],
              wishes: wishes(v.floor),
            },
          }),
        }),
        INPUTS,
        UNPLANNED,
      ),
    );
    expect(
      made.map(
        (m) =>
          m.ok &&
          m.parts[0]?.result.findings.filter((f) => f.severity === 'stop').map((f) => f.rule),
      ),
    ).toEqual([[], ['proof-failed']]);
  });

  test('what a template stops itself is told alone', () => {
    const made = makeParts(
      defineTemplate({
        ...DRAFT,
        build: (v) => ({
          part: assemble(v, { panels: [] }),
          findings: [stop('mine', 'There is no sheet left.')],
        }),
      }),
      INPUTS,
    );
    expect(made.ok && made.parts[0]?.result.findings.map((f) => f.rule)).toEqual(['mine']);
  });
});

/** A value with something else in one place of it. */
const spoilt = (whole: object, pick: number, value: unknown): unknown => {
  const copy = structuredClone(whole) as Loose;
  const places: (readonly [Loose, string])[] = [];
  const visit = (holder: Loose): void => {
    for (const key of Object.keys(holder)) {
      places.push([holder, key]);
      if (typeof holder[key] === 'object' && holder[key] !== null) visit(holder[key] as Loose);
    }
  };
  visit({ copy });
  const [holder, key] = places[pick % places.length] as (typeof places)[number];
  holder[key] = value;
  return copy;
};

test('whatever stands anywhere in a part, it is made, stopped with a reason, or a problem: nothing is thrown', () => {
  const anything = fc.oneof(
    fc.constantFrom<unknown>(
      null,
      undefined,
      '',
      'x',
      'floor',
      'A',
      NaN,
      -1,
      0,
      1,
      1.5,
      3,
      1e6,
      true,
      [],
      {},
      [1, 2],
      { x: 1, y: 2 },
    ),
    fc.double({ min: -200, max: 200 }),
    fc.jsonValue(),
  );
  const hole = {
    kind: 'round',
    centre: [20, 20],
    diameterMm: 9,
    use: { screw: 'M8', meets: 'post', countersink: { diameterMm: 16, face: 'up' } },
  };
  const wished = {
    panels: panels(50, 80).map((p) => (p.id === 'floor' ? { ...p, cutouts: [hole] } : p)),
    folds: [FOLD],
    wishes: [
      wish('floor', 50, edge('floor', 'down'), faceOf('lip', 'up', 'outside')),
      diameterWish('hole', 9, 'floor', 'hole 1'),
      angleWish('angle', 90, 'floor', 'lip'),
    ],
  };
  const wholes = [
    { panels: panels(50, 80), folds: [FOLD] },
    wished,
    angle(60, 40, 80, 90, 3, 3),
    box(100, 60, 30, 90, 3, 2),
  ];
  fc.assert(
    fc.property(fc.constantFrom(...wholes), fc.nat(), anything, (whole, pick, value) => {
      const part = spoilt({ part: whole }, pick, value);
      const made = makeParts(
        defineTemplate({ ...DRAFT, build: () => part as never }),
        { ...INPUTS, hand: 'right' },
        UNPLANNED,
      );
      if (!made.ok)
        expect(
          made.problems.every((p) => p.input.startsWith('template.build') && p.allowed !== ''),
        ).toBe(true);
      else
        for (const one of made.parts)
          if (one.stopped)
            expect(one.result.findings.some((f) => f.severity === 'stop')).toBe(true);
    }),
    { numRuns: fuzzRuns(300) },
  );
});
