import { parse } from 'csv-parse/browser/esm/sync';
import { findMaterial, MATERIALS } from '../data/materials.ts';
import type { ValueOf } from '../forms/field.ts';
import * as fields from '../forms/fields.ts';
import type { InputProblem } from '../forms/problem.ts';
import { readDocument } from '../forms/read-document.ts';
import { checked, type Disagree, list, optional, section } from '../forms/sections.ts';
import type { MeasuredStrip } from './strip.ts';

const length = (min: number, max: number, about: string) => fields.length({ about, min, max });

/** Fields that all strips of a file may share. */
const SHARED = {
  material: optional(
    fields.choice({
      about: 'The sheet.',
      choices: MATERIALS.flatMap((m) => [m.id, ...m.aliases]),
    }),
  ),
  thickness: optional(length(0.1, 25, 'Its thickness.')),
  machine: optional(fields.text({ about: 'The machine that it was folded on.', max: 100 })),
  tool: optional(fields.text({ about: 'The tool that it was folded with.', max: 100 })),
  noseRadius: optional(length(0, 1000, 'Radius of the nose of that tool.')),
};

const STRIP = {
  flat: length(5, 3000, 'Length of the strip before it was folded.'),
  legA: length(1, 3000, 'One leg, measured as calibrate says.'),
  legB: length(1, 3000, 'The other leg.'),
  angle: optional(
    fields.angle({ about: 'The angle that the metal was turned.', min: 1, max: 179 }),
  ),
  hem: optional(
    fields.choice({
      about: 'The form of a hem, in place of an angle.',
      choices: ['closed', 'open', 'teardrop'],
    }),
  ),
  gap: optional(length(0, 200, 'The gap that an open hem leaves inside.')),
  stopAt: optional(fields.angle({ about: 'The angle at the stop.', min: 1, max: 180 })),
  radius: optional(length(0, 1000, 'Inside radius, where it was measured.')),
};

const MOST_STRIPS = 1000;

const whole = section('A strip that was measured.', { ...SHARED, ...STRIP });
type Strip = ValueOf<typeof whole>;

const agree = ({ angle, hem, gap, radius }: Strip, disagree: Disagree): void => {
  if (hem === undefined && angle === undefined)
    disagree(
      ['angle'],
      'the angle the metal was turned, 1 to 179 degrees, or hem: closed, open or teardrop',
    );
  if (hem !== undefined && angle !== undefined)
    disagree(['angle'], 'no angle beside hem', 'a hem is folded right over');
  if (gap !== undefined && hem !== 'open')
    disagree(['gap'], 'the gap of an open hem, beside hem: open');
  if (hem === 'open' && gap === undefined && radius === undefined)
    disagree(
      ['gap'],
      'the gap that the open hem leaves inside, or its radius, which is half of that',
    );
  if (hem === 'teardrop' && radius === undefined)
    disagree(
      ['radius'],
      'the inside radius of the loop, such as that of the wire that just goes in',
    );
};

const file = section('Strips that were measured.', {
  ...SHARED,
  strips: list('The strips.', checked(whole, agree), {
    what: 'strips, each with flat, legA, legB and angle or hem',
    min: 1,
    max: MOST_STRIPS,
  }),
});

const WORDS = {
  input: 'strips',
  allowed:
    'a YAML or CSV file of strips: material, thickness, machine, tool, noseRadius, and of each flat, legA, legB, angle or hem, gap, stopAt, radius',
  look: 'blankwright calibrate without a file shows one',
};

export type ReadStrips =
  | { readonly ok: true; readonly strips: readonly MeasuredStrip[] }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads measured strips. In YAML, entries at the top are shared by all strips; CSV has a heading
 * and one strip a line.
 */
export function readStrips(text: string, kind: 'yaml' | 'csv'): ReadStrips {
  const asYaml = kind === 'csv' ? yamlOf(text) : { ok: true as const, text };
  if (!asYaml.ok)
    return {
      ok: false,
      problems: [
        { input: 'strips', given: 'a CSV file', allowed: WORDS.allowed, mend: asYaml.why },
      ],
    };
  const read = readDocument(asYaml.text, file, WORDS);
  return read.ok ? completed(read.value) : read;
}

type File = ValueOf<typeof file>;

/**
 * The strips with the shared entries put in. Every strip must know its sheet and its tool, from
 * itself or from the top of the file.
 */
function completed({ strips, ...shared }: File): ReadStrips {
  const problems: InputProblem[] = [];
  const made = strips.map((given, i): MeasuredStrip => {
    const whole = {
      ...shared,
      ...Object.fromEntries(Object.entries(given).filter(([, v]) => v !== undefined)),
    } as typeof given & typeof shared;
    for (const key of ['material', 'thickness'] as const) {
      if (whole[key] === undefined)
        problems.push({
          input: `strips[${i}].${key}`,
          given: 'nothing',
          allowed: `the ${key} of the strip, here or at the top of the file`,
        });
    }
    return stripOf(whole, i + 1);
  });
  return problems.length > 0 ? { ok: false, problems } : { ok: true, strips: made };
}

const stripOf = (given: Strip, number: number): MeasuredStrip => {
  const found = findMaterial(given.material ?? '');
  const radius = given.radius ?? (given.gap === undefined ? undefined : given.gap / 2);
  return {
    number,
    material: found.ok ? found.value.id : '',
    thicknessMm: given.thickness ?? NaN,
    machine: given.machine ?? 'any',
    tool: given.tool ?? 'any',
    flatMm: given.flat,
    legAMm: given.legA,
    legBMm: given.legB,
    angleDeg: given.angle ?? 180,
    ...(given.stopAt !== undefined && { stopAtDeg: given.stopAt }),
    ...(given.noseRadius !== undefined && { noseRadiusMm: given.noseRadius }),
    ...(given.hem !== undefined && { hem: given.hem }),
    ...(given.hem === 'closed'
      ? { insideRadiusMm: 0 }
      : radius !== undefined && { insideRadiusMm: radius }),
  };
};

/** The same data as JSON, in which a strip stands on the line that it has in the CSV file. */
function yamlOf(
  text: string,
): { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string } {
  try {
    const rows: readonly Record<string, string>[] = parse(text, {
      columns: (names: string[]) => names.map((n) => n.trim()),
      trim: true,
      bom: true,
      relax_column_count_less: true,
      skip_empty_lines: false,
    });
    const lines = rows.map((row) =>
      JSON.stringify(Object.fromEntries(Object.entries(row).filter(([, value]) => value !== ''))),
    );
    return { ok: true, text: `{"strips":[\n${lines.join(',\n')}]}` };
  } catch (error) {
    return {
      ok: false,
      why: error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error),
    };
  }
}
