import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import type { ProofResult } from '../../src/contract/proof.ts';
import { readBuilt } from '../../src/forms/built.ts';
import { describeInputs, readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import type { Cutout, Part } from '../../src/model/part.ts';
import { asPanels } from '../../src/panels/as-panels.ts';
import { buildPanels } from '../../src/panels/build.ts';
import { type MakeOptions, makeParts } from '../../src/use/make/make-parts.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { partAsPanels } from '../../src/use/panels/as-panels.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { examplesIn, inTurns } from '../helpers/extent.ts';
import { SENDS_OUT, UNPLANNED } from '../helpers/unplanned.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';

type Inputs = Readonly<Record<string, unknown>>;

const panelsFamily = await loadFamily('panels');
const loaded = await Promise.all([...FAMILIES.keys()].map(loadFamily));
const FAMILY_LIST = loaded.map((template, place) => [template.family, template, place] as const);

const PLANNED: MakeOptions = {
  ...UNPLANNED,
  shop: { ...SENDS_OUT, machines: DEFAULT_SHOP.machines },
};

const inInches = (template: Template, inputs: Inputs): Inputs => {
  const lengths = describeInputs(template).filter(({ kind }) => kind === 'length');
  const names = new Set(lengths.map(({ name }) => name));
  return Object.fromEntries(
    Object.entries(inputs).map(([name, value]) => [
      name,
      names.has(name) && typeof value === 'number' ? `${value / 25.4}in` : value,
    ]),
  );
};

/** What is left to the machines, as it is without them. */
const wholeOf = (family: string, { floorStep }: Inputs): Inputs => {
  if (family === 'duct-box') return { blanks: 'whole' };
  return floorStep === undefined ? {} : { floorBlanks: 'folded' };
};

/** The ways in which each example is made, by its family and by its panels. */
const WAYS: readonly {
  readonly way: string;
  readonly options: MakeOptions;
  readonly inputs?: (template: Template, inputs: Inputs) => Inputs;
}[] = [
  {
    way: 'planned on the machines of a small shop',
    options: PLANNED,
    // Panels are of the blanks as they are asked for: what machines make of `auto` comes after.
    inputs: ({ family }, all) => ({ ...wholeOf(family, all), ...all }),
  },
  { way: 'in both hands', options: UNPLANNED, inputs: (_, all) => ({ ...all, hand: 'both' }) },
  { way: 'marked by nicks, cut with a kerf', options: { ...UNPLANNED, marks: 'nicks', kerf: 0.2 } },
  {
    way: 'by inside dimensions, in the old dialect',
    options: { ...UNPLANNED, dxfVersion: 'r12', marks: 'none' },
    inputs: (_, all) => ({ ...all, measure: 'inside' }),
  },
  { way: 'in inches, cut only', options: { ...UNPLANNED, cutOnly: true }, inputs: inInches },
];

const partsOf = (template: Template, inputs: Inputs, options: MakeOptions): readonly MadePart[] => {
  const made = makeParts(template, inputs, options);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts;
};

/** What is cut, and what of it is drawn. The mark of a file says which family made it. */
const filesOf = (parts: readonly MadePart[]) =>
  parts
    .flatMap((part) => part.files())
    .map(({ name, contents }) => ({
      name,
      contents: contents.replaceAll(/blankwright \S+ /g, 'blankwright FAMILY '),
    }));

/**
 * What a proof asks by the mould lines alone and what it finds. Holes go by the inputs that they
 * came from, which are others.
 */
const unnamed = (measures: ProofResult['measures']): string[] =>
  measures
    .filter(({ input }) => input === undefined)
    .map(({ name, askedMm, foundMm }) =>
      [name.replaceAll(/hole .*?(?= from | to |$)/g, 'hole'), askedMm, foundMm].join(' | '),
    )
    .toSorted();

/** Line by line, so that a failure says which. */
const expectSameFiles = (
  panels: ReturnType<typeof filesOf>,
  family: ReturnType<typeof filesOf>,
): void => {
  expect(panels.map(({ name }) => name)).toEqual(family.map(({ name }) => name));
  for (const [i, { contents }] of family.entries()) {
    const [own, wanted] = [panels[i]?.contents.split('\n') ?? [], contents.split('\n')];
    const other = wanted.findIndex((line, n) => own[n] !== line);
    expect([other, own[other], own.length]).toEqual([-1, undefined, wanted.length]);
  }
};

const stopsOf = ({ result }: MadePart): string[] =>
  result.findings.filter(({ severity }) => severity === 'stop').map(({ message }) => message);

/** A blank without the names of the inputs that its holes come from, which are those of the family. */
const withoutInputs = (blank: MadePart['result']['blank']) =>
  blank && { ...blank, holes: blank.holes.map((hole) => ({ ...hole, inputs: [] })) };

function expectSameParts(family: readonly MadePart[], panels: readonly MadePart[]): void {
  expect(panels.map(({ result }) => [result.name, result.hand, result.quantity])).toEqual(
    family.map(({ result }) => [result.name, result.hand, result.quantity]),
  );
  expect(panels.map(stopsOf)).toEqual(family.map(() => []));
  expectSameFiles(filesOf(panels), filesOf(family));
  for (const [i, { result }] of family.entries()) {
    const own = (panels[i] as MadePart).result;
    expect(withoutInputs(own.blank)).toEqual(withoutInputs(result.blank));
    expect(own.bends).toEqual(result.bends);
    expect(own.folded).toEqual(result.folded);
    expect(own.foldPlan).toEqual(result.foldPlan);
    if (result.proof === null || own.proof === null) continue;
    // A flange is on the whole of its edge here, where a family may say from where to where: the
    // gap of its corner is then asked too.
    const asked = unnamed(own.proof.measures).filter((m) => !m.startsWith('gap at corner'));
    const wanted = unnamed(result.proof.measures).filter((m) => !m.startsWith('gap at corner'));
    expect(asked).toEqual(wanted);
    expect(own.proof.angles.filter(({ input }) => input === undefined)).toEqual(
      result.proof.angles.filter(({ input }) => input === undefined),
    );
    expect(own.proof.worstMm).toBeLessThan(0.01);
  }
}

/** The inputs of `panels` that an example is. */
const inputsAsPanels = (template: Template, inputs: Inputs): Inputs | undefined => {
  const said = partAsPanels({ template, inputs, file: 'part.yaml' });
  return said.ok ? said.result.inputs : undefined;
};

describe.each(FAMILY_LIST)('%s, written panel by panel', (_family, template, place) => {
  test.each(inTurns(WAYS, place, 3))(
    'is the same blank, plan and proof: $way',
    ({ way, options, inputs: given }) => {
      let written = 0;
      for (const { inputs: example } of examplesIn(template)) {
        const inputs = given?.(template, example) ?? example;
        const read = readInputs(template, inputs);
        if (!read.ok) continue;
        const family = makeParts(template, inputs, options);
        if (!family.ok || family.parts.some(({ stopped }) => stopped)) continue;
        const panels = inputsAsPanels(template, inputs);
        if (panels === undefined) continue;
        written++;
        expectSameParts(family.parts, partsOf(panelsFamily, panels, options));
        // Written once more it is the same, to the last digit.
        expect(inputsAsPanels(panelsFamily, panels)).toEqual(panels);
      }
      // An example by outside sizes need be no part by inside ones.
      if (
        ![BY_BOTH_MEASURES, FORMED, ...ROLLED].includes(template.family) &&
        !way.includes('inside')
      )
        expect(written).toBeGreaterThan(0);
    },
  );
});

/** Louvres and beads have no words as panels. */
const FORMED = 'vent-panel';

/**
 * Some pieces of a tank are given by outside sizes and some by inside ones, which one description
 * does not hold: its blanks are written one by one below.
 */
const BY_BOTH_MEASURES = 'tank';

/** Walls that are rolled all over are no panels between folds. */
const ROLLED: readonly string[] = ['shell', 'cone', 'elbow'];

describe('the blanks of families of several pieces', () => {
  test.each(FAMILY_LIST)('%s: each is the same part by its panels', (_family, template) => {
    for (const { inputs } of template.examples) {
      const read = readInputs(template, inputs);
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      const built = readBuilt(template.build(read.values), read.values);
      if (!built.ok) throw new Error(JSON.stringify(built.problems));
      const { part, pieces = [] } = built.built;
      const blanks = [...(part === undefined ? [] : [part]), ...pieces.map((piece) => piece.part)];
      expect(blanks.length).toBeGreaterThan(0);
      for (const blank of blanks) {
        const values = { ...read.values, measure: blank.measure };
        const panels = asPanels(blank, values);
        expect(blank.rolled !== undefined).toBe(ROLLED.includes(template.family));
        if (blank.rolled !== undefined) {
          expect(panels).toEqual({ ok: false, why: 'rolled wall' });
          continue;
        }
        if (blank.panels.some(({ formed }) => formed !== undefined)) {
          expect(panels).toEqual({ ok: false, why: 'louvres or beads' });
          expect(template.family).toBe('vent-panel');
          continue;
        }
        if (!panels.ok) throw new Error(`${blank.name}: ${panels.why}`);
        const made = buildPanels(panels.panels, values);
        expect(made.problems).toEqual([]);
        expect(blankOf(made.built.part)).toEqual(blankOf(blank));
      }
    }
  });
});

/** The flat blank by its figures. */
const blankOf = (part: Part | undefined) => {
  if (part === undefined) throw new Error('no part');
  const { outline, cutouts, bends, panels, areaMm2 } = flatten(part, { id: 'din6935' });
  const hole = (cutout: Cutout) =>
    cutout.kind === 'round'
      ? [cutout.centre, cutout.diameterMm, cutout.use]
      : [cutout.loop.map(({ x, y, bulge }) => [x, y, bulge]), cutout.use];
  return {
    outline: outline.map(({ x, y, bulge, origin }) => [x, y, bulge, origin.kind]),
    cutouts: cutouts.map(hole),
    bends: bends.map(({ id, parent, child, angleDeg, centreLine }) => [
      id,
      parent,
      child,
      angleDeg,
      centreLine,
    ]),
    panels: panels.map(({ id, placement }) => [id, placement]),
    areaMm2,
  };
};
