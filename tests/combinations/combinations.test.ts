import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Template } from '../../src/forms/template.ts';
import { describeInputs } from '../../src/forms/read.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { Shop } from '../../src/model/shop.ts';
import { proveDxf } from '../../src/proof/proof.ts';
import { readPart } from '../../src/proof/read-part.ts';
import { FAMILIES } from '../../templates/index.ts';
import { type Chosen, everyTwo } from '../helpers/covering.ts';
import { byTurns, fuzzRuns, IS_FULL, oneOfEach } from '../helpers/extent.ts';
import { SENDS_OUT } from '../helpers/unplanned.ts';

/**
 * Every example made in every way that a part can be made. What was tried one by one was broken
 * together: nicks stopped every part, since the proof did not know them. Any two choices meet at
 * least once here; `npm run fuzz` tries more.
 */
const CHOICES = {
  marks: ['lines', 'nicks', 'none'],
  wideBends: ['as planned', 'bumped'],
  kerf: [0, 0.2, 1.5, 'shop'],
  drilled: ['crosses', 'pierces'],
  layers: ['kept', 'merged'],
  foldLines: ['in', 'out'],
  curves: ['arcs', 'chords'],
  units: ['mm', 'inch'],
  version: ['r2000', 'r12'],
  cutOnly: [false, true],
  hand: ['left', 'right', 'both'],
  measure: ['outside', 'inside'],
  given: ['mm', 'inch'],
} as const;
type Way = Chosen<typeof CHOICES>;

const ROWS = everyTwo(CHOICES);

/**
 * Cut by laser: the cut of a plasma table is as wide as the usual reliefs, and stops what is made
 * by it.
 */
const shopOf = ({ layers, foldLines, curves, units }: Way): Shop => ({
  ...SENDS_OUT,
  cutters: SENDS_OUT.cutters.map((cutter) => ({
    ...cutter,
    import: { layers, foldLines, curves, units },
  })),
});

/** The same lengths in inches, as a flag or a file gives them. */
const inInches = (
  template: Template,
  inputs: Readonly<Record<string, unknown>>,
): Record<string, unknown> => {
  const lengths = new Set(
    describeInputs(template)
      .filter(({ kind }) => kind === 'length')
      .map(({ name }) => name),
  );
  return Object.fromEntries(
    Object.entries(inputs).map(([name, value]) => [
      name,
      lengths.has(name) && typeof value === 'number' ? `${value / 25.4}in` : value,
    ]),
  );
};

const inputsOf = (
  template: Template,
  example: Readonly<Record<string, unknown>>,
  { hand, measure, given }: Pick<Way, 'hand' | 'measure' | 'given'>,
): Record<string, unknown> => ({
  ...(given === 'inch' ? inInches(template, example) : example),
  hand,
  ...(describeInputs(template).some(({ name }) => name === 'measure') &&
    measure === 'inside' && { measure }),
});

const partsOf = (
  template: Template,
  inputs: Readonly<Record<string, unknown>>,
  way: Partial<Way>,
): readonly MadePart[] => {
  const made = makeParts(template, inputs, {
    cutOnly: way.cutOnly ?? false,
    dxfVersion: way.version ?? 'r2000',
    foldAt: 'service',
    ...(way.marks !== undefined && {
      marks: way.marks,
      ...(way.wideBends === 'bumped' && { wideBends: { way: 'bumped' } }),
      kerf: way.kerf ?? 0,
      drilled: way.drilled ?? 'crosses',
      shop: shopOf(way as Way),
    }),
  });
  if (!made.ok)
    throw new Error(made.problems.map(({ input, allowed }) => `${input}: ${allowed}`).join('\n'));
  return made.parts;
};

const stopsOf = ({ result }: MadePart): string[] =>
  result.findings
    .filter(({ severity }) => severity === 'stop')
    .map(({ rule, message }) => `${rule}: ${message}`);

/** What of an example is the same however it is made, in each hand and measure. */
const plainOf = (
  template: Template,
  example: Readonly<Record<string, unknown>>,
): ((way: Way) => readonly MadePart[]) => {
  const known = new Map<string, readonly MadePart[]>();
  return ({ hand, measure }) => {
    const key = `${hand} ${measure}`;
    const parts =
      known.get(key) ??
      partsOf(template, inputsOf(template, example, { hand, measure, given: 'mm' }), {});
    known.set(key, parts);
    return parts;
  };
};

