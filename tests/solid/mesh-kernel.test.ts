import { describe, expect, it } from 'vitest';
import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import { FAMILIES } from '../../templates/index.ts';
import { make } from '../helpers/check-template.ts';
import { foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { meshArea, meshVolume } from '../helpers/mesh.ts';
import { loadSolids } from '../helpers/solid.ts';

/**
 * Families whose bends are all plain rectangles of the blank, so that the kernel can build the
 * whole of the body.
 */
const WHOLE = ['bracket-angle', 'bracket-zed', 'bracket-hat', 'bracket-channel', 'plate', 'strap'];
const SAG = 0.005;

describe('the mesh beside the body that a solid kernel folds from the same blank', async () => {
  const withSolids = await loadSolids();

  it.each(WHOLE)('%s: volume, and no point of it off the body', async (family) => {
    const [example] = (await FAMILIES.get(family)?.())?.default.examples ?? [];
    for (const { part, flat } of await make(family, { ...example?.inputs, rule: 'k:0.38' })) {
      const mesh =
        part === undefined || flat === undefined ? undefined : foldedMesh(part, flat, SAG);
      if (part === undefined || flat === undefined || mesh === undefined)
        throw new Error('no part');
      withSolids((solids) => {
        const { panels, bends } = foldBlank(solids, part, flat);
        const whole = solids.move(
          solids.union([...panels.values(), ...bends.values()]),
          seatOnLargest(part, flat),
        );
        expect(bends.size).toBe(flat.bends.length);
        expect(Math.abs(meshVolume(mesh) - solids.volume(whole))).toBeLessThan(
          meshArea(mesh) * SAG,
        );
        // One in some, since each question takes the kernel a while.
        for (let i = 0; i < mesh.points.length; i += 29)
          expect(solids.distanceTo(whole, mesh.points[i] ?? [0, 0, 0])).toBeLessThan(1e-6);
      });
    }
  });
});
