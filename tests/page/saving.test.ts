import { readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { withAxe, wrongAnyhow } from '../helpers/axe.ts';
import { hasChromium, isThereAfterReload, openBrowser } from '../helpers/chromium.ts';
import { tempFolder } from '../helpers/command.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { servedJob } from './served.ts';

/** What is typed is kept, whatever becomes of the page, the server, the disk or the file meanwhile. */

const PAGE = pathToFileURL(resolve('dist/page.html')).href;
const JOB = `title: cart
# of the seat
parts:
  - family: bracket-angle
    inputs:
      legA: 60
      # as the old one
      legB: 40
      width: 80
      thickness: 3
`;

let browser: BrowserContext | undefined;
beforeAll(async () => {
  if (hasChromium) browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
});

const part = async (url: string, setUp = ''): Promise<Page> => {
  const page = await (browser as BrowserContext).newPage();
  if (setUp !== '') await page.addInitScript(setUp);
  await page.goto(url);
  await page.waitForSelector('h1');
  await page.evaluate("location.hash = '#/part/0/flat'");
  await page.waitForSelector('#in-legA');
  return page;
};

const kept = (page: Page): Promise<string> =>
  page.evaluate<string>("localStorage.getItem('blankwright.job') ?? ''");

const folderWith = (): { readonly folder: string; readonly file: string } => {
  const folder = tempFolder();
  const file = join(folder, 'job.yaml');
  writeFileSync(file, JOB);
  return { folder, file };
};

const untilFile = async (file: string, words: string): Promise<void> => {
  while (!readFileSync(file, 'utf8').includes(words))
    await new Promise((done) => setTimeout(done, 50));
};

test('a file that was changed elsewhere is joined with what was typed, line by line', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const { folder, file } = folderWith();
  const served = await servedJob(folder);
  const page = await part(served.url);
  writeFileSync(file, JOB.replace('legB: 40', 'legB: 44').replace('width: 80', 'width: 90'));
  await page.fill('#in-legA', '72');
  await page.fill('#in-width', '85');
  await page.waitForSelector('text=One place was changed in both');
  await withAxe(page);
  expect(await wrongAnyhow(page, IS_FULL ? [1280, 820, 390] : [390])).toEqual([]);
  await page.check('label:has-text("Take theirs") input');
  await page.click('text=Line by line, as below');
  await untilFile(file, 'legA: 72');
  expect(readFileSync(file, 'utf8')).toBe(
    JOB.replace('legA: 60', 'legA: 72')
      .replace('legB: 40', 'legB: 44')
      .replace('width: 80', 'width: 90'),
  );
  await page.close();
});

test('a server that is gone and back at the same address finds what was typed meanwhile', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const { folder, file } = folderWith();
  const first = await servedJob(folder);
  const page = await part(first.url);
  await first.kill('SIGKILL');
  await page.fill('#in-legA', '75');
  await page.waitForSelector('.saved:has-text("The server cannot be reached")');
  await page.close();
  expect(readFileSync(file, 'utf8')).toBe(JOB);
  const second = await servedJob(folder);
  expect(second.port).toBe(first.port);
  const again = await part(second.url);
  expect(await again.inputValue('#in-legA')).toBe('75');
  await untilFile(file, 'legA: 75');
  await again.waitForSelector('button[title="Undo: what was typed last"]');
  await again.close();
});

const SHOP = `name: barn
# as measured on the first cold morning
marking:
  folds: lines
  face: outside
# as the welder likes it
weldGap: 0.5
`;

