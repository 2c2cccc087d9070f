import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type BrowserContext, chromium } from 'playwright-core';

/** A browser of somebody else's (Debian package chromium). */
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

/** Opened with nothing to remember; to be closed by who asked. */
export const openBrowser = (): Promise<BrowserContext> =>
  chromium.launchPersistentContext(mkdtempSync(join(tmpdir(), 'blankwright-browser-')), {
    executablePath: PROGRAM,
    args: QUIET,
    headless: true,
  });

/** What a browser makes of a page on disk. */
export interface Opened {
  /** What it complained of. */
  readonly errors: readonly string[];
  /** What it asked for beside the page. */
  readonly asked: readonly string[];
  /** How much wider than the window its content is, pixels. */
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
