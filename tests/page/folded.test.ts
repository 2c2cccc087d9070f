import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasChromium, isThereAfterReload, openBrowser } from '../helpers/chromium.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

/** The folded view of the page: what is drawn as solids, the folds by a slider, wholes taken apart. */

const PAGE = pathToFileURL(resolve('dist/page.html')).href;

const JOB = `title: cart
parts:
  - family: bracket-angle
    inputs: { legA: 60, legB: 40, width: 80, thickness: 2 }
  - family: bracket-channel
    inputs: { flangeA: 120, web: 20, flangeB: 120, width: 600, thickness: 2 }
  - family: tank
    inputs: { length: 300, width: 200, height: 150, thickness: 2 }
`;

/** A browser that draws no solids. */
const WITHOUT_WEBGL = `const get = HTMLCanvasElement.prototype.getContext; HTMLCanvasElement.prototype.getContext = function (kind, ...more) { return kind.startsWith('webgl') ? null : get.call(this, kind, ...more); };`;

let browser: BrowserContext | undefined;
beforeAll(async () => {
  if (hasChromium) browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
});

const folded = async (part: number, setUp?: string) => {
  const page = await (browser as BrowserContext).newPage();
  const errors: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(error.message));
  await page.addInitScript(
    `localStorage.setItem('blankwright.job', ${JSON.stringify(JOB)});${setUp ?? ''}`,
  );
  await page.goto(`${PAGE}#/part/${part}/folded`);
  return { page, errors };
};

const slideTo = (page: Page, of: string, value: number): Promise<void> =>
  page.evaluate(
    `{ const slider = document.querySelector(${JSON.stringify(of)}); slider.value = ${value}; slider.dispatchEvent(new Event('input', { bubbles: true })); }`,
  );

const seen = async (page: Page): Promise<string> =>
  (await page.locator('.solid canvas').screenshot()).toString('base64');

describe('the folded view', () => {
  test('folds up by a slider beside the machine, and is turned by keys; each in words', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const { page, errors } = await folded(0);
    await page.waitForSelector('.fold-up.at-machine figure svg');
    const finished = await seen(page);
    await slideTo(page, '.folding input', 0.5);
    await page.waitForSelector('.folding .facts:has-text("fold A at 45 of 90 degrees")');
    // The section follows, with its angle.
    while (!/4[5-9]/.test((await page.textContent('.fold-up figure svg')) ?? ''))
      await page.waitForTimeout(50);
    const half = await seen(page);
    expect(half).not.toBe(finished);
    expect(await page.getAttribute('.folding input', 'aria-valuetext')).toContain('45 of 90');
    await page.focus('.solid');
    await page.keyboard.press('ArrowLeft');
    expect(await seen(page)).not.toBe(half);
    await page.selectOption('label:has-text("Cut open") select', { label: 'from above' });
    await page.waitForSelector('label:has-text("How deep")');
    expect(errors).toEqual([]);
    await page.close();
  });

  if (IS_FULL)
    test('what is in the way of a fold is shown at its angle, and said', async (ctx) => {
      needsOutside(ctx, 'Chromium', hasChromium);
      const { page, errors } = await folded(1);
      await page.waitForSelector('.folding .stop:has-text("No order of folds works here")');
      expect(await page.textContent('.folding .facts')).toMatch(/^Fold [AB].*\(at \d+ degrees\)$/);
      await page.waitForSelector('.fold-up figure:has-text("Where it stops") svg');
      expect(errors).toEqual([]);
      await page.close();
    });

  if (IS_FULL)
    test('a tank comes apart by a slider, its seams in letters and words', async (ctx) => {
      needsOutside(ctx, 'Chromium', hasChromium);
      const { page, errors } = await folded(2);
      await page.waitForSelector('.solid canvas');
      await page.check('.tick input');
      await page.waitForSelector('caption:has-text("Seams")');
      const joined = await seen(page);
      await slideTo(page, '.row:has(.tick) .slider input', 80);
      await page.waitForSelector('.row:has(.tick) input[aria-valuetext="80 percent apart"]');
      expect(await seen(page)).not.toBe(joined);
      const letters = await page.locator('.figures th[scope=row]').allTextContents();
      expect(letters.slice(0, 3)).toEqual(['A', 'B', 'C']);
      expect(errors).toEqual([]);
      await page.close();
    });

  if (IS_FULL)
    test('without WebGL it is drawn as lines, and folds up by the same slider', async (ctx) => {
      needsOutside(ctx, 'Chromium', hasChromium);
      const { page } = await folded(0, WITHOUT_WEBGL);
      await page.waitForSelector('.fold-up.at-machine > .paper svg');
      const picture = () => page.innerHTML('.fold-up > .paper');
      const finished = await picture();
      await slideTo(page, '.folding input', 0.5);
      while ((await picture()) === finished) await page.waitForTimeout(50);
      expect(await page.getAttribute('.fold-up > .paper', 'aria-label')).toContain(
        '45 of 90 degrees',
      );
      await page.close();
    });

  if (IS_FULL)
    test('without WebGL a tank is drawn joined and taken apart, its seams in letters', async (ctx) => {
      needsOutside(ctx, 'Chromium', hasChromium);
      const { page } = await folded(2, WITHOUT_WEBGL);
      await page.waitForSelector('.fold-up > .paper svg');
      const picture = () => page.innerHTML('.fold-up > .paper');
      const one = await picture();
      await page.check('label:has-text("The whole that is welded") input');
      while ((await picture()) === one) await page.waitForTimeout(50);
      const joined = await picture();
      expect(joined).toContain('>A<');
      await page.check('label:has-text("Taken apart") input');
      while ((await picture()) === joined) await page.waitForTimeout(50);
      expect(await picture()).toContain('>wrap<');
      await page.close();
    });

  test('steps are ticked off one by one, and still are when the page is loaded again', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const { page, errors } = await folded(0);
    await page.evaluate("location.hash = '#/part/0/steps'");
    await page.waitForSelector('.step h2');
    const isThere = await isThereAfterReload(
      page,
      async () => {
        await page.click('.at-hand .main:has-text("Done")');
        await page.waitForSelector('.step .facts:has-text("1 done")');
      },
      async () => {
        await page.waitForSelector('.step h2');
        return (await page.locator('.step .facts:has-text("1 done")').count()) > 0;
      },
    );
    expect(isThere).toBe(true);
    // Another part in its place has none of them done.
    await page.fill('#in-legA', '62');
    await page.waitForSelector('.step .facts:has-text("0 done")');
    expect(errors).toEqual([]);
    await page.close();
  });
});
