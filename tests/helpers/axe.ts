import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

/** axe-core, a checker of pages from outside the project, and what of a page lies beyond its window. */

const AXE = createRequire(import.meta.url).resolve('axe-core');

/** Rules of WCAG 2.2 A and AA that a program can check, and those of colours alone. */
export const WCAG = "{ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }";
export const COLOURS = "{ runOnly: ['color-contrast'] }";

/** Puts the checker in by the browser's own debugger, since the page lets no other script in. */
export const withAxe = async (page: Page): Promise<void> => {
  await page.evaluate(readFileSync(AXE, 'utf8'));
};

export const violations = async (page: Page, rules: string): Promise<string[]> => {
  const found = await page.evaluate<{ violations: { id: string; nodes: { html: string }[] }[] }>(
    `axe.run(document, ${rules})`,
  );
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
};

/** What makes the page scroll sideways; nothing where it does not. */
export const beyondWindow = (page: Page): Promise<string[]> =>
  page.evaluate<string[]>(
    "[...document.querySelectorAll('body *')].filter((one) => document.documentElement.scrollWidth > innerWidth && one.getBoundingClientRect().right > innerWidth + 1).map((one) => one.outerHTML.slice(0, 120))",
  );

/** Every rule and every look at three widths: what is wrong, each with where. */
export const wrongAnyhow = async (page: Page, widths: readonly number[]): Promise<string[]> => {
  const wrong: string[] = [];
  const tell = (where: string, told: readonly string[]): void => {
    wrong.push(...told.map((each) => `${where} ${each}`));
  };
  for (const width of widths) {
    await page.setViewportSize({ width, height: 844 });
    tell(`${width}`, await violations(page, WCAG));
    tell(`${width}`, await beyondWindow(page));
  }
  for (const look of LOOKS) {
    await page.evaluate(`document.documentElement.dataset.look = '${look}'`);
    tell(look, await violations(page, COLOURS));
  }
  return wrong;
};

export const LOOKS = ['light', 'dark', 'yard'];
