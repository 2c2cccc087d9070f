import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { beyondWindow } from '../helpers/axe.ts';
import { hasChromium, openBrowser } from '../helpers/chromium.ts';
import { blankwright, tempFolder } from '../helpers/command.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { downloads, kept, untilKept } from '../page/by-hand.ts';

/**
 * The job of the week that is made on a phone alone, under the cart: brackets that hold the lamp bar
 * off its rail, a left and a right one, and what is lost of them when the phone is put away.
 */

const PAGE = pathToFileURL(resolve('dist/page.html')).href;
const PHONE = { width: 390, height: 844 };

let browser: BrowserContext | undefined;
beforeAll(async () => {
  if (hasChromium) browser = await openBrowser({ viewport: PHONE, isMobile: true, hasTouch: true });
});
afterAll(async () => {
  await browser?.close();
});

/** A phone whose taps and fields are counted, and each field as wide as a thumb finds. */
class Phone {
  taps = 0;
  fields = 0;
  constructor(readonly page: Page) {}
  async tap(selector: string): Promise<void> {
    this.taps += 1;
    await this.page.locator(selector).first().tap();
  }
  async type(selector: string, text: string): Promise<void> {
    this.fields += 1;
    await this.page.locator(selector).first().tap();
    await this.page.fill(selector, text);
  }
  async choose(selector: string, value: string): Promise<void> {
    this.fields += 1;
    await this.page.selectOption(selector, value);
  }
}

const LAMP = { flangeA: '40', offset: '1 3/4"', flangeB: '30', width: '60', thickness: '2' };

test('brackets for lamps are made on a phone alone, and are what the command makes', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const page = await (browser as BrowserContext).newPage();
  await page.goto(PAGE);
  const phone = new Phone(page);
  await phone.tap('text=Add a part');
  await phone.type('input[type=search]', 'zed');
  await phone.tap('.card:has(strong:text-is("bracket-zed")) >> text=Start empty');
  await page.waitForSelector('#in-flangeA');
  for (const [name, text] of Object.entries(LAMP)) await phone.type(`#in-${name}`, text);
  await phone.choose('#in-material', '5754-h111');
  await phone.tap('.group:has-text("Holes") > summary');
  await phone.tap('#in-holesA');
  await phone.type('[aria-label="holes A hole 1: from fold"]', '22');
  await phone.type('[aria-label="holes A hole 1: from left"]', '30');
  await phone.choose('#in-hand', 'both');
  await untilKept(page, ({ parts }) => parts[0]?.hand === 'both');
  await page.waitForSelector('.picture .paper svg');
  expect(await beyondWindow(page)).toEqual([]);

  // The phone goes into the pocket and comes out again: nothing is typed twice.
  const text = await kept(page);
  await page.reload();
  await page.waitForSelector('#in-flangeA');
  expect(await kept(page)).toBe(text);
  expect(await page.inputValue('#in-offset')).toBe(LAMP.offset);

  const files = await downloads(page, 'button:has-text("Cut files")');
  const folder = tempFolder();
  writeFileSync(join(folder, 'job.yaml'), text);
  const ran = await blankwright(['job', 'job.yaml', '--json'], folder);
  expect(ran.code).toBe(0);
  const { parts, folder: out } = JSON.parse(ran.out) as {
    folder: string;
    parts: { folder: string; parts: { files: string[]; findings: { severity: string }[] }[] }[];
  };
  const [made] = parts;
  expect(
    made?.parts.flatMap(({ findings }) => findings.filter((f) => f.severity !== 'note')),
  ).toEqual([]);
  expect([...files.keys()].filter((name) => name.endsWith('.dxf')).length).toBe(2);
  for (const [name, contents] of files)
    expect(contents).toBe(readFileSync(join(folder, out, made?.folder ?? '', name), 'utf8'));
  // The table in DEVELOPERS.md, 'A week of a workshop', has these.
  expect([phone.fields, phone.taps]).toEqual([10, 4]);
  await page.close();
});
