import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { coreAnswers } from '../../src/page/core/answers.ts';
import { type Progress, progressWords } from '../../src/page/model/progress.ts';
import { hasChromium, openBrowser } from '../helpers/chromium.ts';
import { runProcess, tempFolder } from '../helpers/command.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { servedJob } from './served.ts';

/** Long work of the page tells how far it is, and can be stopped; a stop leaves nothing half done. */

const jobOf = (parts: number): string =>
  `title: cart\nparts:\n${Array.from(
    { length: parts },
    (_, i) =>
      `  - family: bracket-angle\n    name: bracket ${i + 1}\n    inputs: { legA: ${60 + i}, legB: 40, width: 80, thickness: 3 }\n`,
  ).join('')}`;

describe('how far the core is', () => {
  const core = coreAnswers();
  const texts = { job: jobOf(3), shop: null };
  const part = { ...texts, index: 0, isNarrow: false };

  const toldBy = async (run: (tell: (p: Progress) => void) => Promise<unknown>) => {
    const told: string[] = [];
    await run((progress) => told.push(progressWords(progress)));
    return told;
  };

  test('a whole part is told stage by stage, and not again when it is known', async () => {
    const stages = await toldBy((tell) => core.whole(part, tell));
    expect(stages).toEqual([
      'checks, 1 of 5 done',
      'proof of the cut file, 2 of 5 done',
      'order of folds, 3 of 5 done',
      'how well it fits, 4 of 5 done',
    ]);
    expect(await toldBy((tell) => core.whole(part, tell))).toEqual([]);
  });

  test('papers of a part, the sheets and the archives of a job are told', async () => {
    const files = await toldBy((tell) => core.files({ ...part, outputs: ['sheet'] }, tell));
    expect(files.at(-1)).toBe('drawing and writing');
    const parts = ['parts, 0 of 3 done', 'parts, 1 of 3 done', 'parts, 2 of 3 done'];
    expect(await toldBy((tell) => core.cutlist(texts, tell))).toEqual(parts);
    expect(await toldBy((tell) => core.pack(texts, tell))).toEqual(parts);
  });

  test('the archive is byte for byte that of the command', async () => {
    const folder = tempFolder();
    writeFileSync(join(folder, 'job.yaml'), texts.job);
    const ran = await runProcess(['pack', 'job.yaml', '--out', 'packed'], folder);
    expect(ran.code).toBe(0);
    const { problems, left, files } = await core.pack(texts);
    expect([problems, left]).toEqual([[], []]);
    expect(files.map(({ name }) => name)).toEqual(readdirSync(join(folder, 'packed')));
    for (const { name, contents } of files)
      expect(Buffer.from(contents as Uint8Array)).toEqual(
        readFileSync(join(folder, 'packed', name)),
      );
  });
});

describe('on the page', () => {
  let browser: BrowserContext | undefined;
  beforeAll(async () => {
    if (hasChromium) browser = await openBrowser();
  });
  afterAll(async () => {
    await browser?.close();
  });
  const opened = async (url: string, setUp = '') => {
    const page = await (browser as BrowserContext).newPage();
    if (setUp !== '') await page.addInitScript(setUp);
    await page.goto(url);
    await page.waitForSelector('h1');
    return page;
  };

  test('a stop by the keyboard leaves the page usable and says so; it goes on when it is asked to', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const page = await opened(
      `${pathToFileURL(resolve('dist/page.html')).href}#/`,
      `if (localStorage.getItem('blankwright.job') === null) localStorage.setItem('blankwright.job', ${JSON.stringify(jobOf(40))});`,
    );
    await page.waitForSelector('.work:has-text("Looking at the whole job: parts, ")');
    expect(Number(await page.getAttribute('.work progress', 'max'))).toBe(40);
    await page.focus('.work button:has-text("Stop")');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.work:has-text("Stopped: Looking at the whole job.")');
    const made = await page.locator('.card .state.good').count();
    expect(made).toBeLessThan(40);
    expect(await page.locator('.card .state:has-text("not looked at yet")').count()).toBe(
      40 - made,
    );
    // Nothing goes on in secret, and what is typed is answered.
    await page.waitForTimeout(300);
    expect(await page.locator('.card .state.good').count()).toBe(made);
    await page.click('.work button:has-text("Do it after all")');
    while ((await page.locator('.card .state.good').count()) <= made) await page.waitForTimeout(50);
    await page.evaluate("location.hash = '#/part/39/flat'");
    await page.fill('#in-legA', '71');
    await page.waitForSelector('.picture .paper svg');
    await page.close();
  });

  if (IS_FULL)
    test('the files of a job stop behind a part: each folder is whole, and the rest is made when it is asked for', async (ctx) => {
      needsOutside(ctx, 'Chromium', hasChromium);
      const folder = tempFolder();
      // As many as a hand that is slow, on a machine that does other things, does not let run to their end.
      const parts = 30;
      writeFileSync(join(folder, 'job.yaml'), jobOf(parts));
      const served = await servedJob(folder);
      const page = await opened(served.url);
      await page.click('text=Make all files into the folder out');
      await page.waitForSelector('.work:has-text("Files of the whole job: parts, ")');
      await page.click('.work button:has-text("Stop")');
      await page.waitForSelector('.work:has-text("Stopped: Files of the whole job.")');
      const out = join(folder, 'out', 'cart');
      const whole = () =>
        readdirSync(out, { withFileTypes: true }).filter(
          (entry) => entry.isDirectory() && entry.name.startsWith('bracket'),
        );
      await page.waitForTimeout(500);
      expect(whole().length).toBeLessThan(parts);
      for (const { name } of whole())
        expect(readdirSync(join(out, name)).some((file) => file.endsWith('.dxf'))).toBe(true);
      expect(existsSync(join(out, 'index.html'))).toBe(false);
      await page.click('.work button:has-text("Do it after all")');
      await page.waitForSelector('pre[role=status]:has-text("index.html")');
      expect(whole()).toHaveLength(parts);
      await page.close();
    });
});
