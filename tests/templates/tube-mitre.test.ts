import { describe, expect, test } from 'vitest';
import { readStep } from '../helpers/step.ts';
import { applyMend } from '../../src/forms/apply-mend.ts';
import { checkTemplate } from '../../src/use/check-template.ts';
import { makeFiles } from '../../src/use/make/make-files.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { copedMesh } from '../../src/tube/cope/coped-mesh.ts';
import type { CopedTube } from '../../src/tube/cope/coped-part.ts';
import tubeMitre from '../../templates/tube-mitre/index.ts';
import { examplesIn } from '../helpers/extent.ts';
import { meshVolume, openEdges } from '../helpers/mesh.ts';
import { published } from '../helpers/published.ts';
import { copedOf } from '../helpers/tubes-of-kind.ts';

type Inputs = Readonly<Record<string, unknown>>;

const ELBOW = { diameter: 273, wall: 6, turn: 90, pieces: 5, radius: 381 };

const made = (inputs: Inputs) => {
  const all = makeParts(tubeMitre, inputs);
  if (!all.ok) throw new Error(JSON.stringify(all.problems));
  return all;
};

const pieceOf = (inputs: Inputs, id: string): CopedTube => {
  const found = copedOf(made(inputs).tubes).find(({ result }) => result.piece === id);
  if (found === undefined) throw new Error(`no piece ${id}`);
  return found.tube;
};

const rulesOf = (inputs: Inputs): string[] => {
  const { parts, tubes } = made(inputs);
  return [...parts, ...tubes].flatMap(({ result }) => result.findings.map(({ rule }) => rule));
};

test('it is a sound template, and its examples are made', () => {
  expect(checkTemplate(tubeMitre)).toEqual([]);
  for (const { inputs } of tubeMitre.examples) {
    const { parts, tubes } = made(inputs);
    expect(parts).toEqual([]);
    const count = tubes.reduce((sum, { result }) => sum + result.quantity, 0);
    expect(count).toBe(inputs['pieces']);
  }
});

test('a bend of ten inches, as it is published', () => {
  const { given, expect: asked, tolerance } = published('cope', 'mitre-10in');
  const { turn_deg: turn, cuts, CLR: radius, OD: diameter } = given as Record<string, number>;
  const inputs = { diameter, wall: 6, turn, pieces: (cuts as number) + 1, radius };
  const near = (mine: number, name: string): void =>
    expect(Math.abs(mine - (asked[name] as number))).toBeLessThan(tolerance);
  const [end, middle] = [pieceOf(inputs, 'end'), pieceOf(inputs, 'middle')];
  near(end.asked.lengthMm, 'end_length');
  near(middle.asked.lengthMm, 'middle_length');
  // Off the bar comes the side that lies outside in the bend.
  near(end.cutLengthMm - end.asked.lengthMm, 'cut_back');
  near((middle.cutLengthMm - middle.asked.lengthMm) / 2, 'cut_back');
});

describe('the pieces', () => {
  test('put end to end, turned at each joint, make the bend: turn, radius, and where it ends', () => {
    for (const { pieces, turn, first, last } of [
      { pieces: 2, turn: 60, first: 30, last: 0 },
      { pieces: 4, turn: 90, first: 0, last: 0 },
      { pieces: 7, turn: 175, first: 12, last: 80 },
    ]) {
      const inputs = { diameter: 50, wall: 2, turn, pieces, radius: 90, first, last };
      const { reports } = made(inputs);
      const rows = reports[0]?.tables[0]?.rows as readonly (readonly number[])[];
      expect(rows).toHaveLength(pieces);
      const at = { x: 0, y: 0, deg: 0 };
      rows.forEach(([, axis = 0], i) => {
        const rad = (at.deg * Math.PI) / 180;
        at.x += axis * Math.cos(rad);
        at.y += axis * Math.sin(rad);
        if (i < pieces - 1) at.deg += turn / (pieces - 1);
      });
      expect(at.deg).toBeCloseTo(turn, 9);
      // The bend about (first, 90): from there the last axis runs on along its tangent.
      const rad = (turn * Math.PI) / 180;
      expect(at.x).toBeCloseTo(first + 90 * Math.sin(rad) + last * Math.cos(rad), 2);
      expect(at.y).toBeCloseTo(90 - 90 * Math.cos(rad) + last * Math.sin(rad), 2);
    }
  });

  test('end in planes, through the whole wall: faces of two pieces close on each other', () => {
    const { startMm, endMm, asked } = pieceOf(ELBOW, 'middle');
    const slope = Math.tan((11.25 * Math.PI) / 180);
    for (const r of [130.5, 133, 136.5])
      for (let deg = 0; deg < 360; deg += 15) {
        const x = r * Math.cos((deg * Math.PI) / 180);
        expect(startMm(r, deg)).toBeCloseTo(slope * x, 9);
        expect(endMm(r, deg)).toBeCloseTo(asked.lengthMm - slope * x, 9);
      }
  });

  test('are models that are closed and weigh what they are told to, as mesh and as solid', async () => {
    const middle = pieceOf(ELBOW, 'middle');
    const mesh = copedMesh(middle, 'tube', 0.01);
    expect(openEdges(mesh.triangles.map(({ corners }) => corners))).toEqual([]);
    const mm3 = Math.PI * 267 * 6 * middle.asked.lengthMm;
    expect(Math.abs(meshVolume(mesh) / mm3 - 1)).toBeLessThan(2e-4);
    const files = await makeFiles({ template: tubeMitre, inputs: ELBOW, outputs: ['step'] });
    if (!files.ok) throw new Error(JSON.stringify(files.problems));
    const step = files.files.find(({ name }) => name === 'tube-mitre-middle.step');
    const body = await readStep(step?.contents as string);
    expect(body).toMatchObject({ solids: 1, isValid: true });
    expect(body.volume / mm3).toBeCloseTo(1, 8);
    // The saw leaves what the file has.
    expect(files.findings.map(({ rule }) => rule)).not.toContain('cope-step-fitted');
  });
});

