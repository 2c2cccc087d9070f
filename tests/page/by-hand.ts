import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { parse } from 'yaml';

/** What a person does at the page: types, presses, takes files; and what the page has kept of it. */

/** The text of the job as this browser keeps it. */
export const kept = (page: Page): Promise<string> =>
  page.evaluate<string>("localStorage.getItem('blankwright.job') ?? ''");

/** Waits until the page has kept a job that reads as wanted. */
export const untilKept = async (
  page: Page,
  is: (job: WrittenJob) => boolean,
): Promise<WrittenJob> => {
  for (;;) {
    const job = parse(await kept(page)) as WrittenJob | null;
    if (job !== null && is(job)) return job;
    await page.waitForTimeout(50);
  }
};

export interface WrittenJob {
  readonly parts: readonly {
    readonly family: string;
    readonly hand?: string;
    readonly inputs: Readonly<Record<string, unknown>>;
  }[];
}

/** Types into the field of an input; into its text, where it is shown as a table. */
export const type = async (page: Page, name: string, text: string): Promise<void> => {
  const asText = page.locator(`#rows-${name} >> button:has-text("As text")`);
  if ((await asText.count()) > 0) await asText.click();
  await page.fill(`#in-${name}`, text);
};

/** The files that a press offers, by their names, each taken by its link. */
export const downloads = async (page: Page, press: string): Promise<Map<string, string>> => {
  await page.click(press);
  await page.waitForSelector('.files a');
  const files = new Map<string, string>();
  for (const link of await page.locator('.files a').all()) {
    const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
    const path = join(mkdtempSync(join(tmpdir(), 'blankwright-page-')), 'file');
    await download.saveAs(path);
    files.set(download.suggestedFilename(), readFileSync(path, 'utf8'));
  }
  return files;
};
