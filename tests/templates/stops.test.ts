import { describe, expect, test } from 'vitest';
import { exampleCommand } from '../../src/cli/example-command.ts';
import { applyMend } from '../../src/forms/apply-mend.ts';
import { describeInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { mendFigure } from '../../src/model/mend.ts';
import type { FindingResult } from '../../src/contract/part.ts';
import { RULES } from '../../src/use/rules.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { plausibleInputs } from '../helpers/plausible.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/**
 * Whoever is stopped reads what to change: every stop names inputs, as they are typed; says nothing
 * twice; and what it tells to give does away with it.
 */

type Inputs = Readonly<Record<string, unknown>>;

/**
 * What stops the parts of these inputs, of each blank by itself; inputs that are refused as such
 * have none.
 */
function stopsOf(
  template: Template,
  inputs: Inputs,
): readonly (readonly FindingResult[])[] | undefined {
  const made = makeParts(template, inputs, UNPLANNED);
  return made.ok ? made.parts.map(stopsOn) : undefined;
}

const stopsOn = ({ result }: MadePart): readonly FindingResult[] =>
  result.findings.filter(({ severity }) => severity === 'stop');

/** What a finding tells as data: of a rule that there is, in its range no more, on the part. */
function expectData(found: FindingResult, names: ReadonlySet<string>, part: MadePart): void {
  const { rule, severity, message, inputs = [], panel, at, measured, limit } = found;
  expect(RULES.get(rule)?.severities, message).toContain(severity);
  for (const input of inputs) expect(names, `${rule}: ${message}`).toContain(input);
  const panels = part.part?.panels.map(({ id }) => id);
  if (panel !== undefined && panels !== undefined) expect(panels, message).toContain(panel);
  if (limit !== undefined) {
    const { atLeast = -Infinity, atMost = Infinity, unit } = limit;
    expect(measured?.unit, message).toBe(unit);
    const value = measured?.value ?? NaN;
    expect(value < atLeast || value > atMost, JSON.stringify(found)).toBe(true);
  }
  if (at !== undefined) expect(at.every(Number.isFinite), message).toBe(true);
  if (at !== undefined && !part.stopped) {
    const { widthMm, heightMm } = part.flat ?? { widthMm: NaN, heightMm: NaN };
    expect(at[0] > -1 && at[0] < widthMm + 1, message).toBe(true);
    expect(at[1] > -1 && at[1] < heightMm + 1, message).toBe(true);
  }
}

const isWordOf = (message: string, input: string): boolean =>
  new RegExp(`(?<![A-Za-z])${input}(?![A-Za-z])`).test(message);

const key = ({ rule, inputs = [] }: FindingResult): string =>
  `${rule} ${inputs.toSorted().join(' ')}`;

/** Of two inputs that are too much for a third, each is told. */
const sameMends = ({ rule, inputs = [], mends = [] }: FindingResult): string =>
  [rule, ...inputs.toSorted(), 'mended by', ...mends.map(({ input }) => input).toSorted()].join(
    ' ',
  );

function expectNamed(stop: FindingResult, names: ReadonlySet<string>): void {
  expect(stop.inputs ?? [], stop.message).not.toEqual([]);
  for (const input of stop.inputs ?? []) {
    expect(names, stop.message).toContain(input);
    expect(isWordOf(stop.message, input), `${input}: ${stop.message}`).toBe(true);
  }
  for (const mend of stop.mends ?? []) {
    expect(stop.inputs, stop.message).toContain(mend.input);
    if (mend.value !== null && !/\d(?:in|cm|m)\b/.test(stop.message))
      expect(stop.message).toContain(mendFigure(mend));
  }
}

function expectToldOnce(stops: readonly FindingResult[]): void {
  expect(new Set(stops.map(({ message }) => message)).size).toBe(stops.length);
  const mended = stops.filter(({ mends }) => mends !== undefined);
  expect(new Set(mended.map(sameMends)).size, JSON.stringify(stops)).toBe(mended.length);
}

/** A mend makes the part, or leads on to what else is wrong with it. */
function expectMended(template: Template, inputs: Inputs, stop: FindingResult): void {
  for (const mend of stop.mends ?? []) {
    for (const given of mend.atLeast !== undefined && mend.atMost !== undefined
      ? [mend, { input: mend.input, atMost: mend.atMost }]
      : [mend]) {
      const after = stopsOf(template, applyMend(inputs, given));
      expect(after, `${JSON.stringify(given)} is no input: ${stop.message}`).toBeDefined();
      expect(after?.flat().map(key), `${JSON.stringify(given)}: ${stop.message}`).not.toContain(
        key(stop),
      );
    }
  }
}

let stoppedInAll = 0;

describe.each([...FAMILIES.keys()])(
  '%s with one or two inputs that may well be typed wrongly',
  (family) => {
    test('is made, or stopped by what names its inputs once each, with a mend that mends', async () => {
      const template = await loadFamily(family);
      const described = describeInputs(template);
      const names = new Set(described.map(({ name }) => name));
      for (const inputs of plausibleInputs(
        described,
        template.examples.map((e) => e.inputs),
        fuzzRuns(40),
        fuzzRuns(1),
      )) {
        try {
          const made = makeParts(template, inputs, UNPLANNED);
          const blanks = made.ok ? made.parts : [];
          for (const blank of blanks)
            for (const found of blank.result.findings) expectData(found, names, blank);
          const parts = blanks.map(stopsOn);
          for (const stops of parts) {
            expectToldOnce(stops);
            for (const stop of stops) expectNamed(stop, names);
          }
          const told = new Map(parts.flat().map((stop) => [stop.message, stop]));
          for (const stop of told.values()) expectMended(template, inputs, stop);
          if (told.size > 0) stoppedInAll += 1;
        } catch (error) {
          throw new Error(exampleCommand('make', template, { title: '', inputs }), {
            cause: error,
          });
        }
      }
    });
  },
);

test('some of them are stopped', () => {
  expect(stoppedInAll).toBeGreaterThan(shareOf(60));
});
