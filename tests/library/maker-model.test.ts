import makerjs from 'makerjs';
import { describe, expect, test } from 'vitest';
import type { MadePart } from '../../src/use/made-part.ts';
import { makerModel } from '../../src/maker-model.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily, make, makeOne } from '../helpers/check-template.ts';
import { examplesIn } from '../helpers/extent.ts';

/** Area inside a closed chain as makerjs draws it: its arcs cut into chords of at most 0.01 mm. */
const chainArea = (chain: makerjs.IChain): number => {
  const points = makerjs.chain.toKeyPoints(chain, 0.01);
  const turns = points.map((p, i) => {
    const q = points[(i + 1) % points.length] ?? p;
    return (p[0] ?? 0) * (q[1] ?? 0) - (q[0] ?? 0) * (p[1] ?? 0);
  });
  return Math.abs(turns.reduce((sum, t) => sum + t, 0)) / 2;
};

describe('a blank as makerjs sees it', () => {
  test.each([...FAMILIES.keys()])(
    '%s: the same closed chains and the same metal',
    async (family) => {
      for (const { inputs } of examplesIn(await loadFamily(family))) {
        for (const part of await make(family, { ...inputs, hand: 'left' })) expectSame(part);
      }
    },
  );

  const expectSame = ({ drawing, flat }: MadePart): void => {
    if (drawing === undefined || flat === undefined) throw new Error('no drawing');
    const model = makerModel({
      ...drawing,
      items: drawing.items.filter((i) => i.role === 'outline' || i.role === 'hole'),
    });
    expect(model.units).toBe(makerjs.unitType.Millimeter);
    const found = makerjs.model.findChains(model) as makerjs.IChain[];
    expect(found.every((c) => c.endless === true)).toBe(true);
    expect(found).toHaveLength(1 + flat.cutouts.length);
    const [outer = 0, ...holes] = found.map(chainArea).toSorted((a, b) => b - a);
    const metal = outer - holes.reduce((sum, a) => sum + a, 0);
    // Chords of 0.01 mm miss less than a millionth of an arc's segment.
    expect(Math.abs(metal / flat.areaMm2 - 1)).toBeLessThan(1e-6);
  };

  test('fold lines go to their layers, and texts are left out', async () => {
    const { drawing } = await makeOne('bracket-zed', {
      flangeA: 30,
      offset: 40,
      flangeB: 30,
      width: 50,
      thickness: 3,
    });
    if (drawing === undefined) throw new Error('no drawing');
    const layers = Object.values(makerModel(drawing).models ?? {}).map((m) => m.layer);
    expect(layers).toHaveLength(3);
    expect(new Set(layers)).toEqual(new Set(['OUTLINE', 'FOLD-UP', 'FOLD-DOWN']));
  });
});
