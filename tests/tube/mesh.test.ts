import { describe, expect, test } from 'vitest';
import tubeBent from '../../templates/tube-bent/index.ts';
import { writeGlb } from '../../src/solid/glb.ts';
import { tubeMassKg } from '../../src/tube/tube-part.ts';
import { tubeMesh } from '../../src/tube/tube-mesh.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { examplesIn, largeSize } from '../helpers/extent.ts';
import { validateGltf } from '../helpers/gltf-validator.ts';
import { bentOf } from '../helpers/tubes-of-kind.ts';
import { meshSize, meshVolume, openEdges } from '../helpers/mesh.ts';

const tubesOf = (inputs: Readonly<Record<string, unknown>>) => {
  const made = makeParts(tubeBent, inputs);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return bentOf(made.tubes);
};

describe('the model of a tube', () => {
  test.each(examplesIn(tubeBent).map(({ title, inputs }) => [title, inputs] as const))(
    'of %s is closed, and holds the metal of its length',
    (_, inputs) => {
      for (const { tube } of tubesOf(inputs)) {
        const mesh = tubeMesh(tube, 'tube', 0.02);
        expect(openEdges(mesh.triangles.map(({ corners }) => corners))).toEqual([]);
        // A tube keeps its section along a bend, so its metal is its section times its middle line
        // (Pappus); chords take a little off.
        const kg = meshVolume(mesh) * tube.grade.densityKgM3.value * 1e-9;
        expect(kg / tubeMassKg(tube, tube.sheet.finishedMm)).toBeCloseTo(1, 2);
        expect(tube.massKg).toBe(tubeMassKg(tube, tube.sheet.finishedMm));
      }
    },
  );

  test('of a hoop is as wide and high as it was asked', () => {
    const [hoop] = tubesOf({ span: 1000, height: 922.5, diameter: 45, wall: 2.5, radius: 135 });
    if (hoop === undefined) throw new Error('no hoop');
    const [x, y, z] = meshSize(tubeMesh(hoop.tube, 'hoop', 0.01));
    expect([x, y, z]).toEqual([1045, 45, 922.5].map((mm) => expect.closeTo(mm, 1)));
  });

  test('is a GLB without issues for the validator of its makers', async () => {
    const [tube] = tubesOf({ legs: '200; 90, 200; 45@90, 100', diameter: 20, wall: 2, radius: 60 });
    if (tube === undefined) throw new Error('no tube');
    const { issues } = await validateGltf(writeGlb(tubeMesh(tube.tube, 'tube', 0.1), 'mark'));
    expect([issues.numErrors, issues.numWarnings]).toEqual([0, 0]);
  });

  test('of a thousand bends, or a fortieth, is held to as many points as viewers turn', () => {
    const legs = ['300', ...Array.from({ length: largeSize(1000) }, () => '90@90, 200')].join(';');
    const [tube] = tubesOf({ legs, diameter: 10, wall: 1, radius: 40 });
    if (tube === undefined) throw new Error('no tube');
    const { points, triangles } = tubeMesh(tube.tube, 'long', 0.02);
    expect(points.length).toBeLessThanOrEqual(150_000);
    expect(triangles.length).toBeGreaterThan(1000);
  });
});