/**
 * A cut too wide for a small slot is the only thing that making a part one way may stop, and it
 * stops before any file.
 */
const ofMaking = ({ kerf }: Way, stop: string): boolean =>
  kerf === 1.5 && stop.startsWith('kerf-too-wide');

function expectSame(made: MadePart, plain: MadePart, way: Way): 'proved' | 'stopped' {
  const stops = stopsOf(made);
  if (plain.stopped) {
    expect(stops.length).toBeGreaterThan(0);
    return 'stopped';
  }
  if (stops.length > 0) {
    expect(stops.filter((stop) => !ofMaking(way, stop))).toEqual([]);
    return 'stopped';
  }
  const [{ blank, folded, proof }, of] = [made.result, plain.result];
  expect(proof?.worstMm).toBeLessThan(0.01);
  expect(blank?.widthMm).toBeCloseTo(of.blank?.widthMm ?? NaN, 6);
  expect(folded?.sizeMm.map((mm) => mm.toFixed(6))).toEqual(
    of.folded?.sizeMm.map((mm) => mm.toFixed(6)),
  );
  expectProvedLater(made);
  return 'proved';
}

/**
 * As `proof FILE` measures it on another day: the file as it lies in the folder, by what part.json
 * says of it.
 */
function expectProvedLater({ files, result }: MadePart): void {
  const dxf = files().find(({ name }) => name.endsWith('.dxf'));
  const kept = readPart(JSON.parse(JSON.stringify(result)), dxf?.name ?? '');
  if (!kept.ok) throw new Error(kept.given);
  const again = proveDxf(dxf?.contents ?? '', kept.asked);
  if (!again.ok) throw new Error(again.reason);
  expect(again.proof.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
  expect(again.proof.worstMm).toBeCloseTo(result.proof?.worstMm ?? NaN, 5);
}

const wayText = (way: Way): string =>
  Object.entries(way)
    .map(([kind, value]) => `${kind} ${value}`)
    .join(', ');

const loaded = await Promise.all(
  [...FAMILIES.values()].map(async (load) => (await load()).default as Template),
);

describe.each(loaded.map((template, place) => [template.family, template, place] as const))(
  '%s',
  (_family, template, place) => {
    test.each(
      oneOfEach(
        template.examples.map(({ inputs }, i) => [i + 1, inputs] as const),
        () => template,
      ),
    )('example %i is the same part however it is made', (nth, example) => {
      // Neighbours among the examples share the ways between them; a family has all of them.
      const ways = byTurns(ROWS, place + nth, IS_FULL ? 2 : 6);
      const plain = plainOf(template, example);
      let proved = 0;
      const check = (way: Way): void => {
        const parts = partsOf(template, inputsOf(template, example, way), way);
        const originals = plain(way);
        expect(parts.map(({ result }) => result.name)).toEqual(
          originals.map(({ result }) => result.name),
        );
        for (const [i, part] of parts.entries())
          if (expectSame(part, originals[i] as MadePart, way) === 'proved') proved++;
      };
      for (const way of ways) {
        try {
          check(way);
        } catch (error) {
          throw new Error(`made with ${wayText(way)}`, { cause: error });
        }
      }
      // Outside sizes read as inside ones may make no part; read as they were meant they do.
      expect(proved).toBeGreaterThanOrEqual(ways.length / 2);
      const more = fuzzRuns(0);
      if (more > 0)
        fc.assert(
          fc.property(
            fc.record(
              Object.fromEntries(
                Object.entries(CHOICES).map(([kind, ones]) => [kind, fc.constantFrom(...ones)]),
              ),
            ),
            (way) => check(way as Way),
          ),
          { numRuns: Math.ceil(more / 100) },
        );
    });
  },
);

test('any two choices meet', () => {
  const kinds = Object.entries(CHOICES);
  const met = (a: string, x: unknown, b: string, y: unknown): boolean =>
    ROWS.some((row) => Reflect.get(row, a) === x && Reflect.get(row, b) === y);
  expect(
    kinds.flatMap(([a, ofA]) =>
      kinds.flatMap(([b, ofB]) =>
        a < b ? ofA.flatMap((x: unknown) => ofB.filter((y: unknown) => !met(a, x, b, y))) : [],
      ),
    ),
  ).toEqual([]);
  expect(ROWS.length).toBeLessThan(40);
});
