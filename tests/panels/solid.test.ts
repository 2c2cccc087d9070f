import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { hasStop } from '../../src/model/finding.ts';
import type { Part } from '../../src/model/part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { examplesIn, fixedRuns } from '../helpers/extent.ts';
import { blankSolid, foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { randomPanels } from '../helpers/random-panels.ts';
import { loadSolids } from '../helpers/solid.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** With the neutral line in mid-sheet folding keeps the volume (Euler-Bernoulli bending). */
const HALF = { id: 'k', k: 0.5 } as const;

const panelsFamily = await loadFamily('panels');
const withSolids = await loadSolids();

/** With the rule of the part for each fold, so that each keeps its volume. */
const withoutOwnRules = (part: Part): Part => ({
  ...part,
  folds: part.folds.map(
    ({ id, parent, child, angleDeg, direction, insideRadiusMm, teardropMm }) => ({
      id,
      parent,
      child,
      angleDeg,
      direction,
      insideRadiusMm,
      ...(teardropMm !== undefined && { teardropMm }),
    }),
  ),
});

/** Folds the blanks of inputs by the kernel; how many it could. */
function expectSound(inputs: Readonly<Record<string, unknown>>): boolean {
  const made = makeParts(panelsFamily, { ...inputs, hand: 'left' }, UNPLANNED);
  const [first] = made.ok ? made.parts : [];
  if (first === undefined || first.stopped || first.part.folds.some((f) => f.slots !== undefined))
    return false;
  const plain = withoutOwnRules(first.part);
  for (const part of [plain, mirrorPart(plain)]) {
    const flat = flatten(part, HALF);
    if (hasStop(flat.findings)) return false;
    withSolids((solids) => {
      const { panels, bends } = foldBlank(solids, part, flat);
      for (const { first: one, second, joined } of pairsOf(part)) {
        const [a, b] = [panels.get(one), panels.get(second)];
        if (a === undefined || b === undefined) throw new Error(`${one} or ${second} is lost`);
        if (!joined || solids.distance(a, b) < 1e-6)
          expect(solids.commonVolume(a, b), `${one} and ${second}`).toBeLessThan(1e-3);
      }
      const volume = flat.areaMm2 * part.thicknessMm;
      expect(solids.volume(blankSolid(solids, flat)) / volume).toBeCloseTo(1, 7);
      const pieces = [...panels.values(), ...bends.values()];
      const body = solids.union(pieces);
      const size = solids.size(solids.move(body, seatOnLargest(part, flat)));
      const said = foldedSizeMm(part, flat);
      const isWhole = bends.size === flat.bends.length;
      for (const [axis, mm] of said.entries()) {
        expect(mm).toBeGreaterThan((size[axis] ?? NaN) - 1e-5);
        if (isWhole) expect(mm).toBeCloseTo(size[axis] ?? NaN, 4);
      }
      const total = pieces.reduce((sum, piece) => sum + solids.volume(piece), 0);
      // A hem has a rule of its own.
      if (flat.bends.some(({ kFactor }) => kFactor !== 0.5)) return;
      expect(total / volume).toBeLessThan(1 + 1e-6);
      if (isWhole) expect(total / volume).toBeCloseTo(1, 6);
    });
  }
  return true;
}

describe('parts of panels, folded by the kernel', () => {
  it('every example has its volume and its size, and no panel in another', () => {
    const folded = examplesIn(panelsFamily).filter(({ inputs }) => expectSound(inputs));
    expect(folded).toHaveLength(examplesIn(panelsFamily).length);
  });

  it('so have random trees', () => {
    let folded = 0;
    fc.assert(
      fc.property(randomPanels(8), (inputs) => {
        if (expectSound(inputs)) folded++;
      }),
      { numRuns: fixedRuns(60) },
    );
    expect(folded).toBeGreaterThan(0);
  });
});
