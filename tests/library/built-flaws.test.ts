import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/index.ts';
import {
  assemble,
  defineTemplate,
  edge,
  faceOf,
  polygon,
  rectangle,
  stop,
  wish,
} from '../../src/template.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import { DRAFT, panels, FOLD, INPUTS } from './crate-stop.ts';

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
    'an edge that is neither a name nor a number',
    {
      part: {
        panels: panels(50, 80),
        folds: [{ ...FOLD, parent: { panel: 'floor', edge: true } }],
      },
    },
    'template.build: part.folds[0].parent.edge',
    'the name of an edge',
  ],
  [
    'a point whose edge has no name',
    { part: { panels: [{ id: 'a', outline: [{ x: 0, y: 0, edge: 2 }] }] } },
    'template.build: part.panels[0].outline[0].edge',
    'a text',
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
      [
        { panels: panels(50, 80), folds: [{ ...FOLD, parent: { panel: 'floor', edge: 'rear' } }] },
        "Fold A is on edge 'rear' of 'floor', which has edges bottom, right, top, left",
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
