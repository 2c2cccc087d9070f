import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core';

/** A browser from outside the project (Debian package chromium). */
const PROGRAM = '/usr/bin/chromium';
export const hasChromium = existsSync(PROGRAM);

const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * Opens the browser with an empty profile, as that of a device where one is given; the caller closes it. It has as long as the test has: a
 * machine that does other things too takes its time.
 */
export const openBrowser = async (device: BrowserContextOptions = {}): Promise<BrowserContext> => {
  const folder = mkdtempSync(join(tmpdir(), 'blankwright-browser-'));
  const browser = await chromium.launchPersistentContext(folder, {
    executablePath: PROGRAM,
    args: QUIET,
    headless: true,
    timeout: 0,
    ...device,
  });
  browser.setDefaultTimeout(0);
  return browser;
};

/** As quick as a hand may be, and how often it is tried. */
const A_HAND_MS = 300;
const TRIES = 5;

/**
 * Whether what is done on a page is there when the page is loaded anew. Chromium may give a page that
 * is loaded anew to another process, which then does not know what was put away within the last
 * moments (seen with a bare page too, more often the busier the machine is): so it is tried again, with
 * a longer rest each time.
 */
export const isThereAfterReload = async (
  page: Page,
  act: () => Promise<void>,
  isThere: () => Promise<boolean>,
): Promise<boolean> => {
  for (let tries = 1; tries <= TRIES; tries++) {
    await act();
    await page.waitForTimeout(tries * A_HAND_MS);
    await page.reload();
    if (await isThere()) return true;
  }
  return false;
};

/** Result of opening a page from the disk. */
export interface Opened {
  /** Errors that it reported. */
  readonly errors: readonly string[];
  /** Addresses that it requested besides the page. */
  readonly asked: readonly string[];
  /** Width of its content beyond the window, pixels. */
  readonly tooWide: number;
  readonly text: string;
  readonly pdf: Uint8Array;
}

export const openPage = async (
  browser: BrowserContext,
  file: string,
  widthPixels: number,
): Promise<Opened> => {
  const page = await browser.newPage();
  const errors: string[] = [];
  const asked: string[] = [];
  const own = pathToFileURL(file).href;
  page.on('console', (message) => errors.push(message.text()));
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('request', (request) => asked.push(request.url()));
  await page.setViewportSize({ width: widthPixels, height: 900 });
  await page.goto(own);
  const tooWide = await page.evaluate<number>(
    'document.documentElement.scrollWidth - document.documentElement.clientWidth',
  );
  const text = await page.evaluate<string>('document.body.innerText');
  const pdf = await page.pdf({ preferCSSPageSize: true });
  await page.close();
  return { errors, asked: asked.filter((url) => url !== own), tooWide, text, pdf };
};
