import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { FAMILIES } from '../../templates/index.ts';
import { beyondWindow, COLOURS, LOOKS, violations, WCAG, withAxe } from '../helpers/axe.ts';
import { blankwright, tempFolder } from '../helpers/command.ts';
import { hasChromium, openBrowser } from '../helpers/chromium.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { downloads, kept, type, untilKept, type WrittenJob } from './by-hand.ts';
import { servedJob } from './served.ts';

/** The page, driven in a browser as a person would: what is typed, pressed, seen and downloaded. */

const PAGE = pathToFileURL(resolve('dist/page.html')).href;

/** One browser and one page for all: what takes long is to start the one and to load the other. */
let browser: BrowserContext | undefined;
let shared: Page | undefined;
let errors: string[] = [];
beforeAll(async () => {
  if (!hasChromium) return;
  browser = await openBrowser();
  shared = await listened(PAGE);
});
afterAll(async () => {
  await browser?.close();
});
beforeEach(() => {
  errors = [];
});

/** A page, whose errors are kept. */
const listened = async (url: string): Promise<Page> => {
  const page = await (browser as BrowserContext).newPage();
  page.setDefaultTimeout(20_000);
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(error.message));
  await page.setViewportSize(WIDE);
  await page.goto(url);
  await page.waitForSelector('h1');
  return page;
};

const WIDE = { width: 1280, height: 844 };

/** An empty job in this browser, and from there the view where parts are added. */
const emptied = async (): Promise<Page> => {
  const page = shared as Page;
  await page.setViewportSize(WIDE);
  // A page that is put away keeps what was typed last: what it kept so is cleared again.
  do {
    await page.evaluate("localStorage.clear(); location.hash = '#/'");
    await page.reload();
    await page.waitForSelector('text=Add a part');
  } while ((await page.locator('.card:not(.add)').count()) > 0);
  await page.click('text=Add a part');
  await page.waitForSelector('.card:has-text("bracket-angle")');
  return page;
};

const SEAT_POST = {
  legA: '60',
  legB: '2 1/2"',
  width: '80',
  thickness: '3',
  holesA: '35,20,M8; 35,60,M8',
} as const;

const typeSeatPost = async (page: Page): Promise<void> => {
  await page.fill('input[type=search]', 'seat post');
  await page.click('.card:has-text("bracket-angle") >> text=Start empty');
  await page.waitForSelector('#in-legA');
  await page.click('.group:has-text("Holes") > summary');
  for (const [name, text] of Object.entries(SEAT_POST)) await type(page, name, text);
  await page.selectOption('#in-hand', 'both');
};

