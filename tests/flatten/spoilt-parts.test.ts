import fc from 'fast-check';
import { expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { partFlaws } from '../../src/flatten/part-flaws.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { angle, box } from '../helpers/parts.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { TREES } from '../helpers/trees.ts';

const K = { id: 'k', k: 0.42 } as const;
const SOUND = angle(60, 40, 80, 90, 3, 3);

test('parts that break naive engines are parts all the same, on either hand', () => {
  expect(TREES.length).toBeGreaterThan(5);
  for (const { part: tree } of TREES)
    expect([partFlaws(tree), partFlaws(mirrorPart(tree))]).toEqual([[], []]);
});

/** A part with one of its values, wherever it stands, made into another. */
const spoilt = (whole: Part, pick: number, value: unknown): Part => {
  const copy = structuredClone(whole) as unknown as Record<string, unknown>;
  const leaves: (readonly [holder: Record<string, unknown>, key: string])[] = [];
  const visit = (holder: Record<string, unknown>): void => {
    for (const key of Object.keys(holder)) {
      const inner = holder[key];
      if (typeof inner === 'object' && inner !== null) visit(inner as Record<string, unknown>);
      else if (typeof inner === typeof value) leaves.push([holder, key]);
    }
  };
  visit(copy);
  const [holder, key] = leaves[pick % leaves.length] as (typeof leaves)[number];
  if (!['direction', 'measure', 'kind', 'shape', 'style'].includes(key)) holder[key] = value;
  return copy as unknown as Part;
};

test('whatever value of a part is spoilt, it is laid flat or told, and never throws', () => {
  const values = fc.oneof(
    fc.constantFrom<unknown>(NaN, Infinity, -Infinity, -1, 0, 0.5, 1, 2, 3, 7, 1e9, -1e9, 1e-9),
    fc.double(),
    fc.constantFrom<unknown>('', 'x', 'base', 'leg A', 'A', '__proto__', 'constructor'),
  );
  fc.assert(
    fc.property(
      fc.constantFrom(...TREES.map((t) => t.part), SOUND, box(60, 40, 20, 90, 3, 3)),
      fc.nat(),
      values,
      (whole, pick, value) => {
        const { findings, outline } = flatten(spoilt(whole, pick, value), K);
        if (outline.length === 0)
          expect(
            findings.filter((f) => f.severity === 'stop' && f.message.length > 20),
          ).not.toEqual([]);
      },
    ),
    { numRuns: fuzzRuns(500) },
  );
});
