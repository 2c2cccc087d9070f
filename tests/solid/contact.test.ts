import fc from 'fast-check';
import { expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { contactsOf } from '../../src/fold/contact.ts';
import { polygon } from '../../src/geometry/loop.ts';
import { hasStop } from '../../src/model/finding.ts';
import type { Part } from '../../src/model/part.ts';
import { fixedRuns, shareOf } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { loadSolids } from '../helpers/solid.ts';
import { CONTACT_GAP_MM } from '../../src/geometry/tolerance.ts';

const HALF = { id: 'k', k: 0.5 } as const;

/** Strips of tapered legs, folded this way and that through any angle: some run into themselves. */
const strips: fc.Arbitrary<Part> = fc
  .array(
    fc.record({
      length: fc.integer({ min: 14, max: 70 }),
      taper: fc.integer({ min: -6, max: 6 }),
      angle: fc.integer({ min: 20, max: 150 }),
      up: fc.boolean(),
    }),
    { minLength: 4, maxLength: 6 },
  )
  .map((legs) =>
    part(
      legs.map(({ length, taper }, i) =>
        panel(`leg ${i}`, polygon([0, 0], [40, 0], [40 + taper, length], [taper, length])),
      ),
      legs
        .slice(1)
        .map(({ angle, up }, i) =>
          fold(
            `F${i}`,
            { panel: `leg ${i}`, edge: 2 },
            { panel: `leg ${i + 1}`, edge: 0 },
            angle,
            up ? 'up' : 'down',
            2,
          ),
        ),
      { thicknessMm: 2 },
    ),
  );

test('panels meet just where a solid kernel finds them in one another', async () => {
  const withSolids = await loadSolids();
  let met = 0;
  fc.assert(
    fc.property(strips, (strip) => {
      const flat = flatten(strip, HALF);
      if (hasStop(flat.findings)) return;
      const contacts = contactsOf(strip, flat);
      withSolids((solids) => {
        const { panels } = foldBlank(solids, strip, flat);
        for (const { first, second } of pairsOf(strip)) {
          const [a, b] = [panels.get(first), panels.get(second)];
          if (a === undefined || b === undefined)
            throw new Error(`${first} or ${second} is not in the blank`);
          const common = solids.commonVolume(a, b);
          const contact = contacts.find(
            ({ between }) => between.includes(first) && between.includes(second),
          );
          if (contact !== undefined) {
            met += 1;
            expect(common, `${first} and ${second}`).toBeGreaterThan(0);
          } else {
            // What is no deeper than the tolerance is no larger than a face by that depth; no face
            // is larger than 70 by 52.
            expect(common, `${first} and ${second}`).toBeLessThan(CONTACT_GAP_MM * 70 * 52);
          }
        }
      });
    }),
    { numRuns: fixedRuns(60) },
  );
  expect(met).toBeGreaterThan(shareOf(10));
});