describe('a person who can read a tape', () => {
  test('makes a bracket, both hands, from an empty job: the files are those of the command', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const page = await emptied();
    await typeSeatPost(page);
    await page.waitForSelector('.picture .paper svg');
    const files = await downloads(page, 'button:has-text("Cut files")');
    const folder = tempFolder();
    const ran = await blankwright(
      [
        'make',
        'bracket-angle',
        '--leg-a',
        '60',
        '--leg-b',
        '2 1/2"',
        '--width',
        '80',
        '--thickness',
        '3',
        '--holes-a',
        SEAT_POST.holesA,
        '--hand',
        'both',
        '--out',
        folder,
      ],
      folder,
    );
    expect(ran.code).toBe(0);
    expect([...files.keys()].toSorted()).toEqual([
      'bracket-angle-L.dxf',
      'bracket-angle-L.svg',
      'bracket-angle-R.dxf',
      'bracket-angle-R.svg',
    ]);
    for (const [name, text] of files) expect(text).toBe(readFileSync(join(folder, name), 'utf8'));
    // What it means stands below what was typed, which is left alone.
    expect(await page.inputValue('#in-legB')).toBe('2 1/2"');
    expect(await page.textContent('#in-legB-said')).toContain('63.5 mm');
    expect(errors).toEqual([]);
  });

  test('what is half typed is no error yet; what is wrong is told on leaving, with the mend', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const page = await emptied();
    await typeSeatPost(page);
    await page.fill('#in-legA', '60 +');
    await page.waitForSelector('#in-legA-said:text-is("not finished")');
    await page.fill('#in-legA', 'sixty');
    await page.focus('#in-legB');
    await page.waitForSelector('#in-legA[aria-invalid=true]');
    expect(await page.textContent('#in-legA-said')).toContain(
      'allowed: a length from 1 to 6000 mm',
    );
    await page.fill('#in-legA', '60');
    await page.waitForSelector('#in-legA:not([aria-invalid])');
  });

  test('a reload in the middle of typing loses nothing; undo goes to the start, redo to the end', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const page = await emptied();
    await typeSeatPost(page);
    const end = await untilKept(page, ({ parts }) => parts[0]?.hand === 'both');
    expect(end.parts[0]?.inputs).toEqual({
      legA: 60,
      legB: SEAT_POST.legB,
      width: 80,
      thickness: 3,
      holesA: SEAT_POST.holesA,
    });
    const text = await kept(page);
    await page.click('text=Undo');
    await untilKept(page, ({ parts }) => parts[0]?.hand === undefined);
    while (await page.isEnabled('button:has-text("Undo")')) await page.click('text=Undo');
    await untilKept(page, ({ parts }) => parts.length === 0);
    expect(await kept(page)).toBe('title: new job\n\nparts: []\n');
    while (await page.isEnabled('button:has-text("Redo")')) await page.click('text=Redo');
    await untilKept(page, ({ parts }) => parts[0]?.hand === 'both');
    expect(await kept(page)).toBe(text);
    await page.fill('#in-legA', '61');
    await page.reload();
    await page.waitForSelector('#in-legA');
    // Typed less than the rest before saving ago, it may be the figure before; it is never nothing.
    expect(['60', '61']).toContain(await page.inputValue('#in-legA'));
  });

  test('a mend is a button', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const page = await emptied();
    await typeSeatPost(page);
    await page.fill('#in-legA', '5');
    await page.fill('#in-holesA', '');
    await page.waitForSelector('.findings .stop button:has-text("legA")');
    await page.click('.findings .stop button:has-text("legA")');
    await page.waitForSelector('.findings li.stop', { state: 'detached' });
    expect(Number(await page.inputValue('#in-legA'))).toBeGreaterThan(5);
  });
});

test('the first example of every family, typed in, is what the command makes of it', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const page = await emptied();
  const all = [...FAMILIES.keys()].filter((name) => name !== 'panels');
  const typed: { readonly family: string; readonly inputs: Readonly<Record<string, unknown>> }[] =
    [];
  for (const family of IS_FULL ? all : ['tray']) {
    const load = FAMILIES.get(family);
    if (load === undefined) throw new Error(family);
    const [example] = (await load()).default.examples;
    await page.evaluate("location.hash = '#/add'");
    await page.fill('input[type=search]', '');
    await page.click(`.card:has(strong:text-is("${family}")) >> text=Start empty`);
    await page.waitForSelector('#in-thickness');
    await page.evaluate("for (const one of document.querySelectorAll('.group')) one.open = true");
    for (const [name, value] of Object.entries(example?.inputs ?? {})) {
      const field = page.locator(`#in-${name}`);
      const tag = await field.evaluate((one) => (one as { tagName: string }).tagName);
      if ((await field.getAttribute('type')) === 'checkbox') await field.setChecked(value === true);
      else if (tag === 'SELECT') await field.selectOption(String(value));
      else await type(page, name, String(value));
    }
    await page.waitForSelector('.picture .over .spot');
    typed.push({ family, inputs: example?.inputs ?? {} });
  }
  const job = await untilKept(page, ({ parts }) => parts.length === typed.length);
  for (const [i, { family, inputs }] of typed.entries()) {
    expect(job.parts[i]?.family).toBe(family);
    const read = { hand: job.parts[i]?.hand, ...job.parts[i], ...job.parts[i]?.inputs };
    for (const [name, value] of Object.entries(inputs))
      expect(String((read as Record<string, unknown>)[name])).toBe(String(value));
  }
  expect(errors).toEqual([]);
});

