import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { foldedMesh, foldedView, pictureSvg } from '../../src/index.ts';
import { PANEL_CHORD_MM } from '../../src/geometry/tolerance.ts';
import panels from '../../templates/panels/index.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/**
 * Each example of the family has a picture of the folded part in `templates/demo/panels/`, which the
 * README shows. `npm test -- tests/panels/pictures.test.ts -u` draws them anew.
 */
describe.each(panels.examples)('$title', ({ inputs }) => {
  test('has its picture', async () => {
    const made = madeOnce(panels, { ...inputs, hand: 'left' }, UNPLANNED);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect(made.parts.length).toBeGreaterThan(0);
    for (const whole of made.parts) {
      if (whole.stopped) throw new Error(`${whole.result.name} is stopped`);
      const { part, flat, result } = whole;
      const mesh = foldedMesh(part, flat, PANEL_CHORD_MM);
      if (mesh === undefined) throw new Error(`${result.name} has no shape`);
      const labels = new Map(result.bends.map(({ id }) => [id, id]));
      const picture = foldedView(mesh, { widthMm: 70, heightMm: 55, labels });
      const name = result.name.replace(/-L$/, '');
      const file = join('..', '..', 'templates', 'demo', 'panels', `${name}.svg`);
      await expect(`${pictureSvg(picture, name)}\n`).toMatchFileSnapshot(file);
    }
  });
});
