import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { hasStop } from '../../src/model/finding.ts';
import type { Part } from '../../src/model/part.ts';
import { reroot } from '../../src/model/reroot.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { partAsPanels } from '../../src/use/panels/as-panels.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { DxfParser } from '../helpers/dxf-parser.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { randomPanels } from '../helpers/random-panels.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const panels = await loadFamily('panels');

/** Thirty panels: the base, and this many flanges at most. */
const MOST_FLANGES = 29;

type Whole = Extract<MadePart, { readonly stopped: false }>;

/** What inputs make; a problem must say what was given and what is allowed. */
const madeOf = (inputs: Readonly<Record<string, unknown>>): readonly MadePart[] => {
  const made = makeParts(panels, inputs, UNPLANNED);
  if (made.ok) return made.parts;
  expect(made.problems.length).toBeGreaterThan(0);
  for (const { input, given, allowed } of made.problems) {
    expect(input).toMatch(/^(base|flanges|corners)\b/);
    expect(given).not.toBe('');
    expect(allowed).not.toBe('');
  }
  return [];
};

const wholeOf = (parts: readonly MadePart[]): readonly Whole[] =>
  parts.flatMap((part) => (part.stopped ? [] : [part]));

/** The file by a reader of somebody else's: what is cut is closed, and as large as it is said. */
function expectReadByOthers(part: Whole): void {
  const dxf = part.files().find(({ name }) => name.endsWith('.dxf'))?.contents ?? '';
  const entities = new DxfParser().parseSync(dxf)?.entities ?? [];
  const outlines = entities.filter(({ layer }) => layer === 'OUTLINE') as unknown as {
    readonly shape?: boolean;
    readonly vertices: readonly { readonly x: number; readonly y: number }[];
  }[];
  expect(outlines).toHaveLength(1);
  expect(outlines[0]?.shape).toBe(true);
  expect(outlines[0]?.vertices).toHaveLength(part.flat.outline.length);
  const box = loopExtents(part.flat.outline);
  expect(part.result.blank.widthMm).toBeCloseTo((box?.maxX ?? 0) - (box?.minX ?? 0), 6);
}

const anglesOf = ({ folds }: Part): number[] => folds.map(({ angleDeg }) => angleDeg);

describe('random trees of up to thirty panels', () => {
  test('are a problem, a finding or a proved part, alike in both hands', () => {
    let [whole, large] = [0, 0];
    fc.assert(
      fc.property(randomPanels(MOST_FLANGES), (inputs) => {
        const parts = madeOf(inputs);
        const [left, right] = parts;
        expect(left?.stopped).toBe(right?.stopped);
        for (const part of parts) {
          const stops = part.result.findings.filter(({ severity }) => severity === 'stop');
          // That a file does not fold to what was asked would be a mistake of the tool's.
          expect(stops.map(({ rule, message }) => `${rule}: ${message}`)).not.toContainEqual(
            expect.stringMatching(/^(proof-failed|panel-outline)/),
          );
          expect(stops.length > 0).toBe(part.stopped);
        }
        const made = wholeOf(parts);
        for (const part of made) {
          expect(part.result.proof.worstMm).toBeLessThan(0.01);
          expect(toFlatten(part.flat.outline).isValid()).toBe(true);
          expectReadByOthers(part);
        }
        const [one, other] = made;
        if (one === undefined || other === undefined) return;
        whole++;
        if (one.part.panels.length > 6) large++;
        expect(other.result.blank.areaMm2).toBeCloseTo(one.result.blank.areaMm2, 4);
        expect(other.result.folded.sizeMm).toEqual(
          one.result.folded.sizeMm.map((mm) => expect.closeTo(mm, 5)),
        );
      }),
      { numRuns: fuzzRuns(200, 20) },
    );
    expect(whole).toBeGreaterThan(fuzzRuns(200, 20) / 6);
    expect(large).toBeGreaterThan(fuzzRuns(200, 20) / 60);
  });

  test('fold back by other means to where their mould lines say, mirrored and from any root', () => {
    let folded = 0;
    fc.assert(
      fc.property(randomPanels(12), fc.nat(), (inputs, pick) => {
        const [made] = wholeOf(madeOf(inputs));
        if (made === undefined || made.part.folds.length === 0) return;
        const { part } = made;
        const rule = { id: 'k', k: 0.42 } as const;
        const flat = flatten(part, rule);
        if (hasStop(flat.findings)) return;
        const root = part.panels[pick % part.panels.length]?.id ?? part.root;
        // The witness places panels by the crossing of their faces, which lies beyond 90 degrees
        // nowhere near them.
        const isUpToSquare = anglesOf(part).every((angle) => angle <= 90);
        if (isUpToSquare) expectFoldsBack(part, flat);
        for (const other of [
          mirrorPart(part),
          reroot(part, root),
          mirrorPart(reroot(part, root)),
        ]) {
          const laid = flatten(other, rule);
          expect(hasStop(laid.findings)).toBe(false);
          expect(signedArea(laid.outline)).toBeCloseTo(signedArea(flat.outline), 4);
          expect(perimeter(laid.outline)).toBeCloseTo(perimeter(flat.outline), 4);
          if (isUpToSquare) expectFoldsBack(other, laid);
        }
        if (isUpToSquare) folded++;
      }),
      { numRuns: fuzzRuns(200, 20) },
    );
    expect(folded).toBeGreaterThan(fuzzRuns(200, 20) / 20);
  });

  test('written panel by panel once more they are the same blank', () => {
    let again = 0;
    fc.assert(
      fc.property(randomPanels(8), (inputs) => {
        const [one] = wholeOf(madeOf(inputs));
        if (one === undefined) return;
        const said = partAsPanels({ template: panels, inputs, file: 'part.yaml' });
        if (!said.ok) throw new Error(JSON.stringify(said.problems));
        const [other] = wholeOf(madeOf(said.result.inputs));
        expect(other?.files()).toEqual(one.files());
        again++;
      }),
      { numRuns: fuzzRuns(100, 20) },
    );
    expect(again).toBeGreaterThan(0);
  });
});
