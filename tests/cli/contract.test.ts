import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { isTyped } from '../../src/cli/example-command.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { ALL_FAMILIES, FAMILIES, TUBE_FAMILIES } from '../../templates/index.ts';
import {
  BRACKET,
  blankwright,
  contents,
  json,
  names,
  type Ran,
  tempFolder,
} from '../helpers/command.ts';
import { examplesIn, inTurns, someOf } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { MADE } from '../helpers/make-contract.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import { fileNames } from '../helpers/file-names.ts';

const BEND = z.strictObject({
  allowanceMm: z.number(),
  setbackMm: z.number(),
  deductionMm: z.number(),
  kFactor: z.number(),
  rule: z.string(),
  measure: z.enum(['outside', 'inside']),
  remarks: z.array(z.string()),
});
const FEATURE = z.looseObject({
  kind: z.enum(['edge', 'face', 'fold', 'hole']),
  panel: z.string(),
});
const PIECE = { piece: z.string().optional() };
/** What an input measures. */
const ANCHOR = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('length'), between: z.tuple([FEATURE, FEATURE]), ...PIECE }),
  z.strictObject({
    kind: z.literal('diameter'),
    panel: z.string(),
    from: z.string().nullable(),
    ...PIECE,
  }),
  z.strictObject({
    kind: z.literal('angle'),
    panels: z.tuple([z.string(), z.string()]),
    ...PIECE,
  }),
  z.strictObject({ kind: z.literal('panel'), panel: z.string(), ...PIECE }),
  z.strictObject({ kind: z.literal('fold'), fold: z.string(), ...PIECE }),
  z.strictObject({ kind: z.literal('cut-out'), panel: z.string(), from: z.string(), ...PIECE }),
  z.strictObject({ kind: z.enum(['corners', 'bends', 'blank']), ...PIECE }),
  z.strictObject({ kind: z.literal('sheet') }),
  z.strictObject({ kind: z.literal('beside'), what: z.string() }),
]);
const PROBLEMS = z.strictObject({
  problems: z
    .array(
      z.strictObject({
        input: z.string().min(1),
        given: z.string().min(1),
        allowed: z.string().min(1),
        mend: z.string().min(1).optional(),
      }),
    )
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
      expect(part.files).toHaveLength(fileNames('').length);
      for (const file of part.files) expect(existsSync(join(cwd, file))).toBe(true);
      // The outside dimensions that were asked for, along the axes of the larger leg.
      expect([...part.folded.sizeMm].toSorted((a, b) => a - b)).toEqual(
        [40, 60, 80].map((n) => expect.closeTo(n, 6)),
      );
      // Mass from the area, thickness and density that stand beside it: EN 10025 steel, 7850 kg/m3.
      expect(part.blank.massKg).toBeCloseTo((part.blank.areaMm2 * 3 * 7850) / 1e9, 9);
    }
    expect(names(join(cwd, 'made'))).toEqual(
      ['bracket-angle-L', 'bracket-angle-R'].flatMap((base) => fileNames(base)),
    );
  });

  test('make, when a finding stops the part: the finding, and no file', async () => {
    const cwd = tempFolder();
    const ran = await blankwright([...BRACKET, '--rule', 'measured', '--json'], cwd);
    expect(ran.code).toBe(1);
    const { parts } = z
      .object({
        parts: z.array(
          z.object({
            files: z.array(z.string()),
            findings: z.array(z.object({ severity: z.string() })),
            blank: z.unknown(),
          }),
        ),
      })
      .parse(json(ran));
    expect(parts.map((p) => p.files)).toEqual([[]]);
    expect(parts[0]?.findings.map((f) => f.severity)).toContain('stop');
    expect(names(cwd)).toEqual([]);
  });

  test('make --fit: how well each part is likely to fit', async () => {
    const ran = await blankwright(
      [
        ...BRACKET,
        '--hand',
        'both',
        '--fit',
        '--tolerance',
        'M',
        '--measured-with',
        'tape',
        '--json',
      ],
      tempFolder(),
    );
    expect([ran.code, ran.err]).toEqual([0, '']);
    const fits = MADE.parse(json(ran)).parts.map((p) => p.fit);
    expect(
      fits.map((fit) => fit?.measures.find((m) => m.name === 'leg A')?.tolerance?.grade),
    ).toEqual(['m', 'm']);
  });

  // 90 degrees, r = t = 3: k = 0.65 + 0.5 lg 1 = 0.65 (DIN 6935), K = k / 2; setback r + t; worked
  // out by hand.
  test('bend: its figures, of which dimensions they are, what is to be known', async () => {
    const ran = await blankwright(
      'bend --thickness 3 --radius 3 --angle 90 --rule din6935 --json'.split(' '),
      tempFolder(),
    );
    const figures = BEND.parse(json(ran));
    expect(figures.rule).toBe('din6935');
    expect(figures.kFactor).toBeCloseTo(0.325, 9);
    expect(figures.setbackMm).toBeCloseTo(6, 9);
    expect(figures.allowanceMm).toBeCloseTo((Math.PI / 2) * (3 + 0.325 * 3), 9);
    expect(figures.deductionMm).toBeCloseTo(12 - (Math.PI / 2) * (3 + 0.325 * 3), 9);
    expect([figures.measure, figures.remarks]).toEqual(['outside', []]);
    const inside = BEND.parse(
      json(
        await blankwright(
          'bend --thickness 3 --radius 3 --angle 90 --measure inside --json'.split(' '),
          tempFolder(),
        ),
      ),
    );
    expect([inside.measure, inside.setbackMm]).toEqual(['inside', expect.closeTo(3, 9)]);
  });

  test('list, describe and materials', async () => {
    const cwd = tempFolder();
    const [list, materials] = await Promise.all([
      blankwright(['list', '--json'], cwd),
      blankwright(['materials', '--json'], cwd),
    ]);
    const { families } = z
      .strictObject({
        families: z.array(z.strictObject({ family: z.string(), summary: z.string() })).min(5),
      })
      .parse(json(list));
    expect(families.map((f) => f.family)).toEqual([...ALL_FAMILIES.keys()]);
    expect(
      z
        .object({ materials: z.array(z.object({ id: z.string() })) })
        .parse(json(materials))
        .materials.map((m) => m.id),
    ).toContain('s275');
    const described = await Promise.all(
      families.map(({ family }) => blankwright(['describe', family, '--json'], cwd)),
    );
    for (const [i, ran] of described.entries()) {
      const about = z
        .strictObject({
          family: z.string(),
          summary: z.string(),
          schema: z.looseObject({
            type: z.literal('object'),
            properties: z.record(z.string(), z.unknown()),
            required: z.array(z.string()),
          }),
          examples: z
            .array(
              z.strictObject({
                title: z.string(),
                inputs: z.record(z.string(), z.unknown()),
                anchors: z.record(z.string(), z.array(ANCHOR).min(1)),
              }),
            )
            .min(1),
          sketches: z
            .array(
              z.strictObject({
                piece: z.string().nullable(),
                letters: z.record(z.string(), z.string().length(1)),
                svg: z.string().startsWith('<svg '),
              }),
            )
            // A tube has none: its measures stand along it, on its own drawing.
            .min(TUBE_FAMILIES.has(families[i]?.family ?? '') ? 0 : 1),
        })
        .parse(json(ran));
      expect(about.family).toBe(families[i]?.family);
      const schema = z.fromJSONSchema(about.schema as Parameters<typeof z.fromJSONSchema>[0]);
      for (const { inputs } of about.examples) {
        expect(schema.safeParse(inputs).error).toBeUndefined();
        // A full set: nothing that has to be given is left out, and what has a fixed default
        // carries it.
        expect(Object.keys(inputs)).toEqual(
          expect.arrayContaining([
            ...about.schema.required,
            'material',
            // No bend rule says how long a tube is.
            ...(TUBE_FAMILIES.has(about.family) ? [] : ['rule']),
            'hand',
            'quantity',
          ]),
        );
      }
    }
  });

  test('wrong inputs: problems on standard output, nothing elsewhere, whatever the command', async () => {
    const cwd = tempFolder();
    const lines = [
      'make bracket-angle --leg-a 1,5',
      'make',
      'make bracket-angel',
      'describe',
      'bend --thickness x',
      'bend --thickness 3 --rule nosuch',
      'list --nosuch',
      'frob',
      'make bracket-angle --from nosuch.yaml',
    ];
    const runs = await Promise.all(
      lines.map((line) => blankwright([...line.split(' '), '--json'], cwd)),
    );
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
  const [version, help, commandHelp] = await Promise.all(
    [['--version'], ['--help'], ['make', 'bracket-angle', '--help']].map((args) =>
      blankwright([...args, '--json'], tempFolder()),
    ),
  );
  expect(json(version as Ran)).toEqual({ version: expect.stringMatching(/^\d/) as string });
  expect(json(help as Ran)).toEqual({
    help: expect.stringContaining('blankwright list') as string,
  });
  expect(json(commandHelp as Ran)).toEqual({ help: expect.stringContaining('--leg-a') as string });
});

