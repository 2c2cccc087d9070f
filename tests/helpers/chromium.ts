import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type BrowserContext, chromium } from 'playwright-core';

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
 * Opens the browser with an empty profile; the caller closes it. It has as long as the test has: a
 * machine that does other things too takes its time.
 */
export const openBrowser = async (): Promise<BrowserContext> => {
  const folder = mkdtempSync(join(tmpdir(), 'blankwright-browser-'));
  const browser = await chromium.launchPersistentContext(folder, {
    executablePath: PROGRAM,
    args: QUIET,
    headless: true,
    timeout: 0,
  });
  browser.setDefaultTimeout(0);
  return browser;
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
