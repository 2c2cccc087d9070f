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

/** A browser without a profile; whoever asks for it closes it. */
export const openBrowser = (): Promise<BrowserContext> =>
  chromium.launchPersistentContext(mkdtempSync(join(tmpdir(), 'blankwright-browser-')), {
    executablePath: PROGRAM,
    args: QUIET,
    headless: true,
  });

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
