import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { describeInputs } from '../../src/forms/read.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Findings on holes as programs read them: which input, which panel, where, how much. */

const BASE = { legA: 60, legB: 40, width: 80, thickness: 3, radius: 3, material: 's275' };

const found = async (inputs: Record<string, unknown>, rule: string) => {
  const made = makeParts(await loadFamily('bracket-angle'), { ...BASE, ...inputs }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts.flatMap(({ result }) => result.findings.filter((f) => f.rule === rule));
};

describe('a hole knows the input it came from, and so does what is found about it', () => {
  // Leg A is 60 over its outside, and a hole of 9 mm at 58 has its edge 2.5 mm beyond it.
  test('off the metal: how far it reaches out', async () => {
    const [stop] = await found({ holesA: '58,40,9' }, 'hole-off-metal');
    expect(stop).toMatchObject({ inputs: ['holesA'], panel: 'leg A', limit: { atLeast: 0 } });
    expect(stop?.measured?.value).toBeCloseTo(60 - 58 - 4.5, 6);
  });

  test('off the metal in the order given and not in the other: that one is offered', async () => {
    const [stop] = await found({ holesA: '70,30,9' }, 'hole-off-metal');
    expect(stop?.message).toContain('exchange its two figures (from fold 30, from left 70)');
    const [named] = await found({ holesA: 'from fold 70, from left 30, 9' }, 'hole-off-metal');
    expect(named?.message).not.toContain('exchange');
    const [neither] = await found({ holesA: '70,2,9' }, 'hole-off-metal');
    expect(neither?.message).not.toContain('exchange');
  });

  // Middles 6 apart, diameters of 9 both.
  test('two that meet: from middle to middle', async () => {
    const [stop] = await found({ holesA: '35,30,9; 35,36,9' }, 'holes-meet');
    expect(stop).toMatchObject({
      inputs: ['holesA'],
      panel: 'leg A',
      measured: { value: 6, unit: 'mm' },
      limit: { atLeast: 9, unit: 'mm' },
    });
  });

  test('two with little metal between them: how much', async () => {
    const [warning] = await found({ holesA: '35,30,9; 35,40.5,9' }, 'web-too-thin');
    expect(warning?.measured?.value).toBeCloseTo(1.5, 6);
    expect(warning).toMatchObject({ inputs: ['holesA'], panel: 'leg A' });
  });

  // From the outside corner: setback r + t = 6, so that the bend begins at 6; edge at 12 - 4 = 8.
  test('near a bend: from its edge to where the bend begins, in both hands', async () => {
    const both = await found({ holesB: '12,25,8', hand: 'both' }, 'hole-near-bend');
    expect(both).toHaveLength(2);
    for (const warning of both) {
      expect(warning).toMatchObject({ inputs: ['holesB'], panel: 'leg B', limit: { atLeast: 6 } });
      expect(warning.measured?.value).toBeCloseTo(2, 6);
    }
    const [left, right] = both.map(({ at }) => at);
    // The blank is 80 wide, and the right hand is the left one turned over.
    expect((left?.[0] ?? NaN) + (right?.[0] ?? NaN)).toBeCloseTo(80, 6);
    expect(left?.[1]).toBeCloseTo(right?.[1] ?? NaN, 6);
  });
});

test.each([...FAMILIES.keys()])('every hole of %s has inputs of the family', async (family) => {
  const template = await loadFamily(family);
  const names = new Set(describeInputs(template).map(({ name }) => name));
  for (const { inputs } of template.examples) {
    const made = madeOnce(template, inputs, UNPLANNED);
    for (const { flat } of made.ok ? made.parts : [])
      for (const { from, inputs: own = [] } of flat?.cutouts ?? []) {
        expect(own.length, from).toBeGreaterThan(0);
        for (const input of own) expect(names, from).toContain(input);
      }
  }
});