describe('what people read', () => {
  test('--version is that of the package', async () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(await blankwright(['--version'], tempFolder())).toEqual({
      code: 0,
      out: `${version}\n`,
      err: '',
    });
  });

  test('make says blank, rule, folds, findings and files, without colour', async () => {
    const cwd = tempFolder();
    const { code, out, err } = await blankwright([...BRACKET, '--hand', 'right'], cwd);
    expect([code, err]).toEqual([0, '']);
    // 60 + 40 - deduction of 5.756 = 94.244, by the sums of the bend above.
    expect(out).toContain('80 x 94.24 mm');
    for (const said of [
      'din6935',
      'right',
      's275',
      '90 deg up',
      'turned over',
      join('out', 'bracket-angle.dxf'),
      join('out', 'bracket-angle.svg'),
    ])
      expect(out).toContain(said);
    expect(out).toMatch(/^[\x20-\x7e\n]*$/);
    expect(names(join(cwd, 'out'))).toEqual(fileNames('bracket-angle'));
  });

  test('help tells how legs are measured, the exit codes and that a template runs code', async () => {
    const cwd = tempFolder();
    const [first, make, none] = await Promise.all(
      [['--help'], ['make', 'bracket-angle', '--help'], []].map((args) => blankwright(args, cwd)),
    );
    expect([first?.code, make?.code, none?.code]).toEqual([0, 0, 0]);
    const flowing = first?.out.replace(/\s+/g, ' ');
    expect(flowing).toContain('mould line');
    expect(flowing).toContain(
      'Exit codes: 0 made, 1 the part cannot be made, 2 wrong input, 3 the disk refused.',
    );
    expect(make?.out.replace(/\s+/g, ' ')).toContain('runs the code');
    for (const flag of [
      '--leg-a',
      '--holes-b',
      '--corner-radius',
      '--dxf-version',
      '--json',
      '--debug',
    ])
      expect(make?.out).toContain(flag);
    expect(none?.out).toBe(first?.out);
  });

  test.each(inTurns([...FAMILIES], 0, 4))(
    'the example commands of %s work when pasted into a shell, and give what the example gives',
    async (family, load) => {
      const cwd = tempFolder();
      const template = (await load()).default;
      const described = await blankwright(['describe', family], cwd);
      expect(described.out).toContain(template.sketch.trimEnd());
      // What a command line cannot hold stands as a file below its title.
      const commands = template.examples.map(({ title }, i): string => {
        // A long title is broken between its words.
        const words = title.split(' ').map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
        const below = described.out.split(new RegExp(`^  ${words.join('\\s+')}\n`, 'm'))[1] ?? '';
        if (isTyped(template.examples[i] ?? { inputs: {} }))
          return /^ +blankwright make .*$/m.exec(below.replaceAll('\\\n', ' '))?.[0] ?? '';
        writeFileSync(join(cwd, `${i}.yaml`), /^(?: {4}.*\n?)+/.exec(below)?.[0] ?? '');
        return `  blankwright make --from ${i}.yaml`;
      });
      const pasted = someOf(examplesIn(template), 2).map((example) =>
        template.examples.indexOf(example),
      );
      const script = pasted
        .map((i) => `${commands[i]?.replace('blankwright', '"$NODE" "$PROGRAM"')} --out ${i}`)
        .join('\n');
      execFileSync('sh', ['-eu', '-c', script], {
        cwd,
        env: { NODE: process.execPath, PROGRAM: join(process.cwd(), 'dist/blankwright.cjs') },
        stdio: 'ignore',
      });
      for (const i of pasted) {
        // What is left to the program is decided by the shop that the command has, too.
        const made = madeOnce(template, template.examples[i]?.inputs ?? {}, {
          ...UNPLANNED,
          shop: DEFAULT_SHOP,
        });
        const files = made.ok ? made.parts.flatMap((p) => p.files()) : [];
        expect(contents(join(cwd, String(i)))).toEqual(
          Object.fromEntries(files.map((f) => [f.name, f.contents])),
        );
      }
    },
  );
});
