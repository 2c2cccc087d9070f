import { describe, expect, test } from 'vitest';
import { FAMILIES, makeParts, type Template } from '../../src/index.ts';
import { defineTemplate, rectangle } from '../../src/template.ts';
import { FAMILIES as MODULES } from '../../templates/index.ts';
import { type Loose, DRAFT, panels, FOLD, SHORT, LONG, INPUTS } from './crate-stop.ts';

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
      'Hole h1 in floor',
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
