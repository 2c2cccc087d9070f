import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { makeParts } from '../../src/job.ts';
import { FAMILIES } from '../../templates/index.ts';
import { BRACKET, blankwright, contents, json, names, type Ran, tempFolder } from '../helpers/command.ts';
import { FIT } from '../helpers/fit-contract.ts';

const point = z.tuple([z.number(), z.number()]);

const of = z.int();
const panel = z.string();
const place = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('edge'), panel, of, from: point, to: point }),
  z.strictObject({ kind: z.literal('mould'), panel, fold: z.string() }),
  z.strictObject({ kind: z.literal('centre'), panel, of }),
  z.strictObject({ kind: z.literal('corner'), panel, at: point }),
  z.strictObject({ kind: z.literal('diameter'), of }),
  z.strictObject({ kind: z.literal('radius'), of, at: point }),
  z.strictObject({ kind: z.enum(['length', 'width']), of, from: point, to: point }),
  z.strictObject({ kind: z.literal('line'), fold: z.string() }),
  z.strictObject({ kind: z.literal('cut'), of }),
]);

/** The names of `make --json`, written down once more: no more, no fewer, no other types. */
const PART = z.strictObject({
  name: z.string(),
  family: z.string(),
  piece: z.string().nullable(),
  hand: z.enum(['left', 'right']),
  quantity: z.int(),
  material: z.strictObject({ id: z.string(), thicknessMm: z.number(), densityKgM3: z.number() }),
  rule: z.string(),
  blank: z.strictObject({
    widthMm: z.number(),
    heightMm: z.number(),
    areaMm2: z.number(),
    cutLengthMm: z.number(),
    pierces: z.int(),
    massKg: z.number(),
  }),
  bends: z.array(
    z.strictObject({
      id: z.string(),
      angleDeg: z.number(),
      direction: z.enum(['up', 'down']),
      insideRadiusMm: z.number(),
      kFactor: z.number(),
      allowanceMm: z.number(),
      setbackMm: z.number(),
      deductionMm: z.number(),
      centreLine: z.tuple([point, point]),
    }),
  ),
  folded: z.strictObject({ sizeMm: z.tuple([z.number(), z.number(), z.number()]) }),
  foldPlan: z
    .strictObject({
      machine: z.string(),
      feasible: z.boolean().nullable(),
      steps: z.array(
        z.strictObject({
          bend: z.string(),
          clampedSide: z.string(),
          flip: z.boolean(),
          turnDeg: z.number(),
          stopAtDeg: z.number(),
          sightLineMm: z.number().nullable(),
          from: z.string(),
          fingersMm: z.array(z.number()),
          note: z.string().nullable(),
          inTwo: z.strictObject({ stroke: z.union([z.literal(1), z.literal(2)]), keepsDeg: z.number(), otherStep: z.int() }).optional(),
        }),
      ),
      blockedBy: z.array(
        z.strictObject({
          bend: z.string(),
          after: z.array(z.string()),
          reason: z.string(),
          touches: z.string().nullable(),
          atDeg: z.number().nullable(),
          suggestion: z.string().nullable(),
        }),
      ),
      blockEachOther: z.array(z.string()),
    })
    .nullable(),
  proof: z
    .strictObject({
      worstMm: z.number(),
      measures: z.array(z.strictObject({ name: z.string(), askedMm: z.number(), foundMm: z.number(), between: z.array(place).min(1), heightMm: z.number().optional(), atLeast: z.literal(true).optional() })),
      angles: z.array(z.strictObject({ name: z.string(), askedDeg: z.number(), foundDeg: z.number(), fold: z.string() })),
      made: z.strictObject({
        measure: z.enum(['outside', 'inside']),
        kerfMm: z.number(),
        panels: z.array(z.strictObject({ name: z.string(), at: point })),
        cut: z.strictObject({ outline: z.array(z.tuple([z.number(), z.number(), z.number()])), holes: z.array(z.array(z.tuple([z.number(), z.number(), z.number()]))) }),
      }),
    }),
  fit: FIT.nullable(),
  findings: z.array(z.strictObject({ rule: z.string(), severity: z.enum(['stop', 'warn', 'note']), message: z.string() })),
  files: z.array(z.string()),
});
const REPORT = z.strictObject({
  name: z.string(),
  figures: z.array(z.strictObject({ name: z.string(), value: z.number(), unit: z.string(), about: z.string().optional() })),
  tables: z.array(
    z.strictObject({ title: z.string(), columns: z.array(z.strictObject({ name: z.string(), unit: z.string() })), rows: z.array(z.array(z.number())) }),
  ),
});
const MADE = z.strictObject({ parts: z.array(PART), reports: z.array(REPORT) });
const JOB = z.strictObject({
  job: z.string(),
  folder: z.string(),
  parts: z.array(z.strictObject({ name: z.string(), folder: z.string(), status: z.enum(['made', 'unchanged', 'refused']), reason: z.string().nullable(), parts: z.array(PART), reports: z.array(REPORT) })),
  summary: z.strictObject({ made: z.int(), unchanged: z.int(), refused: z.int(), warnings: z.int(), silenced: z.int(), removed: z.int() }),
  left: z.array(z.string()),
});
const BEND = z.strictObject({
  allowanceMm: z.number(),
  setbackMm: z.number(),
  deductionMm: z.number(),
  kFactor: z.number(),
  rule: z.string(),
});
const PROBLEMS = z.strictObject({
  problems: z
    .array(z.strictObject({ input: z.string().min(1), given: z.string().min(1), allowed: z.string().min(1), mend: z.string().min(1).optional() }))
    .min(1),
});

