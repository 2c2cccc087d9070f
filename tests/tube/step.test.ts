import { expect, test } from 'vitest';
import tubeBent from '../../templates/tube-bent/index.ts';
import { makeFiles } from '../../src/use/make/make-files.ts';
import { examplesIn } from '../helpers/extent.ts';
import { readStep } from '../helpers/step.ts';
import { bentOf } from '../helpers/tubes-of-kind.ts';

test.each(examplesIn(tubeBent))(
  'the kernel reads the STEP of a tube as one sound body of its metal: $title',
  async ({ inputs }) => {
    const made = await makeFiles({ template: tubeBent, inputs, outputs: ['step'] });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    for (const { result, tube } of bentOf(made.tubes)) {
      const file = made.files.find(({ name }) => name === `${result.name}.step`);
      const body = await readStep(file?.contents as string);
      expect(body).toMatchObject({ solids: 1, isValid: true });
      // A tube keeps its section along a bend, so its metal is its section times its middle line (Pappus).
      const section = Math.PI * (tube.diameterMm - tube.wallMm) * tube.wallMm;
      expect(body.volume / (section * tube.sheet.finishedMm)).toBeCloseTo(1, 8);
    }
  },
);

test('it lies where its points are', async () => {
  const made = await makeFiles({
    template: tubeBent,
    inputs: { span: 1000, height: 922.5, diameter: 45, wall: 2.5, radius: 135 },
    outputs: ['step'],
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const step = made.files.find(({ name }) => name.endsWith('.step'));
  const { size } = await readStep(step?.contents as string);
  expect(size).toEqual([1045, 45, 922.5].map((mm) => expect.closeTo(mm, 4)));
});
