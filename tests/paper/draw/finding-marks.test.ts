import { describe, expect, test } from 'vitest';
import type { Label, PictureItem, Round } from '../../../src/model/picture.ts';
import { doOverlap, textGround } from '../../../src/paper/draw/ground.ts';
import { sheetContent } from '../../../src/paper/sheet/sheet-content.ts';
import type { WholePart } from '../../../src/use/made-part.ts';
import { makeParts } from '../../../src/use/make/make-parts.ts';
import { loadFamily } from '../../helpers/check-template.ts';
import { UNPLANNED } from '../../helpers/unplanned.ts';

/** A slanted plate with much that is wrong with it, and both hands of an odd angle. */
const PLATE = {
  outline: '0,0; 160,0; 160,70; 90,110; 0,110',
  folds: '0,30 160,60 70 up',
  holes: '20,28,6.6; 140,15,1; 60,70,8x20@90; 60,77,3; 157,5,4',
  thickness: 2,
  hand: 'both',
};
const ANGLE = {
  legA: 60,
  legB: 40,
  width: 80,
  thickness: 3,
  radius: 1,
  bendAngle: 75,
  hand: 'both',
  holesA: '9,20,M8; 56,60,M4; 35,30,9; 35,41,9; 25,70,2.5',
  holesB: '12,50,8x20; 30,10,M6',
};

/** Those that are not stopped. */
const partsOf = async (family: string, inputs: object): Promise<readonly WholePart[]> => {
  const made = makeParts(await loadFamily(family), { ...inputs }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts.filter((part) => !part.stopped);
};

/** The picture of the blank, and the numbered findings. */
const shown = (made: WholePart) => {
  const { blocks } = sheetContent({ made });
  const overview = blocks.find((b) => b.kind === 'overview');
  const block = overview?.blank ?? blocks.find((b) => b.kind === 'picture');
  const texts = blocks.flatMap((b) =>
    b.kind === 'texts' && /^(?:What stops it|To be decided|Notes)/.test(b.title) ? b.texts : [],
  );
  if (block?.kind !== 'picture' || texts.length === 0) throw new Error('not drawn');
  return { items: block.picture.items, picture: block.picture, texts };
};

const isRing = (item: PictureItem): item is Round =>
  item.kind === 'round' && item.stroke?.dashMm !== undefined;
const isLabel = (item: PictureItem): item is Label => item.kind === 'label';
/** Numbers stand behind all else, after the rings. */
const numbersIn = (items: readonly PictureItem[]): Label[] => {
  const first = items.findIndex(isRing);
  return items
    .slice(first)
    .filter(
      (item): item is Label => isLabel(item) && /^[\d, ]+$/.test(item.text) && item.text !== '0',
    );
};

describe.each([
  ['plate', PLATE],
  ['bracket-angle', ANGLE],
])('the blank of a %s on its sheet', (family, inputs) => {
  test('has a ring with a number for each finding with a place, and the text has that number', async () => {
    for (const made of await partsOf(family, inputs)) {
      const { items, texts } = shown(made);
      const told = texts.flatMap(({ lead = '' }) => lead.match(/\d+$/) ?? []).map(Number);
      const placed = made.result.findings.filter(({ at }) => at !== undefined);
      expect(told).toEqual(placed.map((_, i) => i + 1));
      const numbers = numbersIn(items).flatMap(({ text }) => text.split(', ').map(Number));
      expect(numbers.toSorted((a, b) => a - b)).toEqual(told);
      expect(items.filter(isRing).length).toBe(numbersIn(items).length);
    }
  });

  test('has them where the blank has them, in either hand', async () => {
    for (const made of await partsOf(family, inputs)) {
      const { items } = shown(made);
      const { widthMm, heightMm } = made.flat ?? { widthMm: NaN, heightMm: NaN };
      const outline = items.find((item) => item.kind === 'area');
      const points = outline?.kind === 'area' ? (outline.rims[0] ?? []).map((p) => p.from) : [];
      const [x0, y0] = [Math.min(...points.map(([x]) => x)), Math.min(...points.map(([, y]) => y))];
      const scale = (Math.max(...points.map(([x]) => x)) - x0) / widthMm;
      expect((Math.max(...points.map(([, y]) => y)) - y0) / heightMm).toBeCloseTo(scale, 6);
      const rings = items.filter(isRing).map(({ centre }) => centre);
      for (const { at } of made.result.findings) {
        if (at === undefined) continue;
        const on = [x0 + at[0] * scale, y0 + at[1] * scale] as const;
        const off = rings.map(([x, y]) => Math.hypot(x - on[0], y - on[1]));
        expect(Math.min(...off)).toBeLessThan(2);
      }
    }
  });

  test('has no number on another text', async () => {
    for (const made of await partsOf(family, inputs)) {
      const { items, picture } = shown(made);
      const labels = items.filter(isLabel);
      for (const number of numbersIn(items)) {
        expect(
          labels.filter((l) => l !== number && doOverlap(textGround(l), textGround(number))),
        ).toEqual([]);
        expect(number.at[0] > 0 && number.at[0] < picture.widthMm).toBe(true);
      }
    }
  });

  test('has no ring, and no word of one, without findings that have a place', async () => {
    for (const made of await partsOf(family, inputs)) {
      const findings = made.result.findings.map(({ at: _at, ...rest }) => rest);
      const plain = { ...made, result: { ...made.result, findings } };
      expect(shown(plain).items.filter(isRing)).toEqual([]);
      expect(JSON.stringify(sheetContent({ made: plain }))).not.toContain('Rings with a number');
    }
  });
});
