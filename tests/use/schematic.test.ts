import { describe, expect, test } from 'vitest';
import { describeInputs } from '../../src/forms/read.ts';
import { familySketches } from '../../src/use/sketch/family-sketches.ts';
import ductBetween from '../../templates/duct-between/index.ts';
import tubeBent from '../../templates/tube-bent/index.ts';
import tubeCope from '../../templates/tube-cope/index.ts';
import tubeMitre from '../../templates/tube-mitre/index.ts';

const SIZE = { widthMm: 110, heightMm: 84 };
const DUCT = { near: '200 x 120', far: '160 x 90', material: 'dc01', thickness: 1 };
const POINTS = '20,10,150; 90,10,140; 20,60,165';
const COPE = { diameter: 30, wall: 2 };

describe('pictures of what is asked, and no piece shows', () => {
  test.each([
    [
      'a hoop',
      tubeBent,
      { span: 900, diameter: 30, wall: 2 },
      'diameter wall span height lean leadFace tailFace leadTrim tailTrim radius reference clamp follower',
    ],
    [
      'legs',
      tubeBent,
      { legs: '300; 90, 300', diameter: 30, wall: 2 },
      'diameter wall leadFace tailFace leadTrim tailTrim radius reference clamp follower',
    ],
    ['a branch on a header', tubeCope, COPE, 'diameter wall header angle offset length'],
    [
      'beside another branch',
      tubeCope,
      { ...COPE, beside: 30 },
      'diameter wall header angle offset beside besideAngle besideTurn besideApart length',
    ],
    [
      'between two headers',
      tubeCope,
      { ...COPE, other: 'header' },
      'diameter wall header angle offset length otherHeader otherAngle otherOffset clocking',
    ],
    [
      'between plates',
      tubeCope,
      { ...COPE, on: 'plate', other: 'plate' },
      'diameter wall angle length otherAngle clocking',
    ],
    [
      'on a bend',
      tubeCope,
      { ...COPE, on: 'bend' },
      'diameter header angle bendRadius bendSide bendBefore bendBehind length',
    ],
    ['a mitred bend', tubeMitre, COPE, 'diameter wall turn radius first last'],
    [
      'a duct placed by figures',
      ductBetween,
      { ...DUCT, length: '7in', hand: 'right' },
      'length offsetRight offsetUp faceRight faceUp farTurn',
    ],
    ['a duct placed by points', ductBetween, { ...DUCT, farAt: POINTS }, 'farTurn'],
  ] as const)(
    '%s has a letter at each of its measures, and at no other',
    (_, template, given, names) => {
      const sketches = familySketches(template, SIZE, given);
      const letters = new Map(describeInputs(template).map(({ name, letter }) => [name, letter]));
      const shown = Object.assign({}, ...sketches.map((s) => s.letters)) as Record<string, string>;
      expect(shown).toEqual(Object.fromEntries(names.split(' ').map((n) => [n, letters.get(n)])));
      for (const { picture, spots, letters: own } of sketches) {
        const labels = picture.items.filter((item) => item.kind === 'label');
        expect(labels.map(({ text }) => text)).toEqual(Object.values(own));
        spots.forEach(({ box, of }, i) => {
          expect(own[of]).toBe(labels[i]?.text);
          expect(Math.min(box.minX, box.minY)).toBeGreaterThanOrEqual(0);
          expect(box.maxX).toBeLessThanOrEqual(SIZE.widthMm);
          expect(box.maxY).toBeLessThanOrEqual(SIZE.heightMm);
          // No two letters are nearer than a press of a finger keeps apart.
          for (const other of spots.slice(i + 1))
            expect(
              Math.hypot(box.minX - other.box.minX, box.minY - other.box.minY),
              `${of} ${other.of}`,
            ).toBeGreaterThan(7);
        });
      }
    },
  );

  test('no inputs that are wrong have a picture, and a family has that of its example', () => {
    expect(familySketches(tubeCope, SIZE, { diameter: 'thick' })).toEqual([]);
    for (const template of [tubeBent, tubeCope, tubeMitre])
      expect(familySketches(template, SIZE).length).toBeGreaterThan(0);
  });
});
