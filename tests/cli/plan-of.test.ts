import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import type { MakeResult } from '../../src/contract/part.ts';
import { BRACKET, blankwright, json, names, tempFolder } from '../helpers/command.ts';
import type { PlannedParts } from '../../src/contract/fold-plan.ts';
import { fileNames } from '../helpers/file-names.ts';

/** Sides 90 high and 40 apart: no room for fingers, nor for the ram of a small press brake. */
const DEEP_HAT =
  'bracket-hat --crown 40 --height 90 --foot-a 20 --foot-b 20 --width 100 --thickness 1.5 --radius 2 --material dc01 --by-machine-only'.split(
    ' ',
  );

describe('plan FAMILY', () => {
  test('prints the steps, and draws them where asked', async () => {
    const cwd = tempFolder();
    const ran = await blankwright(
      ['plan', ...BRACKET.slice(1), '--hand', 'both', '--out', 'sheets'],
      cwd,
    );
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out).toMatch(
      /^bracket-angle-L, folded on boxpan-1250x2\.0\n {2}1\. fold A: mark [\d.]+ mm from the free edge of leg B, nose gap [\d.]+ mm \(sharp nose, assumed\), clamp leg A, stop at [\d.]+ deg, tools [\d+ ]+ mm\n {2}rests on assumed: nose radius, .*\n {2}drawn in /,
    );
    expect(names(join(cwd, 'sheets'))).toEqual([
      'bracket-angle-L-folding.html',
      'bracket-angle-L-folding.pdf',
      'bracket-angle-L-folding.svg',
      'bracket-angle-R-folding.html',
      'bracket-angle-R-folding.pdf',
      'bracket-angle-R-folding.svg',
    ]);
    expect(readFileSync(join(cwd, 'sheets', 'bracket-angle-L-folding.svg'), 'utf8')).toContain(
      '1. Fold A: stop at ',
    );
    // Its own files are replaced, others are not.
    expect(
      (await blankwright(['plan', ...BRACKET.slice(1), '--hand', 'both', '--out', 'sheets'], cwd))
        .code,
    ).toBe(0);
    writeFileSync(join(cwd, 'sheets', 'bracket-angle-L-folding.svg'), 'mine');
    expect(
      (await blankwright(['plan', ...BRACKET.slice(1), '--hand', 'both', '--out', 'sheets'], cwd))
        .code,
    ).toBe(2);
  });

  test('a part that cannot be folded: what stands in the way, in words and drawn, exit 1', async () => {
    const cwd = tempFolder();
    const ran = await blankwright(
      ['plan', ...DEEP_HAT, '--by-machine-only', '--out', 'sheets', '--json'],
      cwd,
    );
    expect([ran.code, names(join(cwd, 'sheets'))]).toEqual([
      1,
      ['bracket-hat-folding.html', 'bracket-hat-folding.pdf', 'bracket-hat-folding.svg'],
    ]);
    const [part] = json<PlannedParts>(ran).parts;
    expect(part?.foldPlan).toMatchObject({ feasible: false, steps: [] });
    expect(part?.foldPlan?.blockedBy[0]).toMatchObject({
      bend: expect.any(String) as string,
      reason: expect.any(String) as string,
    });
    const drawn = readFileSync(join(cwd, 'sheets', 'bracket-hat-folding.svg'), 'utf8');
    expect(drawn).toContain('bracket-hat: why no order of folds works');
    expect(drawn.match(/<clipPath/g)).toHaveLength(3 * (part?.foldPlan?.blockedBy.length ?? 0));
    expect((await blankwright(['plan', ...DEEP_HAT, '--by-machine-only'], cwd)).out).toMatch(
      /no order of folds works on .*\n {2}Folds B, C block each other in any order\.\n.*fold . cannot be made(.|\n)*Designs that the shop can fold, each planned and proved, cheapest first:\n {2}.*\n {4}--/,
    );
    const redesigns = z
      .array(
        z.strictObject({
          inputs: z.record(z.string(), z.union([z.string(), z.number()])),
          flags: z.string().startsWith('--'),
          seams: z.int(),
          seamMm: z.number(),
          slits: z.int(),
          slitMm: z.number(),
          laps: z.int(),
          lapMm: z.number(),
          tabs: z.int(),
          tabMm: z.number(),
          pieces: z.strictObject({ before: z.int(), now: z.int() }),
          changes: z.array(
            z.strictObject({
              input: z.string(),
              from: z.union([z.string(), z.number()]),
              to: z.union([z.string(), z.number()]),
            }),
          ),
        }),
      )
      .min(1)
      .parse(json<PlannedParts>(ran).redesigns);
    // What is printed can be pasted.
    const flags = (redesigns[0]?.flags ?? '').replaceAll("'", '').split(/ (?=--)/);
    const pasted = flags.flatMap((flag) => flag.split(/ (.*)/).slice(0, 2));
    expect(
      (await blankwright(['plan', ...DEEP_HAT, '--by-machine-only', ...pasted], cwd)).code,
    ).toBe(0);
    const alone = ['--by-machine-only', '--make-foldable'];
    const made = await blankwright(['make', ...DEEP_HAT, ...alone], cwd);
    expect([made.code, made.out]).toEqual([
      0,
      expect.stringContaining('No machine of the shop folds it as it was asked for') as string,
    ]);
  });

  test('--done: what is left, and what rescues a part that no order finishes', async () => {
    const hat = DEEP_HAT.join(' ').replace('--crown 40 --height 90', '--crown 60 --height 30');
    const stuck = await blankwright(['plan', ...hat.split(' '), '--done', 'B,C'], tempFolder());
    expect([stuck.code, stuck.out]).toEqual([
      1,
      expect.stringMatching(
        /no order of the folds that are left works(.|\n)*What would rescue it \(tried, by the machine alone\), smallest first:\n {4}cut it apart at fold B, then fold A, D on /,
      ) as string,
    ]);
    const ran = await blankwright(
      ['plan', ...hat.split(' '), '--done', 'B,C', '--json'],
      tempFolder(),
    );
    const { parts } = json<PlannedParts>(ran);
    expect(parts[0]?.rescues?.[0]).toEqual({
      open: [],
      cut: ['B'],
      machines: ['boxpan-1250x2.0'],
      order: ['A', 'D'],
    });
    expect((await blankwright(['plan', ...hat.split(' '), '--done', 'Z'], tempFolder())).code).toBe(
      2,
    );
  });

  test('a machine by name; one that the shop has not is wrong input', async () => {
    const cwd = tempFolder();
    const brake = await blankwright(
      ['plan', ...BRACKET.slice(1), '--machine', 'pressbrake-1250', '--json'],
      cwd,
    );
    expect(json<PlannedParts>(brake).parts[0]?.foldPlan?.machine).toBe('pressbrake-1250');
    const wrong = await blankwright(
      ['plan', ...BRACKET.slice(1), '--machine', 'pressbrake', '--json'],
      cwd,
    );
    expect([
      wrong.code,
      json<{ problems: { input: string; mend?: string }[] }>(wrong).problems[0],
    ]).toMatchObject([2, { input: 'machine', mend: 'did you mean pressbrake-1250?' }]);
    expect(
      (
        await blankwright(
          ['plan', 'ring', '--outer', '90', '--inner', '50', '--thickness', '2'],
          cwd,
        )
      ).code,
    ).toBe(2);
    expect((await blankwright(['plan', 'bracket-angle', '--leg-a', 'x', '--json'], cwd)).code).toBe(
      2,
    );
  });
});

