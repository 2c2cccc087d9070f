import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../../src/data/shop-default.ts';
import { keyedHoles } from '../../../src/paper/sizes/hole-keys.ts';
import { type MakeOptions, makeParts } from '../../../src/use/make/make-parts.ts';
import { loadFamily } from '../../helpers/check-template.ts';
import { DxfParser } from '../../helpers/dxf-parser.ts';
import { UNPLANNED } from '../../helpers/unplanned.ts';

/**
 * Holes that are more than cut: what is drawn of them, and that the proof finds them all the same.
 */
const INPUTS = {
  legA: 80,
  legB: 60,
  width: 120,
  thickness: 3,
  material: 's235',
  holesA: '45,30,3.3 drill; 45,60,M4 tapped drill; 45,90,M6 csk up; 25,60,9',
  holesB: '30,30,square 8@45; 30,60,hex 13; 30,90,M5 csk down',
};

const madeWith = async (options: Partial<MakeOptions>, inputs: Record<string, unknown> = {}) => {
  const made = makeParts(
    await loadFamily('bracket-angle'),
    { ...INPUTS, ...inputs },
    { ...UNPLANNED, ...options },
  );
  const part = made.ok ? made.parts[0] : undefined;
  const dxf = part?.files().find((f) => f.name.endsWith('.dxf'))?.contents;
  if (part === undefined || dxf === undefined)
    throw new Error(JSON.stringify(part?.result.findings ?? made));
  // Read by a reader of somebody else's.
  const entities = (new DxfParser().parseSync(dxf)?.entities ?? []) as unknown as readonly {
    readonly type: string;
    readonly layer: string;
    readonly radius?: number;
    readonly text?: string;
  }[];
  return { part, entities };
};

describe('holes that are drilled', () => {
  test('are crosses on the layer of marks, 6 mm long, and no cut', async () => {
    const { part, entities } = await madeWith({});
    const marks = entities.filter((e) => e.layer === 'MARK');
    expect(marks).toHaveLength(4);
    const at =
      part.flat?.cutouts
        .filter((c) => c.use?.isDrilled)
        .flatMap((c) => (c.kind === 'round' ? [c.centre] : [])) ?? [];
    expect(at).toHaveLength(2);
    // Seven holes, two of them drilled: the outline and five.
    expect(part.result.blank?.pierces).toBe(6);
    expect(part.result.proof?.worstMm).toBeLessThan(0.01);
    const names = part.result.proof?.measures.map((m) => m.name) ?? [];
    expect(names).toContain('holesA 1 from fold');
    expect(names).not.toContain('diameter of hole holesA 1');
  });

  test.each([
    { drilled: 'pierces' as const },
    { cutOnly: true },
    { drilled: 'pierces' as const, kerf: 1.5 },
  ])('are pierced with %o', async (options) => {
    const { part, entities } = await madeWith(options);
    expect(entities.some((e) => e.layer === 'MARK')).toBe(false);
    expect(part.result.blank?.pierces).toBe(8);
    // The tool goes round 1 mm, whatever it takes itself.
    const circles = entities.filter((e) => e.type === 'CIRCLE').map((e) => e.radius);
    expect(circles.filter((r) => r !== undefined && Math.abs(r - 0.5) < 1e-9)).toHaveLength(2);
    expect(part.result.proof?.worstMm).toBeLessThan(0.01);
    expect(part.result.proof?.measures.map((m) => m.name)).toContain('pierce for hole holesA 1');
  });

  test('a mark that was moved is told', async () => {
    const { part } = await madeWith({});
    const moved = part.flat?.cutouts.find((c) => c.from === 'holesA 1');
    expect(moved?.use?.isDrilled).toBe(true);
    const { proveDxf } = await import('../../../src/proof/proof.ts');
    const { askedOf } = await import('../../../src/measure/asked-part.ts');
    const { asCut } = await import('../../../src/paper/draw/as-cut.ts');
    if (part.part === undefined || part.flat === undefined) throw new Error('no part');
    const text = part.files().find((f) => f.name.endsWith('.dxf'))?.contents ?? '';
    const asked = askedOf(
      part.part,
      part.flat,
      0,
      asCut(part.flat, part.flat.outline, 'crosses', 0),
    );
    const x = moved?.kind === 'round' ? moved.centre[0] : NaN;
    // Both lines of the cross, moved aside by 0.4.
    const shifted = text.replace(
      /(8\nMARK\n(?:100\n\w+\n)?10\n)([-\d.]+)(\n20\n[-\d.]+\n(?:30\n[-\d.]+\n)?11\n)([-\d.]+)/g,
      (all, a: string, from: string, b: string, to: string) =>
        Math.abs((Number(from) + Number(to)) / 2 - x) < 1e-3
          ? `${a}${Number(from) + 0.4}${b}${Number(to) + 0.4}`
          : all,
    );
    expect(shifted).not.toBe(text);
    const [right, wrong] = [proveDxf(text, asked), proveDxf(shifted, asked)];
    expect(right.ok && right.proof.worstMm).toBeLessThan(0.01);
    expect(wrong.ok && wrong.proof.findings.map((f) => f.message).join()).toMatch(
      /h1 \(holesA 1\) from left (?:30\.4|29\.6)/,
    );
  });
});

test('what is to be done to them is written beside them, and in the table of the sheet', async () => {
  const { part, entities } = await madeWith({});
  const texts = entities.filter((e) => e.type === 'TEXT').map((e) => e.text);
  expect(texts).toEqual(
    expect.arrayContaining([
      'D3.3 drill',
      'D3.3 drill, M4x0.7 tapped',
      'csk 13.4 from above',
      'csk 11.2 from below',
    ]),
  );
  if (part.flat === undefined) throw new Error('no flat pattern');
  expect(keyedHoles(part.flat).map((h) => [h.size, h.kind])).toEqual([
    ['Ø3.3, drill', 'round'],
    ['Ø3.3, drill, M4x0.7 tapped', 'round'],
    ['Ø6.6, csk 13.4 from above', 'round'],
    ['Ø9', 'round'],
    ['8 x 8', 'rectangle'],
    ['13 x 15.01', 'hexagon'],
    ['Ø5.5, csk 11.2 from below', 'round'],
  ]);
});

test('the right hand keeps the face that a countersink is cut from', async () => {
  const [left, right] = [await madeWith({}), await madeWith({}, { hand: 'right' })];
  const faces = ({ part }: typeof left) => part.flat?.cutouts.map((c) => c.use?.countersink?.face);
  expect(faces(right)).toEqual(faces(left));
});

test('a shop may say that it pierces', async () => {
  const shop = {
    ...UNPLANNED.shop,
    ...DEFAULT_SHOP,
    machines: [],
    marking: { ...DEFAULT_SHOP.marking, drilled: 'pierces' as const },
  };
  const { entities } = await madeWith({ shop });
  expect(entities.some((e) => e.layer === 'MARK')).toBe(false);
});
