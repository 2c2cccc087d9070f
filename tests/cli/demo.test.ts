import {
  copyFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runProcess, contents, json, names, type Ran } from '../helpers/command.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { JOB } from '../helpers/make-contract.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { TUBE_FAMILIES } from '../../templates/index.ts';
import { hasPython, readZip } from '../helpers/packed.ts';
import { fileNames } from '../helpers/file-names.ts';
import { asked, serving } from '../page/served.ts';

/** Made once for all of these tests: every family, with all papers, is much to make. */
describe('the demo', () => {
  const cwd = mkdtempSync(join(tmpdir(), 'blankwright-test-'));
  const folder = join(cwd, 'out', 'vineyard-cart');
  const handover = join(cwd, 'out', 'handover');
  let first: Ran;
  beforeAll(async () => {
    first = await runProcess(['demo', '--json'], cwd);
  });
  afterAll(() => rmSync(cwd, { recursive: true, force: true }));

  test('makes the whole job of the cart, and prints it as JSON', () => {
    expect([first.code, first.err]).toEqual([0, '']);
    const { folder: told, parts, summary } = JOB.parse(json(first));
    expect([join(cwd, told), summary]).toEqual([
      folder,
      expect.objectContaining({ made: parts.length, unchanged: 0, refused: 0 }),
    ]);
    for (const { folder: own, parts: blanks } of parts)
      expect(names(join(folder, own))).toEqual(
        [...blanks.flatMap((p) => p.files), 'part.json'].toSorted(),
      );
    expect(names(folder)).toEqual(
      [
        ...parts.map((p) => p.folder),
        'index.html',
        'manifest.json',
        'cutlist.csv',
        'tubes.csv',
      ].toSorted(),
    );
    expect(names(folder)).toEqual(expect.arrayContaining(['seat-post', 'saddle-tank']));
    expect(names(join(folder, 'seat-post'))).toEqual(
      expect.arrayContaining([
        'seat-post-L.dxf',
        'seat-post-L.svg',
        'seat-post-L-card.pdf',
        'seat-post-L-sheet.html',
        'seat-post-L-sheet.pdf',
        'seat-post-L.glb',
        'seat-post-R.dxf',
      ]),
    );
  });

  // A folder and a plasma table fold all of it: a first job that opens with warnings is no welcome.
  test('can be folded in the shop that is assumed, every part of it', () => {
    const { parts, summary } = JOB.parse(json(first));
    const blanks = parts.flatMap((p) => p.parts);
    const plans = blanks.flatMap(({ foldPlan }) => foldPlan ?? []);
    expect(plans.length).toBeGreaterThan(10);
    expect(plans.filter(({ feasible }) => feasible !== true)).toEqual([]);
    const rules = blanks.flatMap(({ findings }) => findings.map(({ rule }) => rule));
    expect(rules).not.toContain('no-fold-order');
    expect(rules).not.toContain('fold-order-open');
    expect(summary.warnings).toBe(0);
  });

  /** The blanks of the job, and its tubes, which have none. */
  const madeIn = (isTube: boolean) =>
    JOB.parse(json(first))
      .parts.flatMap((p) => p.parts)
      .filter(({ family }) => TUBE_FAMILIES.has(family) === isTube);

  test('lists each blank of it once, and each tube', () => {
    const blanks = madeIn(false);
    expect(readFileSync(join(folder, 'tubes.csv'), 'utf8').trim().split('\r\n')).toHaveLength(
      madeIn(true).length + 1,
    );
    expect(readFileSync(join(folder, 'cutlist.csv'), 'utf8').trim().split('\r\n')).toHaveLength(
      blanks.length + 1,
    );
  });

  test('packs all of it for the cutting service, its quantities those of its parts', (ctx) => {
    needsOutside(ctx, 'python3', hasPython);
    expect(names(handover)).toContain('vineyard-cart_s275_3mm.zip');
    const rows = readdirSync(handover).flatMap(
      (zip) => readZip(readFileSync(join(handover, zip))).rows,
    );
    const wanted = madeIn(false).map((p) => [p.name, p.hand, String(p.quantity)].join(' '));
    expect(rows.map((r) => [r['part'], r['hand'], r['quantity']].join(' ')).toSorted()).toEqual(
      wanted.toSorted(),
    );
  });

  test('its input file makes the same part', async () => {
    copyFileSync(resolve('templates/demo/seat-post.yaml'), join(cwd, 'mine.yaml'));
    expect(
      (
        await runProcess(
          ['make', 'bracket-angle', '--from', 'mine.yaml', '--name', 'seat post', '--out', 'one'],
          cwd,
        )
      ).code,
    ).toBe(0);
    const one = contents(join(cwd, 'one'));
    expect(Object.keys(one)).toHaveLength(2 * fileNames('').length);
    expect(contents(join(folder, 'seat-post'))).toMatchObject(one);
  });

  // As much again as the first time, and said of smaller jobs elsewhere.
  if (IS_FULL)
    test('may be run again, and leaves everything as it is: made apart from the job, an archive is the same', async () => {
      const before = [contents(join(folder, 'seat-post')), zipsIn(handover)];
      const again = await runProcess(['demo', '--no-page'], cwd);
      const count = JOB.parse(json(first)).parts.length;
      expect([again.code, again.err, again.out]).toEqual([
        0,
        '',
        expect.stringContaining(`0 made, ${count} unchanged, 0 refused`),
      ]);
      expect([contents(join(folder, 'seat-post')), zipsIn(handover)]).toEqual(before);
    });

  if (IS_FULL)
    test('serves its page when it has made its files, until its input ends; its job is a copy', async () => {
      const own = join(cwd, 'out', 'cart.job.yaml');
      const job = readFileSync(resolve('templates/demo/cart.job.yaml'), 'utf8');
      // A job that was left half typed is opened all the same, to be mended.
      writeFileSync(own, job.replace('legA: 60', 'legA: 60 +'));
      const served = await serving(['demo'], cwd);
      const { text } = await asked(served, 'GET', '/files');
      expect(JSON.parse(text)).toMatchObject({ name: 'cart.job.yaml' });
      expect((JSON.parse(text) as { job: string }).job).toContain('legA: 60 +');
      expect(await served.end()).toBe(2);
      const forced = await serving(['demo', '--force'], cwd);
      expect(readFileSync(own, 'utf8')).toBe(job);
      expect(await forced.kill('SIGTERM')).toBe(0);
    });
});

const zipsIn = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'base64')]),
  );
