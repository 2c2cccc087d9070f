import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import { figure } from '../../../src/text/figures.ts';
import { makeFiles } from '../../../src/use/make/make-files.ts';
import tray from '../../../templates/tray/index.ts';
import { hasChromium, openBrowser } from '../../helpers/chromium.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler } from '../../helpers/poppler.ts';

const INPUTS = {
  name: 'battery tray',
  length: 260,
  depth: 180,
  height: 60,
  corner: 'open',
  lipFront: 'hem-out',
  lipDepth: 14,
  material: 'dc01',
  thickness: 1.5,
};

const cards = async (folder: string) => {
  const made = await makeFiles({
    template: tray,
    inputs: INPUTS,
    outputs: ['folding'],
    options: {},
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const path = (ending: string): string => {
    const file = made.files.find(({ name }) => name.endsWith(ending));
    if (file === undefined) throw new Error(`no ${ending}`);
    const at = join(folder, file.name.replace(/ /g, '-'));
    writeFileSync(at, file.contents);
    return at;
  };
  const steps = made.result.parts[0]?.foldPlan?.steps ?? [];
  return { path, steps };
};

const temp = (): string => mkdtempSync(join(tmpdir(), 'blankwright-folding-'));

describe('the step cards of a tray', () => {
  test('on paper: a page a stroke, with its figures', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const { path, steps } = await cards(temp());
    expect(steps.length).toBeGreaterThan(4);
    const pages = spawnSync('pdftotext', ['-layout', path('-folding.pdf'), '-'])
      .stdout.toString()
      .split('\f')
      .slice(0, -1);
    expect(pages).toHaveLength(steps.length);
    steps.forEach((step, i) => {
      const words = (pages[i] as string).replace(/\s+/g, ' ');
      expect(words).toContain(`${i + 1}. Fold ${step.bend}: stop at `);
      expect(words).toContain(`SWING ${step.card.swungSide}`);
      expect(words).toContain(`CLAMP ${step.clampedSide}`);
      for (const { value } of step.card.checks) expect(words).toContain(figure(value, 1));
      for (const part of ['bed', 'leaf', 'fingers']) expect(words).toContain(part);
      for (const { widthsMm } of step.card.tools)
        expect(words).toContain(widthsMm.map((w) => figure(w, 0)).join(' + '));
    });
  });

  test('on a phone: one stroke a screen, letters that are read, nothing sideways, no network', async (ctx) => {
    needsOutside(ctx, 'chromium', hasChromium);
    const { path, steps } = await cards(temp());
    const browser = await openBrowser();
    try {
      const page = await browser.newPage();
      const asked: string[] = [];
      const own = pathToFileURL(path('-folding.html')).href;
      page.on('request', (r) => asked.push(r.url()));
      await page.setViewportSize({ width: 390, height: 844 });
      await page.goto(own);
      const shown = (): Promise<string[]> =>
        page.evaluate<string[]>(
          "[...document.querySelectorAll('section')].filter((s) => s.offsetParent !== null).map((s) => s.id)",
        );
      expect(await shown()).toEqual(['start']);
      await page.click('nav .go >> visible=true');
      for (let i = 1; i <= steps.length; i += 1) {
        expect(await shown()).toEqual([`s${i}`]);
        const [wide, least, words] = await page.evaluate<[number, number, string]>(`(() => {
            const own = document.getElementById('s${i}');
            const sizes = [...own.querySelectorAll('svg text')].map((t) => {
              const svg = t.ownerSVGElement;
              const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
              return parseFloat(t.getAttribute('font-size')) * scale;
            });
            const html = [...own.querySelectorAll('p,h2,dt,dd,figcaption,a')].map((e) => parseFloat(getComputedStyle(e).fontSize));
            const root = document.documentElement;
            return [root.scrollWidth - root.clientWidth, Math.min(...sizes, ...html), own.innerText];
          })()`);
        expect(wide).toBe(0);
        expect(least).toBeGreaterThanOrEqual(12);
        const step = steps[i - 1];
        expect(words).toContain(`${i}. Fold ${step?.bend}`);
        for (const { value } of step?.card.checks ?? []) expect(words).toContain(figure(value, 1));
        await page.click('nav .go >> visible=true');
      }
      expect(await shown()).toEqual(['start']);
      expect(asked.filter((url) => !url.startsWith(own))).toEqual([]);
      // Every picture has its words for who does not see it.
      const twins = await page.evaluate<[number, number]>(
        "[document.querySelectorAll('figure').length, document.querySelectorAll('figure [role=img][aria-label]').length]",
      );
      expect(twins[0]).toBe(5 * steps.length);
      expect(twins[1]).toBe(twins[0]);
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await page.evaluate<string>('getComputedStyle(document.body).backgroundColor')).toBe(
        'rgb(0, 0, 0)',
      );
      await page.close();
    } finally {
      await browser.close();
    }
  });
});