describe('what --json prints', () => {
  test('make: the parts, their figures and their files', async () => {
    const cwd = tempFolder();
    const ran = await blankwright([...BRACKET, '--hand', 'both', '--out', 'made', '--json'], cwd);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const { parts } = MADE.parse(json(ran));
    expect(parts.map((p) => p.hand)).toEqual(['left', 'right']);
    for (const part of parts) {
      expect(part.files).toHaveLength(2);
      for (const file of part.files) expect(existsSync(join(cwd, file))).toBe(true);
      // The outside dimensions that were asked for, along the axes of the larger leg.
      expect([...part.folded.sizeMm].toSorted((a, b) => a - b)).toEqual([40, 60, 80].map((n) => expect.closeTo(n, 6)));
      // Mass from the area, thickness and density that stand beside it: EN 10025 steel, 7850 kg/m3.
      expect(part.blank.massKg).toBeCloseTo((part.blank.areaMm2 * 3 * 7850) / 1e9, 9);
    }
    expect(names(join(cwd, 'made'))).toEqual(['bracket-angle-L.dxf', 'bracket-angle-L.svg', 'bracket-angle-R.dxf', 'bracket-angle-R.svg']);
  });

  test('make, when a finding stops the part: the finding, and no file', async () => {
    const cwd = tempFolder();
    const ran = await blankwright([...BRACKET, '--rule', 'measured', '--json'], cwd);
    expect(ran.code).toBe(1);
    const { parts } = z
      .object({ parts: z.array(z.object({ files: z.array(z.string()), findings: z.array(z.object({ severity: z.string() })), blank: z.unknown() })) })
      .parse(json(ran));
    expect(parts.map((p) => p.files)).toEqual([[]]);
    expect(parts[0]?.findings.map((f) => f.severity)).toContain('stop');
    expect(names(cwd)).toEqual([]);
  });

  test('make --fit: how well each part is likely to fit', async () => {
    const ran = await blankwright([...BRACKET, '--hand', 'both', '--fit', '--tolerance', 'M', '--measured-with', 'tape', '--json'], tempFolder());
    expect([ran.code, ran.err]).toEqual([0, '']);
    const fits = MADE.parse(json(ran)).parts.map((p) => p.fit);
    expect(fits.map((fit) => fit?.measures.find((m) => m.name === 'leg A')?.tolerance?.grade)).toEqual(['m', 'm']);
  });

  // 90 degrees, r = t = 3: k = 0.65 + 0.5 lg 1 = 0.65 (DIN 6935), K = k / 2; setback r + t; worked out by hand.
  test('bend: five figures', async () => {
    const ran = await blankwright('bend --thickness 3 --radius 3 --angle 90 --rule din6935 --json'.split(' '), tempFolder());
    const figures = BEND.parse(json(ran));
    expect(figures.rule).toBe('din6935');
    expect(figures.kFactor).toBeCloseTo(0.325, 9);
    expect(figures.setbackMm).toBeCloseTo(6, 9);
    expect(figures.allowanceMm).toBeCloseTo((Math.PI / 2) * (3 + 0.325 * 3), 9);
    expect(figures.deductionMm).toBeCloseTo(12 - (Math.PI / 2) * (3 + 0.325 * 3), 9);
  });

  test('list, describe and materials', async () => {
    const cwd = tempFolder();
    const [list, materials] = await Promise.all([blankwright(['list', '--json'], cwd), blankwright(['materials', '--json'], cwd)]);
    const { families } = z.strictObject({ families: z.array(z.strictObject({ family: z.string(), summary: z.string() })).min(5) }).parse(json(list));
    expect(families.map((f) => f.family)).toEqual([...FAMILIES.keys()]);
    expect(z.object({ materials: z.array(z.object({ id: z.string() })) }).parse(json(materials)).materials.map((m) => m.id)).toContain('s275');
    const described = await Promise.all(families.map(({ family }) => blankwright(['describe', family, '--json'], cwd)));
    for (const [i, ran] of described.entries()) {
      const about = z
        .strictObject({
          family: z.string(),
          summary: z.string(),
          schema: z.looseObject({ type: z.literal('object'), properties: z.record(z.string(), z.unknown()), required: z.array(z.string()) }),
          examples: z.array(z.strictObject({ title: z.string(), inputs: z.record(z.string(), z.unknown()) })).min(1),
        })
        .parse(json(ran));
      expect(about.family).toBe(families[i]?.family);
      const schema = z.fromJSONSchema(about.schema as Parameters<typeof z.fromJSONSchema>[0]);
      for (const { inputs } of about.examples) {
        expect(schema.safeParse(inputs).error).toBeUndefined();
        // A full set: nothing that has to be given is left out, and what has a fixed default carries it.
        expect(Object.keys(inputs)).toEqual(expect.arrayContaining([...about.schema.required, 'material', 'rule', 'hand', 'quantity']));
      }
    }
  });

  test('wrong inputs: problems on standard output, nothing elsewhere, whatever the command', async () => {
    const cwd = tempFolder();
    const lines = ['make bracket-angle --leg-a 1,5', 'make', 'make bracket-angel', 'describe', 'bend --thickness x', 'bend --thickness 3 --rule nosuch', 'list --nosuch', 'frob', 'make bracket-angle --from nosuch.yaml'];
    const runs = await Promise.all(lines.map((line) => blankwright([...line.split(' '), '--json'], cwd)));
    for (const [i, ran] of runs.entries()) {
      expect([lines[i], ran.code, ran.err]).toEqual([lines[i], 2, '']);
      PROBLEMS.parse(json(ran));
    }
    expect(names(cwd)).toEqual([]);
  });

  test('--json may stand in front of the command', async () => {
    const ran = await blankwright(['--json', 'bend', '--thickness', '2'], tempFolder());
    expect(ran.code).toBe(0);
    BEND.parse(json(ran));
  });
});

