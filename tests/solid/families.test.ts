import { describe, expect, test } from 'vitest';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { FAMILIES } from '../../templates/index.ts';
import { make } from '../helpers/check-template.ts';
import { IS_FULL, oneOfEach } from '../helpers/extent.ts';
import { blankSolid, foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { loadSolids } from '../helpers/solid.ts';

/**
 * Every example of every family, both hands; with the neutral line in mid-sheet folding keeps the
 * volume.
 */
const withoutOwnRules = (inputs: Readonly<Record<string, unknown>>): Record<string, unknown> => {
  const { flanges, ...rest } = inputs;
  if (!Array.isArray(flanges)) return { ...inputs };
  // A flange of panels may go by a rule of its own.
  const plain = flanges.map((flange: unknown) =>
    typeof flange === 'object' ? { ...flange, rule: undefined } : flange,
  );
  return { ...rest, flanges: plain };
};

const examples: {
  readonly name: string;
  readonly family: string;
  readonly inputs: Record<string, unknown>;
}[] = [];
for (const [family, load] of FAMILIES) {
  // The facets of ducts are given on the middle of the sheet, and rolled walls have none: they have
  // tests of their own.
  if (['duct-transition', 'duct-between', 'shell', 'cone', 'elbow'].includes(family)) continue;
  // These have one too, and take longest: what is short leaves them to it.
  if (!IS_FULL && ['baffle', 'duct-box', 'heel-rest', 'strut-brace', 'tank'].includes(family))
    continue;
  for (const { title, inputs } of (await load()).default.examples)
    examples.push({
      name: `${family}: ${title}`,
      family,
      inputs: { ...withoutOwnRules(inputs), rule: 'k:0.5', hand: 'both' },
    });
}

describe('by a solid kernel', async () => {
  const withSolids = await loadSolids();

  test.each(oneOfEach(examples, ({ family }) => family))(
    '$name: the metal of its blank, no panel in another, the size it is said to have',
    async ({ family, inputs }) => {
      for (const { part, flat } of await make(family, inputs)) {
        if (part === undefined || flat === undefined) throw new Error('the example makes no part');
        // A crease is given on the middle of the sheet too: tests/solid/tank-sections has those.
        if (family === 'tank-sections' && part.folds.some((f) => f.midSurface === true)) continue;
        withSolids((solids) => {
          const volume = flat.areaMm2 * part.thicknessMm;
          expect(solids.volume(blankSolid(solids, flat)) / volume).toBeCloseTo(1, 9);
          const { panels, bends } = foldBlank(solids, part, flat);
          for (const { first, second } of pairsOf(part)) {
            const [a, b] = [panels.get(first), panels.get(second)];
            if (a === undefined || b === undefined)
              throw new Error(`${first} or ${second} is not in the blank`);
            expect(solids.commonVolume(a, b), `${first} and ${second}`).toBeLessThan(1e-6);
          }
          const pieces = [...panels.values(), ...bends.values()];
          const size = solids.size(solids.move(solids.union(pieces), seatOnLargest(part, flat)));
          const said = foldedSizeMm(part, flat);
          // Bends with slanted or relieved ends are no bodies the kernel can build: then what it has
          // is a part of the whole.
          if (bends.size < flat.bends.length)
            return said.forEach((v, axis) => expect(v).toBeGreaterThan((size[axis] ?? NaN) - 1e-6));
          expect(pieces.reduce((sum, p) => sum + solids.volume(p), 0) / volume).toBeCloseTo(1, 6);
          expect(said).toEqual(size.map((v) => expect.closeTo(v, 6)));
        });
      }
    },
  );
});