/** How many files a part has. */
const WRITTEN = fileNames('').length;

describe('make', () => {
  test('--fold-at here stops what the shop cannot fold, service does not ask, auto warns', async () => {
    const cwd = tempFolder();
    const ran = async (...flags: string[]) => {
      const asked = ['make', ...DEEP_HAT, '--by-machine-only', ...flags, '--json', '--force'];
      const done = await blankwright(asked, cwd);
      const [part] = json<MakeResult>(done).parts;
      return [
        done.code,
        part?.foldPlan?.feasible,
        part?.findings.filter((f) => f.severity !== 'note').map((f) => [f.rule, f.severity]),
        part?.files.length,
      ];
    };
    expect(await ran('--fold-at', 'here')).toEqual([1, false, [['no-fold-order', 'stop']], 0]);
    expect(await ran()).toEqual([0, false, [['no-fold-order', 'warn']], WRITTEN]);
    expect(await ran('--fold-at', 'service')).toEqual([0, undefined, [], WRITTEN]);
    expect((await blankwright(['make', ...DEEP_HAT, '--fold-at', 'home'], cwd)).code).toBe(2);
  });

  test('a service is told legs that are too short for the usual V', async () => {
    // 3 mm sheet, V 24: a leg must reach 0.707 * 24 = 16.97 mm from the middle of its bend.
    const cwd = tempFolder();
    const warned = async (leg: string) => {
      const ran = await blankwright(
        [
          'make',
          'bracket-angle',
          '--leg-a',
          '60',
          '--leg-b',
          leg,
          '--width',
          '80',
          '--thickness',
          '3',
          '--radius',
          '3',
          '--fold-at',
          'service',
          '--json',
          '--force',
        ],
        cwd,
      );
      return (
        json<MakeResult>(ran)
          .parts[0]?.findings.filter((f) => f.rule === 'leg-short-for-brake')
          .map((f) => f.message) ?? []
      );
    };
    expect(await warned('22')).toEqual([]);
    expect(await warned('15')).toEqual([
      expect.stringMatching(
        /leg B reaches .* mm from the middle of bend A.*wants 16\.98.*mm longer/,
      ),
    ]);
  });

  test('--kerf moves the cut lines half a kerf off the metal, and says what is too narrow', async () => {
    const cwd = tempFolder();
    const make = (...flags: string[]) =>
      blankwright([...BRACKET, '--holes-a', '30,40,9', '--json', '--force', ...flags], cwd);
    const extents = () => {
      const svg = readFileSync(join(cwd, 'out', 'bracket-angle.svg'), 'utf8');
      return {
        width: Number(/width="([\d.]+)mm"/.exec(svg)?.[1]) - 2,
        r: Number(/<circle[^>]* r="([\d.]+)"/.exec(svg)?.[1]),
      };
    };
    await make();
    expect(extents()).toEqual({ width: 80, r: 4.5 });
    const kerfed = await make('--kerf', '1.6');
    expect(extents()).toEqual({ width: expect.closeTo(81.6, 4), r: expect.closeTo(3.7, 4) });
    // The figures are those of the metal.
    expect(json<MakeResult>(kerfed).parts[0]?.blank?.widthMm).toBeCloseTo(80, 9);
    const closed = await make('--kerf', '9');
    expect([
      closed.code,
      json<MakeResult>(closed)
        .parts[0]?.findings.filter((f) => f.severity === 'stop')
        .map((f) => f.rule),
    ]).toEqual([1, ['kerf-too-wide']]);
    await make('--kerf', 'shop');
    expect(extents().width).toBeGreaterThan(80.05);
    expect((await make('--kerf', 'wide')).code).toBe(2);
    expect((await make('--kerf', '11')).code).toBe(2);
  });
});
