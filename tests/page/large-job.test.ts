import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasChromium, openBrowser } from '../helpers/chromium.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

/** A job of many parts in the page: what is typed is answered while the others are still being made. */

const PARTS = IS_FULL ? 200 : 40;
const JOB = `title: many\nparts:\n${Array.from(
  { length: PARTS },
  (_, i) =>
    `  - family: bracket-angle\n    name: bracket ${i}\n    inputs: { legA: ${60 + (i % 40)}, legB: 40, width: ${80 + i}, thickness: 3 }\n`,
).join('')}`;

let browser: BrowserContext | undefined;
beforeAll(async () => {
  if (hasChromium) browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
});

/** Longest that the page may be deaf to what is done to it, ms: twice what a hand notices. */
const DEAF_MS = 400;

test('a job of many parts stays responsive while it is made', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const page = await (browser as BrowserContext).newPage();
  // The longest stretch without a turn of the page's own loop, from before its first line on.
  await page.addInitScript(`
    localStorage.setItem('blankwright.job', ${JSON.stringify(JOB)});
    globalThis.deaf = [];
    let last = performance.now();
    setInterval(() => { const now = performance.now(); deaf.push(now - last); last = now; }, 10);`);
  await page.goto(`${pathToFileURL(resolve('dist/page.html')).href}#/`);
  await page.waitForSelector('.card .state.good');
  // The rest is still being made.
  expect(await page.locator('.card .state.busy').count()).toBeGreaterThan(0);
  await page.evaluate('deaf.length = 0');
  await page.click('.card .open >> nth=1');
  await page.fill('#in-legA', '77');
  await page.waitForSelector('.picture .paper svg');
  await page.click('text=Undo');
  while ((await page.inputValue('#in-legA')) === '77') await page.waitForTimeout(20);
  const deaf = await page.evaluate<number[]>('deaf');
  // Of many turns a few are late by what else the machine does.
  const late = deaf.toSorted((a, b) => a - b)[Math.floor(deaf.length * 0.95)] ?? 0;
  expect(late).toBeLessThan(DEAF_MS);
  await page.close();
});
