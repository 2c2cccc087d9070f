import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { hasStop } from '../../src/model/finding.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { reroot } from '../../src/model/reroot.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { randomPart } from '../helpers/random-part.ts';

const RULE = { id: 'din6935' } as const;
const upToSquare = fc.oneof(fc.constant(90), fc.integer({ min: 1, max: 90 }));
const any = fc.oneof(fc.constantFrom(90, 180, 135), fc.integer({ min: 1, max: 180 }));
const RUNS = { numRuns: fuzzRuns(300) };

describe('random plates with flanges and lips', () => {
  it('either fold back to their mould lines or say why not', () => {
    let made = 0;
    fc.assert(
      fc.property(randomPart(upToSquare), (part) => {
        const flat = flatten(part, RULE);
        if (hasStop(flat.findings)) return;
        made++;
        expect(toFlatten(flat.outline).isValid()).toBe(true);
        expectFoldsBack(part, flat);
      }),
      RUNS,
    );
    expect(made).toBeGreaterThan(RUNS.numRuns / 3);
  });

  it('mirrored and from another root are the same part, whatever their angles', () => {
    fc.assert(
      fc.property(randomPart(any), fc.nat(), (part, pick) => {
        const flat = flatten(part, RULE);
        const other = flatten(mirrorPart(part), RULE);
        const root = part.panels[pick % part.panels.length]?.id ?? part.root;
        const turned = flatten(reroot(part, root), RULE);
        expect(hasStop(other.findings)).toBe(hasStop(flat.findings));
        expect(hasStop(turned.findings)).toBe(hasStop(flat.findings));
        if (hasStop(flat.findings)) return;
        expect(toFlatten(flat.outline).isValid()).toBe(true);
        expect(signedArea(other.outline)).toBeCloseTo(signedArea(flat.outline), 5);
        expect(signedArea(turned.outline)).toBeCloseTo(signedArea(flat.outline), 5);
        expect(foldedSizeMm(mirrorPart(part), other)).toEqual(
          foldedSizeMm(part, flat).map((v) => expect.closeTo(v, 5)),
        );
      }),
      RUNS,
    );
  });
});
