import { describe, expect, it } from 'vitest';
import { FAMILIES, makeParts, type MakeOptions } from '../../src/index.ts';
import type { FamilyName } from '../../templates/index.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import type { WholePart } from '../../src/use/made-part.ts';
import { ezdxfAvailable, readWithEzdxf } from '../helpers/ezdxf.ts';
import { inTurns } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

const COMMON = { thickness: 3, material: 's235' };

/** Every way in which a family takes holes has one for a tube of 30 that leans by 30 degrees. */
const MADE: readonly (readonly [FamilyName, Readonly<Record<string, unknown>>])[] = [
  ['plate', { outline: '0,0; 150,0; 150,120; 0,120', holes: '75,60,T30@30' }],
  ['ring', { outer: 160, inner: 40, boltCircle: 140, bolts: 3, holes: '-45,0,T20@30' }],
  ['tray', { length: 200, depth: 160, height: 60, holesBase: '80,100,T30@30' }],
  ['bracket-angle', { legA: 100, legB: 90, width: 120, holesA: '50,60,T30@30@45' }],
  [
    'bracket-gusset',
    {
      base: 100,
      upright: 100,
      width: 120,
      gussetDepth: 40,
      gussetHeight: 40,
      holesBase: '60,60,T30@30',
    },
  ],
  [
    'panels',
    { base: '200 x 150 holes x 100, y 75, T30@30 clear 1', flanges: 'lip on top 30 90 up' },
  ],
];

const made = async (
  family: FamilyName,
  inputs: Readonly<Record<string, unknown>>,
  options: MakeOptions = {},
): Promise<readonly WholePart[]> => {
  const result = makeParts(await FAMILIES[family](), { ...COMMON, ...inputs }, options);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.parts.map((part) => {
    if (part.stopped)
      throw new Error(part.result.findings.map(({ message }) => message).join('; '));
    return part;
  });
};

describe('a hole for a tube, in families of every kind', () => {
  it.each(inTurns(MADE, 0, 2).map((one) => [one[0], one[1]] as const))(
    '%s: its length is proved in the DXF, whatever its dialect, on either hand',
    async (family, inputs) => {
      for (const part of await made(family, { ...inputs, hand: 'both' }, { dxfVersion: 'r12' })) {
        const measures = part.result.proof?.measures ?? [];
        const length = measures.find(({ name }) => name.startsWith('length of'));
        const across = family === 'ring' ? 20 : family === 'panels' ? 32 : 30;
        const lean = Math.PI / 6;
        expect(length?.askedMm).toBeCloseTo(across / Math.cos(lean) + 3 * Math.tan(lean), 3);
        expect(measures.find(({ name }) => name.startsWith('width of h'))?.askedMm).toBeCloseTo(
          across,
          3,
        );
        expect(part.result.proof?.worstMm).toBeLessThan(0.001);
      }
    },
  );
});

it('is called by its tube on the drawing', async () => {
  const [part] = await made('plate', {
    outline: '0,0; 150,0; 150,120; 0,120',
    holes: '75,60,T30@30 grommet 2',
  });
  const texts = part?.drawing.items.flatMap((item) => (item.kind === 'text' ? [item.text] : []));
  expect(texts).toContain('tube 30 at 30 deg from square, grommet 2');
});

it('is arcs in a file of R12, within 0.01 mm of what a tube leaves', async (ctx) => {
  needsOutside(ctx, 'ezdxf', ezdxfAvailable);
  const [part] = await made(
    'plate',
    { outline: '0,0; 150,0; 150,120; 0,120', holes: '75,60,T60@45' },
    { dxfVersion: 'r12' },
  );
  const dxf = part?.files().find(({ name }) => name.endsWith('.dxf'))?.contents;
  const [read] = readWithEzdxf([dxf as string]);
  const holes = read?.entities.filter((e) => e.type === 'POLYLINE' && e.vertices.length > 8);
  expect(holes).toHaveLength(1);
  const [hole] = holes ?? [];
  if (hole?.type !== 'POLYLINE') throw new Error('no hole');
  const loop: Loop = hole.vertices.map(({ x, y, bulge }) => ({ x, y, bulge }));
  expect(loop.filter(({ bulge }) => bulge === 0)).toHaveLength(2);
  // Two half ellipses of 30 by 30 / cos 45, 3 tan 45 apart; y is along in this family.
  for (let deg = 0; deg < 360; deg += 1) {
    const a = (deg * Math.PI) / 180;
    const y = 30 * Math.SQRT2 * Math.cos(a) + Math.sign(Math.cos(a)) * 1.5;
    expect(pointGap([75 + 30 * Math.sin(a), 60 + y], loop)).toBeLessThan(0.01);
  }
});
