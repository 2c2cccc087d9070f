import * as z from 'zod';
import { describe, expect, test } from 'vitest';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import type { Template } from '../../src/forms/template.ts';
import { describeInputs, inputsJsonSchema } from '../../src/forms/read.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import type { ReportResult } from '../../src/contract/part.ts';
import { FAMILIES } from '../../templates/index.ts';
import { IS_FULL } from './extent.ts';
import { madeOnce } from './made-once.ts';
import { SENDS_OUT, UNPLANNED } from './unplanned.ts';

/**
 * The part is folded in the built-in shop and cut by the finest cutter: what a plasma table cannot
 * cut is no fault of an example.
 */
const OPTIONS = {
  cutOnly: false,
  dxfVersion: 'r2000',
  shop: { ...SENDS_OUT, machines: DEFAULT_SHOP.machines },
} as const;

/** The family of that name, or a failed test. */
export async function loadFamily(family: string): Promise<Template> {
  const load = FAMILIES.get(family);
  if (load === undefined) throw new Error(`${family} is not in the registry`);
  return (await load()).default;
}

/**
 * The parts these inputs make; inputs that cannot be read fail the test with what is wrong with
 * them.
 */
export async function make(
  family: string,
  inputs: Record<string, unknown>,
): Promise<readonly MadePart[]> {
  const made = madeOnce(await loadFamily(family), inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts;
}

/** The one part these inputs make, with its flat pattern. */
export async function makeOne(family: string, inputs: Record<string, unknown>) {
  const [part, ...more] = await make(family, inputs);
  if (
    part?.flat === undefined ||
    part.result.blank === null ||
    part.result.folded === null ||
    more.length > 0
  ) {
    throw new Error(`not one whole part: ${JSON.stringify(part?.result.findings)}`);
  }
  return { ...part, flat: part.flat, blank: part.result.blank, folded: part.result.folded };
}

/** The rules that stop a part or warn about it. */
export const rulesOf = (part: MadePart | undefined, severity: 'stop' | 'warn' | 'note'): string[] =>
  (part?.result.findings ?? []).filter((f) => f.severity === severity).map((f) => f.rule);

/**
 * Takes every example of a family through every stage, and reads its description as programs do.
 *
 * @param inShort the examples that are made in the short extent, by their place; all when left out
 */
export function checkTemplate(family: string, inShort?: readonly number[]): void {
  describe(`${family}, every example`, async () => {
    const template = await loadFamily(family);
    test('is in the registry under its own name, with a small sketch', () => {
      expect(template.family).toBe(family);
      expect(
        Math.max(...template.sketch.split('\n').map((line) => line.length)),
      ).toBeLessThanOrEqual(72);
      expect(template.sketch).toMatch(/^[\x20-\x7e\n]*$/);
      expect(template.examples.length).toBeGreaterThanOrEqual(3);
    });

    test('says of each input what it is', () => {
      const schema = inputsJsonSchema(template);
      const properties = schema['properties'] as Record<string, Record<string, unknown>>;
      for (const input of describeInputs(template)) {
        expect(input.about).toMatch(/^[A-Z].*\.$/);
        expect(properties[input.name]?.['description']).toContain(input.about);
        expect(properties[input.name]?.['minimum']).toBe(input.minimum);
        expect(properties[input.name]?.['maximum']).toBe(input.maximum);
        expect(properties[input.name]?.['default']).toBe(input.default);
      }
      expect(schema['required']).toEqual(
        describeInputs(template)
          .filter((i) => i.required)
          .map((i) => i.name),
      );
    });

    const some = template.examples.filter((_, i) => IS_FULL || (inShort?.includes(i) ?? true));
    test.each(some)('$title', ({ inputs }) => {
      // The schema, read as a program reads it, accepts the example.
      const schema = z.fromJSONSchema(
        inputsJsonSchema(template) as Parameters<typeof z.fromJSONSchema>[0],
      );
      expect(schema.safeParse(inputs).error).toBeUndefined();
      const made = madeOnce(template, inputs, OPTIONS);
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      const hand = inputs['hand'] ?? template.defaults?.hand;
      const pieces = new Set(made.parts.map((p) => p.result.piece));
      expect(made.parts).toHaveLength(pieces.size * (hand === 'both' ? 2 : 1));
      expect(new Set(made.parts.map((p) => p.result.name)).size).toBe(made.parts.length);
      for (const part of made.parts) checkPart(part);
      for (const report of made.reports) checkReport(report);
    });
  });
}

/**
 * Every figure is a number under a name of its own, and every row is as long as its table is wide.
 */
function checkReport({ figures, tables }: ReportResult): void {
  expect(new Set(figures.map((f) => f.name)).size).toBe(figures.length);
  for (const { value } of figures) expect(value).toSatisfy(Number.isFinite);
  for (const { columns, rows } of tables) {
    for (const row of rows)
      expect(row).toEqual(columns.map(() => expect.toSatisfy(Number.isFinite)));
  }
}

function checkPart(part: MadePart): void {
  // Rules about what a small shop's machines cannot make, or not with that radius; an example may
  // break them.
  const ofTheShop = ['no-fold-order', 'radius-not-given'];
  expect(
    part.result.findings.filter((f) => f.severity !== 'note' && !ofTheShop.includes(f.rule)),
  ).toEqual([]);
  const { flat, result } = part;
  if (flat === undefined || result.blank === null) throw new Error('no flat pattern');
  const holes = flat.cutouts.map((hole) =>
    hole.kind === 'round' ? (Math.PI / 4) * hole.diameterMm ** 2 : signedArea(hole.loop),
  );
  const metal = signedArea(flat.outline) - holes.reduce((sum, area) => sum + area, 0);
  expect(result.blank.areaMm2).toBeCloseTo(metal, 6);
  expect(result.blank.cutLengthMm).toBeGreaterThanOrEqual(perimeter(flat.outline));
  expect(result.blank.pierces).toBe(1 + flat.cutouts.length);
  expect(Math.min(...(result.folded?.sizeMm ?? []))).toBeGreaterThanOrEqual(
    flat.thicknessMm - 1e-9,
  );
  const files = part.files();
  expect(files.map((file) => file.name.replace(/^.*\./, ''))).toEqual(['dxf', 'svg']);
  expect(part.files()).toEqual(files);
}