test('the shop file is kept as the job file is: typed while the server is gone, joined with what was changed elsewhere', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const { folder, file } = folderWith();
  const shopFile = join(folder, 'shop.yaml');
  writeFileSync(shopFile, SHOP);
  const first = await servedJob(folder);
  const page = await part(first.url);
  await page.evaluate("location.hash = '#/shop'");
  await page.waitForSelector('summary:has-text("The shop file as text")');
  await first.kill('SIGKILL');
  await page.selectOption('label:has-text("Fold lines come onto the metal as") select', 'nicks');
  await page.waitForSelector('.saved:has-text("The server cannot be reached")');
  await page.close();
  // Meanwhile somebody changed the same line, and another one.
  writeFileSync(
    shopFile,
    SHOP.replace('folds: lines', 'folds: none').replace('weldGap: 0.5', 'weldGap: 0.8'),
  );
  const second = await servedJob(folder);
  const again = await part(second.url);
  await again.waitForSelector('h2:has-text("The shop file was changed elsewhere")');
  await again.waitForSelector('text=One place was changed in both');
  await again.check('label:has-text("Take mine") input');
  await again.click('text=Line by line, as below');
  await untilFile(shopFile, 'folds: nicks');
  expect(readFileSync(shopFile, 'utf8')).toBe(
    SHOP.replace('folds: lines', 'folds: nicks').replace('weldGap: 0.5', 'weldGap: 0.8'),
  );
  expect(readFileSync(file, 'utf8')).toBe(JOB);
  // Undo on the view of the shop goes back to what was on the page.
  await again.evaluate("location.hash = '#/shop'");
  await again.click('button[title="Undo: joined with the file as changed elsewhere"]');
  await untilFile(shopFile, 'weldGap: 0.5');
  // A row that is half typed is told so, and written when it is whole.
  await again.click('summary:has-text("sheets")');
  await again.click('button:has-text("Add a row to sheets")');
  const added = again.locator('table.entries:has(caption:has-text("sheets")) tbody').last();
  await added.locator('[aria-label$=": length"]').fill('1500');
  await added.locator('.wrong:has-text("Not written yet")').waitFor();
  await added.locator('[aria-label$=": width"]').fill('1000');
  await added.locator('[aria-label$=": price"]').fill('48');
  await untilFile(shopFile, 'price: 48');
  expect(readFileSync(shopFile, 'utf8')).toContain('# as the welder likes it');
  await again.close();
});

/** Looks at a page again and again: what one process put away another may see some moments later. */
const lookedAtUntil = async (page: Page, field: string, value: string): Promise<void> => {
  while ((await page.inputValue(field)) !== value) {
    await page.evaluate("dispatchEvent(new Event('focus'))");
    await page.waitForTimeout(50);
  }
};

if (IS_FULL)
  describe('in a browser by itself', () => {
    const setUp = `if (localStorage.getItem('blankwright.job') === null) localStorage.setItem('blankwright.job', ${JSON.stringify(JOB)});`;

    test('the last letter before a reload is there after it; another page with the same job is noticed', async (ctx) => {
      needsOutside(ctx, 'Chromium', hasChromium);
      const page = await part(PAGE, setUp);
      const other = await part(PAGE, setUp);
      const isThere = await isThereAfterReload(
        page,
        () => page.fill('#in-legA', '61'),
        async () => {
          await page.waitForSelector('#in-legA');
          return (await page.inputValue('#in-legA')) === '61';
        },
      );
      expect(isThere).toBe(true);
      await page.waitForSelector('.saved:has-text("Kept in this browser")');
      // Nobody looked at it meanwhile, and nothing was typed there: it goes on with what there is.
      await lookedAtUntil(other, '#in-legA', '61');
      await other.fill('#in-legB', '41');
      while (!(await kept(other)).includes('legB: 41')) await other.waitForTimeout(50);
      await lookedAtUntil(page, '#in-legB', '41');
      // Changed in both before either looks: asked. In one go, since a page that looks between takes it up.
      await page.evaluate(
        "{ localStorage.setItem('blankwright.job', localStorage.getItem('blankwright.job').replace('legA: 61', 'legA: 65')); const field = document.querySelector('#in-thickness'); field.value = '4'; field.dispatchEvent(new Event('input', { bubbles: true })); }",
      );
      await page.waitForSelector('text=No line was changed in both');
      await page.click('text=Line by line, as below');
      while (!/legA: 65[^]*thickness: 4/.test(await kept(page))) await page.waitForTimeout(50);
      await page.close();
      await other.close();
    });

    test('a browser that keeps nothing more says so, and a disk that refuses too', async (ctx) => {
      needsOutside(ctx, 'Chromium', hasChromium);
      const full =
        "const put = Storage.prototype.setItem; Storage.prototype.setItem = function (...all) { if (globalThis.isFull) throw new DOMException('full', 'QuotaExceededError'); put.apply(this, all); };";
      const page = await part(PAGE, setUp + full);
      await page.evaluate('globalThis.isFull = true');
      await page.fill('#in-legA', '66');
      await page.waitForSelector('.saved:has-text("This browser keeps nothing more")');
      expect(await page.inputValue('#in-legA')).toBe('66');
      await page.evaluate('globalThis.isFull = false');
      await page.waitForSelector('.saved:has-text("Kept in this browser")');
      await page.close();
      const { folder, file } = folderWith();
      symlinkSync(file, join(folder, 'link.yaml'));
      const served = await servedJob(folder, 'link.yaml');
      const linked = await part(served.url);
      await linked.fill('#in-legA', '67');
      await linked.waitForSelector('.saved:has-text("Not saved")');
      expect(readFileSync(file, 'utf8')).toBe(JOB);
      await linked.close();
    });
  });