test('every other command prints JSON too when asked', async () => {
  const cwd = tempFolder();
  const [demo, version, help, commandHelp] = await Promise.all(
    [['demo'], ['--version'], ['--help'], ['make', 'bracket-angle', '--help']].map((args) => blankwright([...args, '--json'], cwd)),
  );
  const { folder, parts } = JOB.parse(json(demo as Ran));
  for (const { folder: own, parts: blanks } of parts) expect(names(join(cwd, folder, own))).toEqual([...blanks.flatMap((p) => p.files), 'part.json'].toSorted());
  expect(json(version as Ran)).toEqual({ version: expect.stringMatching(/^\d/) as string });
  expect(json(help as Ran)).toEqual({ help: expect.stringContaining('blankwright list') as string });
  expect(json(commandHelp as Ran)).toEqual({ help: expect.stringContaining('--leg-a') as string });
});

describe('what people read', () => {
  test('--version is that of the package', async () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(await blankwright(['--version'], tempFolder())).toEqual({ code: 0, out: `${version}\n`, err: '' });
  });

  test('make says blank, rule, folds, findings and files, without colour', async () => {
    const cwd = tempFolder();
    const { code, out, err } = await blankwright([...BRACKET, '--hand', 'right'], cwd);
    expect([code, err]).toEqual([0, '']);
    // 60 + 40 - deduction of 5.756 = 94.244, by the sums of the bend above.
    expect(out).toContain('80 x 94.24 mm');
    for (const said of ['din6935', 'right', 's275', '90 deg up', 'turned over', join('out', 'bracket-angle.dxf'), join('out', 'bracket-angle.svg')]) expect(out).toContain(said);
    expect(out).toMatch(/^[\x20-\x7e\n]*$/);
    expect(names(join(cwd, 'out'))).toEqual(['bracket-angle.dxf', 'bracket-angle.svg']);
  });

  test('help tells how legs are measured, the exit codes and that a template runs code', async () => {
    const cwd = tempFolder();
    const [first, make, none] = await Promise.all([['--help'], ['make', 'bracket-angle', '--help'], []].map((args) => blankwright(args, cwd)));
    expect([first?.code, make?.code, none?.code]).toEqual([0, 0, 0]);
    const flowing = first?.out.replace(/\s+/g, ' ');
    expect(flowing).toContain('mould line');
    expect(flowing).toContain('Exit codes: 0 made, 1 the part cannot be made, 2 wrong input, 3 the disk refused.');
    expect(make?.out.replace(/\s+/g, ' ')).toContain('runs the code');
    for (const flag of ['--leg-a', '--holes-b', '--corner-radius', '--dxf-version', '--json', '--debug']) expect(make?.out).toContain(flag);
    expect(none?.out).toBe(first?.out);
  });

  test('the example commands of every family work when pasted into a shell, and give what the example gives', async () => {
    for (const [family, load] of FAMILIES) {
      const cwd = tempFolder();
      const described = await blankwright(['describe', family], cwd);
      expect(described.out).toContain((await load()).default.sketch.trimEnd());
      const commands = described.out.replaceAll('\\\n', ' ').match(/^ +blankwright make .*$/gm) ?? [];
      const { examples } = (await load()).default;
      expect(commands).toHaveLength(examples.length);
      const script = commands.map((line, i) => `${line.replace('blankwright', '"$NODE" "$PROGRAM"')} --out ${i}`).join('\n');
      execFileSync('sh', ['-eu', '-c', script], { cwd, env: { NODE: process.execPath, PROGRAM: join(process.cwd(), 'dist/blankwright.cjs') }, stdio: 'ignore' });
      for (const [i, { inputs }] of examples.entries()) {
        const made = makeParts((await load()).default, inputs, { cutOnly: false, dxfVersion: 'r2000' });
        const files = made.ok ? made.parts.flatMap((p) => p.files()) : [];
        expect(contents(join(cwd, String(i)))).toEqual(Object.fromEntries(files.map((f) => [f.name, f.contents])));
      }
    }
  });
});
