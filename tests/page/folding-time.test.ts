import fc from 'fast-check';
import { expect, test } from 'vitest';
import { partModel, strokeSection } from '../../src/page/core/model-answers.ts';
import { sharesAt, strokeAt } from '../../src/page/model/folding-time.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { posePoint, composePoses, type Pose } from '../../src/geometry/pose.ts';
import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import type { PieceAnswer } from '../../src/page/core/model-questions.ts';

/** The folded model of the page: what it holds, and what of it moves when. */

test('one stroke moves at a time; before it all are made, behind it none', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 12 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (of, part) => {
        const order = Array.from({ length: of }, (_, i) => [`f${i}`]);
        const strokes = part * of;
        const shares = [...sharesAt(order, strokes).values()];
        const { stroke, share } = strokeAt(strokes, of);
        expect(shares.slice(0, stroke).every((s) => s === 1)).toBe(true);
        expect(shares[stroke]).toBeCloseTo(share, 9);
        expect(shares.slice(stroke + 1).every((s) => s === 0)).toBe(true);
        expect(stroke + share).toBeCloseTo(strokes, 9);
      },
    ),
  );
});

const channel = async () => {
  const template = (
    await (FAMILIES.get('bracket-channel') as NonNullable<ReturnType<typeof FAMILIES.get>>)()
  ).default;
  const made = makeParts(template, template.examples[0]?.inputs ?? {});
  if (!made.ok || made.parts[0] === undefined || made.parts[0].stopped) throw new Error('stopped');
  return made.parts[0];
};

/** All corners of the finished model in the whole, hinge upon hinge. */
const placesOf = ({ panels, hinges, root, pose }: PieceAnswer): string[] => {
  const all: string[] = [];
  const put = (at: Pose, places: Float32Array): void => {
    for (let i = 0; i < places.length; i += 3)
      all.push(keyOf(posePoint(at, [places[i] ?? 0, places[i + 1] ?? 0, places[i + 2] ?? 0])));
  };
  const walk = (id: string, at: Pose): void => {
    put(at, panels.find((p) => p.id === id)?.skin.places ?? new Float32Array());
    for (const { parent, child, poses, stages } of hinges) {
      if (parent !== id) continue;
      put(at, stages.at(-1)?.places ?? new Float32Array());
      walk(child, composePoses(at, poses.at(-1) as Pose));
    }
  };
  walk(root, pose);
  return all;
};

const keyOf = (p: readonly number[]): string => p.map((v) => (v + 1000).toFixed(2)).join(' ');

test('the model holds every panel and every bend, and finished it is the folded mesh', async () => {
  const part = await channel();
  const [piece] = partModel(part)?.pieces ?? [];
  if (piece === undefined) throw new Error('no model');
  expect(piece.panels.map(({ id }) => id)).toEqual(part.part.panels.map(({ id }) => id));
  expect(piece.hinges.map(({ fold }) => fold).toSorted()).toEqual(
    part.part.folds.map(({ id }) => id).toSorted(),
  );
  expect(piece.order.flat().toSorted()).toEqual(part.part.folds.map(({ id }) => id).toSorted());
  const chord = Math.max(part.flat.widthMm, part.flat.heightMm) / 800;
  const mesh = foldedMesh(part.part, part.flat, chord);
  const asked = new Set((mesh?.points ?? []).map(keyOf));
  const found = new Set(placesOf(piece));
  const missing = [...asked].filter((key) => !found.has(key));
  // Rounded to a hundredth, a few lie on the edge between two figures.
  expect(missing.length / asked.size).toBeLessThan(0.05);
});

test('the section of a stroke moves with it, and there is none of a step beyond the plan', async () => {
  const part = await channel();
  const pictures = [0, 0.5, 1].map((share) => strokeSection(part, 1, share));
  expect(new Set(pictures).size).toBe(3);
  expect(pictures[2]).toContain('90');
  expect(strokeSection(part, 99, 0.5)).toBeNull();
});