test('welds are as long as the ellipse is round', () => {
  // Circumference of an ellipse by its series (Gauss and Kummer; from memory): pi (a + b) (1 + h / 4 +
  // h^2 / 64 + h^3 / 256 + ...), with h = ((a - b) / (a + b))^2.
  const [a, b] = [136.5 / Math.cos((11.25 * Math.PI) / 180), 136.5];
  const h = ((a - b) / (a + b)) ** 2;
  const round = Math.PI * (a + b) * (1 + h / 4 + h ** 2 / 64 + h ** 3 / 256);
  const rows = made(ELBOW).reports[0]?.tables[1]?.rows ?? [];
  expect(rows.map(([joint]) => joint)).toEqual([1, 2, 3, 4]);
  expect(rows.map(([, deg]) => deg)).toEqual([11.25, 33.75, 56.25, 78.75]);
  for (const [, , weld, reads] of rows) {
    expect(Math.abs((weld as number) - round)).toBeLessThan(0.02);
    expect(reads).toBe(157.5);
  }
});

describe('what is refused, and what is remarked', () => {
  test.each([
    [{ ...ELBOW, wall: 24, diameter: 40 }, 'cope-no-bore'],
    [{ ...ELBOW, radius: 136 }, 'mitre-tight'],
    [{ ...ELBOW, radius: 136.5 }, 'mitre-tight'],
    [{ ...ELBOW, pieces: 2, turn: 91 }, 'mitre-steep'],
    [{ ...ELBOW, radius: 150, pieces: 9 }, 'mitre-short-inside'],
  ])('%j: %s', (inputs, rule) => {
    expect(rulesOf(inputs)).toContain(rule);
  });

  test.each([
    [{ ...ELBOW, radius: 137, pieces: 2, turn: 90 }, 'mitre-tight'],
    [{ ...ELBOW, pieces: 2, turn: 90 }, 'mitre-steep'],
    [{ ...ELBOW, pieces: 3, turn: 91 }, 'mitre-steep'],
    [ELBOW, 'mitre-short-inside'],
  ])('%j: not %s', (inputs, rule) => {
    expect(rulesOf(inputs)).not.toContain(rule);
  });

  test('mends are ones', () => {
    for (const wrong of [
      { ...ELBOW, radius: 100 },
      { ...ELBOW, pieces: 2, turn: 180 },
      { ...ELBOW, radius: 150, pieces: 9 },
    ]) {
      const { parts, tubes } = made(wrong);
      const found = [...parts, ...tubes]
        .flatMap(({ result }) => result.findings)
        .find(({ rule }) => rule.startsWith('mitre-'));
      const [mend] = found?.mends ?? [];
      if (mend === undefined) throw new Error('no mend');
      const mended = rulesOf(applyMend(wrong, mend));
      expect(mended.filter((rule) => rule === found?.rule)).toEqual([]);
    }
  });
});

test('in inches it is the same bend', () => {
  const inInches = { diameter: '3in', wall: '2mm', radius: '4.5in', pieces: 4 };
  const inMm = { diameter: 76.2, wall: 2, radius: 114.3, pieces: 4 };
  expect(pieceOf(inInches, 'middle').asked).toEqual(pieceOf(inMm, 'middle').asked);
});

test.each(examplesIn(tubeMitre))('its papers are written: $title', async ({ inputs }) => {
  const files = await makeFiles({ template: tubeMitre, inputs, outputs: ['card', 'sheet'] });
  if (!files.ok) throw new Error(JSON.stringify(files.problems));
  const sheet = files.files.find(({ name }) => name.endsWith('-sheet.html'))?.contents as string;
  for (const word of ['Joints to weld', 'Saw set to', 'inside of the bend', 'from joint'])
    expect(sheet.toLowerCase()).toContain(word.toLowerCase());
});
