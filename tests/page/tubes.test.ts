import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { withAxe, wrongAnyhow } from '../helpers/axe.ts';
import { hasChromium, openBrowser } from '../helpers/chromium.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

/** Tubes on the page, driven in a browser: added, measured by letters, looked at, and bent by steps. */

const PAGE = pathToFileURL(resolve('dist/page.html')).href;

const JOB = `title: cart
parts:
  - family: tube-bent
    name: hoop
    inputs: { span: 900, height: 700, diameter: 30, wall: 2, radius: 90 }
  - family: tube-cope
    name: cross
    inputs: { diameter: 30, wall: 2, header: 38, angle: 60 }
`;

let browser: BrowserContext | undefined;
beforeAll(async () => {
  if (hasChromium) browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
});

const opened = async (hash: string, job = JOB) => {
  const page = await (browser as BrowserContext).newPage();
  page.setDefaultTimeout(30_000);
  const errors: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(error.message));
  await page.addInitScript(`localStorage.setItem('blankwright.job', ${JSON.stringify(job)});`);
  await page.goto(`${PAGE}${hash}`);
  return { page, errors };
};

const go = (page: Page, tab: string): Promise<void> => page.click(`.tabs a:has-text("${tab}")`);

describe('a tube on the page', () => {
  test('is found by a plain word, added, and measured by its letters', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const { page, errors } = await opened('#/add', 'title: cart\nparts: []\n');
    await page.fill('input[type=search]', 'pipe fishmouth');
    await page.waitForSelector('.card:has-text("tube-cope") .thumb svg');
    await page.click('.card:has-text("tube-cope") >> text=Start empty');
    // What it asks is drawn with letters before there is a tube.
    await page.waitForSelector('.sketches svg');
    expect(await page.textContent('label[for=in-diameter] .letter')).toBe('a');
    expect(await page.textContent('label[for=in-angle] .letter')).toBe('d');
    await page.fill('#in-diameter', '38.1');
    await page.fill('#in-wall', '2');
    await page.click('.group:has-text("What it sits on") > summary');
    await page.fill('#in-header', '48.3');
    await page.waitForSelector('.picture svg:has-text("0 acute side")');
    expect(await page.textContent('.tabs')).toContain('Pattern');
    expect(await page.textContent('.tabs')).not.toContain('Steps');
    await page.waitForSelector('table caption:has-text("Depths at twelve places")');
    // A press on a letter goes to its field.
    await page.setViewportSize({ width: 390, height: 844 });
    await go(page, 'Measures');
    await page.waitForSelector('.sketches svg');
    expect(errors).toEqual([]);
    await page.close();
  });

  test('that is bent has marks, a body to be turned, and a step for each bend', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const { page, errors } = await opened('#/part/0/flat');
    await page.waitForSelector('.picture svg:has-text("leading end")');
    expect(await page.textContent('.picture .facts')).toMatch(
      /Cut .* off the bar, E235\+N, 30 x 2 mm, .* kg; walked back, the sheet meets every point asked/,
    );
    await go(page, 'Tube');
    await page.waitForSelector('.solid canvas');
    await go(page, 'Steps');
    await page.waitForSelector('.step h2:has-text("Bend 1")');
    expect(await page.textContent('.step .lines')).toMatch(/Mark.*leading end.*Pull to.*Check/s);
    await page.click('.at-hand .main:has-text("Done")');
    await page.waitForSelector('.step h2:has-text("Bend 2")');
    await page.waitForSelector('.step .facts:has-text("1 done")');
    // In inches nothing of it is left in mm.
    await page.click('.more > summary');
    await page.selectOption('label:has-text("Figures in") select', 'inch');
    await page.waitForSelector('.step .lines:has-text("in from the leading end")');
    expect(await page.textContent('.step')).not.toMatch(/\bmm\b/);
    expect(errors).toEqual([]);
    await page.close();
  });

  test('can be used by anybody, at each width and in each look', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    for (const hash of IS_FULL
      ? ['#/part/0/flat', '#/part/0/steps', '#/part/0/folded', '#/part/1/flat', '#/part/1/measures']
      : ['#/part/0/steps', '#/part/1/flat']) {
      const { page, errors } = await opened(hash);
      await page.waitForSelector('.picture svg, .solid canvas');
      await page.waitForSelector('.papers .means:has-text(".svg")');
      await withAxe(page);
      expect(await wrongAnyhow(page, IS_FULL ? [360, 820, 1280] : [360, 1280]), hash).toEqual([]);
      expect(errors).toEqual([]);
      await page.close();
    }
  });
});
