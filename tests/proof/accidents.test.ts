import { describe, expect, test } from 'vitest';
import type { MadePart } from '../../src/use/made-part.ts';
import type { Drawing } from '../../src/model/drawing.ts';
import type { Part } from '../../src/model/part.ts';
import type { Asked } from '../../src/contract/asked.ts';
import { askedOf } from '../../src/measure/asked-part.ts';
import { make } from '../helpers/check-template.ts';
import { looseDxf } from '../helpers/loose-dxf.ts';
import { edited, foundOf, type Group, proofOf, stopsOf } from '../helpers/proved.ts';

/** One angle bracket with five holes, none of them where its mirror image would have one. */
const BRACKET = {
  name: 'seat post',
  legA: 60,
  legB: 40,
  width: 80,
  material: 's275',
  thickness: 3,
  radius: 3,
  cornerRadius: 5,
  holesA: '35,20,M8; 35,50,M8',
  holesB: '22,20,6.6; 22,45,8x20; 22,65,6.6',
};

const bracket = async (): Promise<{ asked: Asked; dxf: string; drawing: Drawing }> => {
  const [made] = (await make('bracket-angle', BRACKET)) as [MadePart];
  const dxf = made.files().find((f) => f.name.endsWith('.dxf'))?.contents;
  if (dxf === undefined || made.flat === undefined || made.drawing === undefined)
    throw new Error('not made');
  return { asked: askedOf(made.part as Part, made.flat, 0), dxf, drawing: made.drawing };
};

const isLength = (g: Group): boolean => g.type !== 'TEXT' && [10, 20, 11, 21, 40].includes(g.code);
const isX = ({ code }: Group): boolean => code === 10 || code === 11;
const scaled = (by: number) => (g: Group) =>
  isLength(g) ? String(Number(g.value) * by) : undefined;

/**
 * A quarter turn counter-clockwise changes x and y of each point about: two passes, since one sees
 * one group.
 */
const turned = (dxf: string): string => {
  const lines = dxf.split('\n');
  for (let i = lines.indexOf('ENTITIES') + 1; i + 3 < lines.length; i += 2) {
    const code = Number(lines[i]);
    if ((code !== 10 && code !== 11) || Number(lines[i + 2]) !== code + 10) continue;
    [lines[i + 1], lines[i + 3]] = [
      String(500 - Number(lines[i + 3])),
      String(20 + Number(lines[i + 1])),
    ];
  }
  return lines.join('\n');
};

