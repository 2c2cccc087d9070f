import { expect, test } from 'vitest';
import { BOX_PAN } from '../../../src/data/machines/box-pan.ts';
import { DEFAULT_SHOP } from '../../../src/data/shop-default.ts';
import type { PictureItem } from '../../../src/model/picture.ts';
import { frontItems } from '../../../src/paper/draw/fold-front.ts';
import { type FoldScene, foldScenes } from '../../../src/paper/draw/fold-scene.ts';
import { sectionFrame, sectionItems } from '../../../src/paper/draw/fold-section.ts';
import { makeParts } from '../../../src/use/make/make-parts.ts';
import { loadFamily } from '../../helpers/check-template.ts';

const SHEET = { material: 'dc01', thickness: 1, radius: 1 };
const CELL = { widthMm: 90, heightMm: 55 };

const scenesOf = async (family: string, inputs: Record<string, unknown>): Promise<FoldScene[]> => {
  const shop = { ...DEFAULT_SHOP, machines: [BOX_PAN] };
  const made = makeParts(await loadFamily(family), { ...inputs, ...SHEET }, { shop });
  const [one] = made.ok ? made.parts : [];
  if (one?.plan === undefined) throw new Error(JSON.stringify(made));
  return foldScenes(one.plan, one);
};

const texts = (items: readonly PictureItem[]): string[] =>
  items.flatMap((i) => (i.kind === 'label' ? [i.text] : i.kind === 'group' ? texts(i.items) : []));

// An open hem of radius 2 in sheet of 1 hangs 2 x 2 + 1 = 5 mm under it.
test('packers lie under the sheet, as high as what hangs under it, and are named', async () => {
  const scenes = await scenesOf('panels', {
    base: '300 x 200',
    flanges: ['a on bottom 22 90 up', 'h on a end 10 180 down radius 2', 'b on left 30 90 up'],
  });
  const onPackers = scenes.filter((s) => s.step?.way === 'on packers');
  expect(onPackers.length).toBeGreaterThan(0);
  for (const scene of scenes) {
    const packers = scene.machineBefore.filter((p) => p.name === 'packers');
    const bedTop = Math.max(
      ...scene.machineBefore
        .filter((p) => p.name === 'bed')
        .flatMap((p) => p.pieces.flatMap((piece) => piece.map(([, y]) => y))),
    );
    const isOn = onPackers.includes(scene);
    expect(bedTop).toBeCloseTo(isOn ? -5 : 0, 9);
    expect(packers.flatMap((p) => p.pieces.flat().map(([, y]) => y))).toEqual(
      isOn ? [-5, -5, 0, 0] : [],
    );
    const named = texts(sectionItems(scene, 'before', sectionFrame(scene, CELL), true));
    expect(named.includes('packers 5 mm')).toBe(isOn);
    if (isOn) expect(Math.min(...scene.before.points.map(([, y]) => y))).toBeCloseTo(-5, 6);
  }
});

test('bed and leaf end between the fold and what hangs outside, which is named', async () => {
  const scenes = await scenesOf('tray', { length: 300, depth: 200, height: 40, corner: 'lapped' });
  const offEnd = scenes.filter((s) => s.step?.way === 'off the end');
  expect(offEnd.length).toBeGreaterThan(0);
  for (const scene of scenes) {
    expect(scene.end === undefined).toBe(!offEnd.includes(scene));
    if (scene.end === undefined) continue;
    const { atMm, isLow, panels } = scene.end;
    const isBeyond = (z: number, by: number): boolean => (isLow ? z < atMm + by : z > atMm - by);
    for (const [a, b] of scene.foldLines)
      for (const [, , z] of [a, b]) expect(isBeyond(z, -0.01)).toBe(false);
    expect(panels.length).toBeGreaterThan(0);
    for (const panel of panels) {
      expect(scene.step?.note).toContain(panel);
      const own = scene.before.triangles
        .filter(({ face }) => scene.before.faces[face]?.of === panel)
        .flatMap(({ corners }) => corners.map((c) => scene.before.points[c] as readonly number[]));
      expect(own.some(([, , z]) => isBeyond(z as number, 0.02))).toBe(true);
    }
    const items = frontItems(scene, CELL);
    expect(texts(items)).toEqual(
      expect.arrayContaining(['end of bed and leaf', `${panels[0] as string} hangs outside`]),
    );
    // The bed is drawn on one side of that end alone.
    const [bed] = items;
    const xs = bed?.kind === 'area' ? bed.rims.flatMap((rim) => rim.map((p) => p.from[0])) : [];
    expect(Math.min(...xs) === 0).toBe(isLow);
    expect(Math.max(...xs) === CELL.widthMm).toBe(!isLow);
  }
});