/** The middle of the first thing that a selector finds, on the screen. */
const middleOf = async (page: Page, selector: string): Promise<readonly [number, number]> => {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(selector);
  return [box.x + box.width / 2, box.y + box.height / 2];
};

const activeId = (page: Page): Promise<string> => page.evaluate('document.activeElement.id');

test('a letter and a size lead to their fields, holes are rows and are dragged, figures shown in inches', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const page = await emptied();
  await page.click('.card:has-text("bracket-angle") >> text=Start empty');
  // The letters of the family's example are there before anything is given.
  await page.waitForSelector('.sketches .spot');
  for (const [name, text] of Object.entries(SEAT_POST))
    if (name !== 'holesA') await page.fill(`#in-${name}`, text);
  await page.click('.group:has-text("Holes") > summary');
  await page.click('#in-holesA');
  await page.fill('[aria-label="holes A hole 1: from fold"]', '35');
  await page.fill('[aria-label="holes A hole 1: from left"]', '20');
  await page.press('[aria-label="holes A hole 1: from left"]', 'Shift+ArrowUp');
  await untilKept(page, ({ parts }) => parts[0]?.inputs['holesA'] === '35,25,M6');
  // A size is pressed as soon as it is known what drives it.
  await page.waitForSelector('.picture .spot:not(.idle)');
  const letters = page.locator('.sketches .spot');
  const pressed = new Set<string>();
  for (let k = 0; k < (await letters.count()); k++) {
    await letters.nth(k).click({ force: true });
    pressed.add(await activeId(page));
  }
  expect([...pressed].toSorted()).toEqual(['in-bendAngle', 'in-legA', 'in-legB', 'in-width']);
  await letters.first().click({ force: true });
  expect(await page.locator('.picture .spot.on').count()).toBeGreaterThan(0);
  await page.locator('.picture .spot:not(.idle)').first().click({ force: true });
  expect(await activeId(page)).toMatch(/^in-/);
  await page.evaluate('document.activeElement.blur(); scrollTo(0, 0)');
  const [x, y] = await middleOf(page, '.picture .over .hole');
  await page.mouse.move(x, y);
  await page.mouse.down();
  // The core is asked in which directions the hole moves; until it knows, the hole stays.
  for (let k = 1; !/^3\d,3\d,M6$/.test(await holesKept(page)); k++) {
    await page.mouse.move(x + 40, y + (k % 2));
    await page.waitForTimeout(100);
  }
  await page.mouse.up();
  await page.click('text=Undo');
  await untilKept(page, ({ parts }) => parts[0]?.inputs['holesA'] === '35,25,M6');
  await page.click('.more > summary');
  await page.selectOption('.more select >> nth=0', 'inch');
  expect(await page.textContent('#in-legB-said')).toContain('= 2 1/2 in');
  await page.selectOption('.more select >> nth=0', 'mm');
  await page.click('.more > summary');
  // On the job's card: mirrored, taken out, and all of it undone.
  await page.evaluate("location.hash = '#/'");
  await page.click('button:has-text("Mirror")');
  await untilKept(page, ({ parts }) => parts[0]?.hand === 'right');
  await page.click('button:has-text("Take out")');
  await untilKept(page, ({ parts }) => parts.length === 0);
  await page.click('text=Undo');
  await page.click('text=Undo');
  await untilKept(page, ({ parts }) => parts[0]?.hand === undefined && parts.length === 1);
  expect(errors).toEqual([]);
});

const holesKept = async (page: Page): Promise<string> => {
  const job = parse(await kept(page)) as WrittenJob;
  return String(job.parts[0]?.inputs['holesA']);
};