describe('an edited file', () => {
  test('with a hole moved: which measures are off, and by how much; the others are as they were', async () => {
    const { asked, dxf } = await bracket();
    const moved = edited(dxf, (g) =>
      g.type === 'CIRCLE' && g.code === 10 && g.value === '20' ? '21.5' : undefined,
    );
    const proof = proofOf(moved, asked);
    expect(stopsOf(proof)).toEqual(['proof-failed']);
    const off = proof.measures
      .filter((m) => Math.abs((m.foundMm ?? 0) - m.askedMm) > 0.01)
      .map((m) => m.name);
    expect(off).toContain('hole holesA 1 from the nearest edge');
    expect(foundOf(proof, 'hole holesA 1 from the nearest edge')).toBeCloseTo(21.5, 3);
    expect([foundOf(proof, 'leg A'), foundOf(proof, 'hole holesA 1 from fold A')]).toEqual(
      [60, 35].map((v) => expect.closeTo(v, 3)),
    );
    expect(proof.findings.at(-1)?.message).toContain(
      'h1 (holesA 1) from the nearest edge 21.5 mm instead of 20',
    );
  });

  test('with a fold line moved: one leg is longer, the other shorter', async () => {
    const { asked, dxf } = await bracket();
    const proof = proofOf(
      edited(dxf, (g) =>
        g.type === 'LINE' && [20, 21].includes(g.code) ? String(Number(g.value) + 1) : undefined,
      ),
      asked,
    );
    expect([foundOf(proof, 'leg A'), foundOf(proof, 'leg B')]).toEqual(
      [61, 39].map((v) => expect.closeTo(v, 3)),
    );
    expect(proof.worstMm).toBeCloseTo(1, 1);
  });

  test.each([
    [25.4, 'millimetres were taken for inches'],
    [1 / 25.4, 'it is in inches and read as millimetres'],
    [2, 'scaled by 2 '],
  ])('scaled by %d says so', async (by, said) => {
    const { asked, dxf } = await bracket();
    const proof = proofOf(edited(dxf, scaled(by)), asked);
    expect(stopsOf(proof)).toEqual(expect.arrayContaining(['file-scaled', 'proof-failed']));
    expect(proof.findings.find((f) => f.rule === 'file-scaled')?.message).toContain(said);
    expect(foundOf(proof, 'width of leg A')).toBeCloseTo(80 * by, 2);
    expect(foundOf(proof, 'diameter of hole holesA 1')).toBeCloseTo(9 * by, 3);
  });

  test('mirrored says so, although every length is right', async () => {
    const { asked, dxf } = await bracket();
    const mirrored = edited(dxf, (g) =>
      isLength(g) && isX(g)
        ? String(80 - Number(g.value))
        : g.code === 42
          ? String(-Number(g.value))
          : undefined,
    );
    const proof = proofOf(mirrored, asked);
    expect(stopsOf(proof)).toEqual(['file-mirrored']);
    expect(proof.worstMm).toBeLessThan(0.01);
  });

  test('shifted and turned by a quarter is as good as before', async () => {
    const { asked, dxf } = await bracket();
    const proof = proofOf(turned(dxf), asked);
    expect(stopsOf(proof)).toEqual([]);
    expect(proof.findings.map((f) => f.rule)).toEqual(['file-moved']);
    expect(proof.worstMm).toBeLessThan(0.001);
  });

  test('without a hole, without a fold line, with another layer: what is lost', async () => {
    const { asked, dxf } = await bracket();
    const lost = proofOf(
      edited(dxf, (g) => (g.code === 0 && g.type === 'CIRCLE' ? 'POINT' : undefined)),
      asked,
    );
    expect(lost.findings.find((f) => f.rule === 'contour-lost')?.message).toContain(
      'h1 (holesA 1), h2 (holesA 2), h3 (holesB 1), h5 (holesB 3)',
    );
    expect(lost.measures.find((m) => m.name === 'diameter of hole holesA 1')?.foundMm).toBeNull();
    const unfolded = proofOf(
      edited(dxf, (g) => (g.code === 8 && g.value === 'FOLD-UP' ? 'NOTE' : undefined)),
      asked,
    );
    expect(stopsOf(unfolded)).toEqual([]);
    expect(unfolded.findings.map((f) => f.rule)).toEqual(['fold-lines-left-out']);
    const down = proofOf(
      edited(dxf, (g) => (g.code === 8 && g.value === 'FOLD-UP' ? 'FOLD-DOWN' : undefined)),
      asked,
    );
    expect(stopsOf(down)).toEqual(['fold-turned', 'proof-failed']);
    expect(down.angles[0]).toMatchObject({ askedDeg: 90, foundDeg: 270 });
  });

  test('with a stranger on it: a contour too many, an open one, a curve that is not read, a layer of somebody else', async () => {
    const { asked, dxf } = await bracket();
    const added = (entity: string): string =>
      dxf.replace(/(\n0\nENDSEC\n)(?![^]*\nENTITIES\n)/, `\n${entity}$1`);
    expect(stopsOf(proofOf(added('0\nCIRCLE\n8\nHOLES\n10\n40\n20\n10\n40\n2'), asked))).toEqual([
      'contour-stray',
    ]);
    expect(
      stopsOf(proofOf(added('0\nLINE\n8\nHOLES\n10\n40\n20\n10\n11\n42\n21\n10'), asked)),
    ).toEqual(['contour-open']);
    expect(stopsOf(proofOf(added('0\nSPLINE\n8\nHOLES\n70\n8'), asked))).toEqual(['file-not-read']);
    expect(
      stopsOf(proofOf(added('0\nLINE\n8\nScrap\n10\n40\n20\n10\n11\n42\n21\n10'), asked)),
    ).toEqual(['strange-layer']);
    expect(
      stopsOf(proofOf(added('0\nLINE\n8\nFOLD-UP\n10\n0\n20\n10\n11\n80\n21\n10'), asked)),
    ).toEqual(['fold-line-stray']);
  });

  test('of loose lines and arcs, in millimetres or inches, measures the same', async () => {
    const { asked, drawing } = await bracket();
    for (const options of [{}, { unit: 1, perMm: 1 / 25.4 }, { unit: 5, perMm: 0.1 }]) {
      const proof = proofOf(looseDxf(drawing.items, options), asked);
      expect(stopsOf(proof)).toEqual([]);
      expect(proof.worstMm).toBeLessThan(0.001);
    }
    const said = proofOf(looseDxf(drawing.items, { unit: 1, perMm: 1 }), asked);
    expect(said.findings.find((f) => f.rule === 'file-scaled')?.message).toContain(
      'too large (its unit: inches)',
    );
  });

  // DXF Reference, "Object Coordinate Systems": with the extrusion 0, 0, -1 the x axis of an entity
  // runs the other way.
  test('drawn on the back of its plane is where it was', async () => {
    const { asked, dxf } = await bracket();
    const turnedOver = edited(dxf, (g) => {
      if (g.type !== 'CIRCLE' && g.type !== 'LWPOLYLINE') return undefined;
      if (g.code === 10) return String(-Number(g.value));
      if (g.code === 42) return String(-Number(g.value));
      return g.code === 8 ? `${g.value}\n230\n-1.0` : undefined;
    });
    const proof = proofOf(turnedOver, asked);
    expect([stopsOf(proof), proof.findings]).toEqual([[], []]);
    expect(proof.worstMm).toBeLessThan(0.001);
  });
});
