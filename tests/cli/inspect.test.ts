import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import * as z from 'zod';
import {
  BRACKET,
  blankwright,
  json,
  names,
  type Problems,
  tempFolder,
} from '../helpers/command.ts';

const finding = z.strictObject({
  rule: z.string(),
  severity: z.enum(['stop', 'warn', 'note']),
  message: z.string(),
  at: z.tuple([z.number(), z.number()]).optional(),
});
/** The names of `inspect --json`, written down once more. */
const INSPECTED = z.strictObject({
  files: z.array(
    z.strictObject({
      file: z.string(),
      version: z.string(),
      unit: z.strictObject({
        name: z.string(),
        mm: z.number(),
        from: z.enum(['file', 'asked', 'assumed']),
      }),
      extents: z
        .strictObject({ minX: z.number(), minY: z.number(), maxX: z.number(), maxY: z.number() })
        .nullable(),
      contours: z.strictObject({
        closed: z.int(),
        open: z.int(),
        gaps: z.int(),
        parts: z.int(),
        holes: z.int(),
        deepest: z.int(),
      }),
      areaMm2: z.number(),
      cutLengthMm: z.number(),
      doubledMm: z.number(),
      pierces: z.int(),
      layers: z.array(z.strictObject({ name: z.string(), pieces: z.int(), lengthMm: z.number() })),
      findings: z.array(finding),
      mended: z.strictObject({ file: z.string(), changes: z.array(z.string()) }).nullable(),
      unmended: z.array(finding).nullable(),
      picture: z.string().nullable(),
    }),
  ),
});

/** A square whose last corner is open by 0.5 mm. */
const GAP = ['0 0 100 0', '100 0 100 100', '100 100 0 100', '0 100 0 0.5']
  .map((l) => l.split(' '))
  .map(([a, b, c, d]) => `0\nLINE\n8\n0\n10\n${a}\n20\n${b}\n11\n${c}\n21\n${d}\n`)
  .join('');
const gapFile = `0\nSECTION\n2\nENTITIES\n${GAP}0\nENDSEC\n0\nEOF\n`;

test('a file of ours has nothing against it, and the figures that make gave', async () => {
  const cwd = tempFolder();
  const made = json<{
    parts: { blank: { areaMm2: number; cutLengthMm: number; pierces: number }; files: string[] }[];
  }>(await blankwright([...BRACKET, '--json'], cwd));
  const part = made.parts[0];
  const file = part?.files.find((f) => f.endsWith('.dxf')) ?? '';
  const ran = await blankwright(['inspect', file, '--thickness', '3', '--json'], cwd);
  expect([ran.code, ran.err]).toEqual([0, '']);
  const [found] = INSPECTED.parse(json(ran)).files;
  expect(found?.findings).toEqual([]);
  expect(found?.areaMm2).toBeCloseTo(part?.blank.areaMm2 ?? 0, 1);
  expect(found?.cutLengthMm).toBeCloseTo(part?.blank.cutLengthMm ?? 0, 2);
  expect(found?.pierces).toBe(part?.blank.pierces);
});

test('what stands in the way ends with 1, in words and in JSON, and is mended in a copy', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'gap.dxf'), gapFile);
  const [text, listed] = await Promise.all(
    [[], ['--json', '--mend', '--svg']].map((flags) =>
      blankwright(['inspect', 'gap.dxf', ...flags], cwd),
    ),
  );
  expect([text?.code, listed?.code]).toEqual([1, 1]);
  expect(text?.out).toContain('A gap of 0.5 mm');
  const [found] = INSPECTED.parse(json(listed as NonNullable<typeof listed>)).files;
  expect(found?.mended?.changes).toContainEqual(expect.stringContaining('Joined a gap of 0.5 mm'));
  expect(names(join(cwd, 'out'))).toEqual(['gap-inspected.svg', 'gap-mended.dxf']);
  const svg = readFileSync(join(cwd, found?.picture ?? ''), 'utf8');
  // The sign is no ring, which might be taken for a hole.
  expect(svg).not.toContain('<circle ');
  expect(svg).toMatch(/(?:STOP|WARNING) 1: A gap/);
  expect(svg).toContain('1: A gap of 0.5 mm');
  expect(readFileSync(join(cwd, 'gap.dxf'), 'utf8')).toBe(gapFile);
  const again = await blankwright(['inspect', found?.mended?.file ?? '', '--json'], cwd);
  expect(again.code).toBe(0);
});

test('files that cannot be looked at, and flags that say nothing, are wrong input', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'nul.dxf'), Buffer.alloc(100));
  writeFileSync(join(cwd, 'gap.dxf'), gapFile);
  const lines = [
    'inspect',
    'inspect none.dxf',
    'inspect gap.dxf nul.dxf',
    'inspect gap.dxf --gap x',
    'inspect gap.dxf --units furlong',
    'inspect gap.dxf --material none',
  ];
  const runs = await Promise.all(
    lines.map((line) => blankwright([...line.split(' '), '--json'], cwd)),
  );
  for (const [i, ran] of runs.entries()) {
    expect([lines[i], ran.code, ran.err]).toEqual([lines[i], 2, '']);
    expect(json<Problems>(ran).problems).toHaveLength(1);
  }
  expect(names(cwd)).toEqual(['gap.dxf', 'nul.dxf']);
});