test('a shop is begun with four questions, and a figure of its machine changes the picture', async (ctx) => {
  needsOutside(ctx, 'Chromium', hasChromium);
  const page = await emptied();
  await page.evaluate("location.hash = '#/shop'");
  await page.waitForSelector('.machine svg');
  await page.fill('label:has-text("Longest fold") input', '1020');
  await page.fill('label:has-text("Sheets:") input', '2500 x 1250');
  await page.click('text=That is my shop');
  await page.waitForSelector('[id$=boxDepth]');
  const before = await page.innerHTML('.machine .paper');
  await page.fill('[id$=boxDepth]', 'a hand');
  await page.waitForSelector('[id$=boxDepth][aria-invalid=true]');
  await page.fill('[id$=boxDepth]', '60');
  while ((await page.innerHTML('.machine .paper')) === before) await page.waitForTimeout(50);
  const keptShop = (): Promise<string> =>
    page.evaluate<string>("localStorage.getItem('blankwright.shop') ?? ''");
  while (!(await keptShop()).includes('boxDepth: 60')) await page.waitForTimeout(50);
  await page.waitForSelector('.saved:has-text("Kept in this browser")');
  const shop = await keptShop();
  expect(parse(shop)).toMatchObject({
    folders: [{ workingLength: 1020, fingers: { boxDepth: 60 } }],
    sheets: [{ length: 2500, width: 1250 }],
  });
  expect(errors).toEqual([]);
});

describe('beside an editor', () => {
  test('what is changed there is asked about, and one of the two goes on', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const folder = tempFolder();
    const file = join(folder, 'job.yaml');
    const JOB =
      'title: cart\n# of the seat\nparts:\n  - family: bracket-angle\n    inputs: { legA: 60, legB: 40, width: 80, thickness: 3 }\n';
    writeFileSync(file, JOB);
    const served = await servedJob(folder);
    const page = await listened(served.url);
    expect(page.url()).not.toContain(served.token);
    await page.click('.card >> text=bracket-angle');
    await page.fill('#in-legA', '72');
    await page.waitForSelector('.saved:has-text("Saved in")');
    while (!readFileSync(file, 'utf8').includes('72')) await page.waitForTimeout(50);
    expect(readFileSync(file, 'utf8')).toBe(JOB.replace('legA: 60', 'legA: 72'));
    writeFileSync(file, JOB.replace('legB: 40', 'legB: 44'));
    await page.fill('#in-legA', '73');
    await page.waitForSelector('text=The job file was changed elsewhere');
    expect(readFileSync(file, 'utf8')).toContain('legB: 44');
    await page.click('text=Take what is in the file');
    while ((await page.inputValue('#in-legB')) !== '44') await page.waitForTimeout(50);
    expect(await page.inputValue('#in-legA')).toBe('60');
    expect(errors).toEqual([]);
    await served.kill('SIGKILL');
    await page.fill('#in-legA', '75');
    await page.waitForSelector('text=The server cannot be reached');
    expect(await page.inputValue('#in-legA')).toBe('75');
    await page.close();
  });
});

describe('for everybody', () => {
  const VIEWS = [
    '',
    'add',
    'part/0/measures',
    'part/0/flat',
    'part/0/folded',
    'part/0/steps',
    'shop',
    'check',
  ];

  test('no view breaks a rule of WCAG that a program can check, in any look, and none scrolls sideways', async (ctx) => {
    needsOutside(ctx, 'Chromium', hasChromium);
    const page = await emptied();
    await typeSeatPost(page);
    await untilKept(page, ({ parts }) => parts[0]?.hand === 'both');
    await page.waitForSelector('.picture .over .spot');
    await withAxe(page);
    for (const width of IS_FULL ? [1280, 820, 390] : [390]) {
      await page.setViewportSize({ width, height: 844 });
      for (const view of VIEWS) {
        await page.evaluate(`location.hash = '#/${view}'`);
        await page.waitForTimeout(200);
        // Between a phone and a wide screen nothing changes but how wide things are.
        const told = width === 820 ? [] : await violations(page, WCAG);
        expect(told.map((each) => `${width} ${view} ${each}`)).toEqual([]);
        const beyond = await beyondWindow(page);
        expect(beyond.map((each) => `${width} ${view} ${each}`)).toEqual([]);
        // Colours are the same at every width.
        for (const look of width === 390 && (IS_FULL || view === 'part/0/flat') ? LOOKS : []) {
          await page.evaluate(`document.documentElement.dataset.look = '${look}'`);
          const seen = await violations(page, COLOURS);
          expect(seen.map((each) => `${look} ${view} ${each}`)).toEqual([]);
        }
      }
    }
    expect(errors).toEqual([]);
  });
});
