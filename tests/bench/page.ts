import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Page } from 'playwright-core';
import { stringify } from 'yaml';
import { FAMILIES } from '../../templates/index.ts';
import { middleOf } from '../../src/statistics/middle.ts';
import type { Answer } from './measure.ts';
import { figureOf } from './report.ts';

/**
 * The page in a browser without a screen: from a key to the new flat picture, from there to checks and
 * proof, from the address to a page that can be used, each against its aim, and the size of the file.
 */

const FILE = resolve('dist/page.html');
const PAGE = pathToFileURL(FILE).href;
const KEYS = 16;
const OPENINGS = 8;
const REST_MS = 30;

const KEY_AIM_MS = 16;
const LARGE_AIM_MS = 50;
const CHECKED_AIM_MS = 150;
const OPEN_AIM_MS = 1000;
const SIZE_AIM_MB = 3;

/** Notes when each answer of the cores comes, by what was asked. */
const WATCHED = `
  globalThis.told = [];
  const Plain = Worker;
  globalThis.Worker = class extends Plain {
    #kinds = new Map();
    constructor(...all) {
      super(...all);
      this.addEventListener('message', ({ data }) => told.push([this.#kinds.get(data.id), performance.now()]));
    }
    postMessage(asked, ...more) {
      this.#kinds.set(asked.id, asked.kind);
      super.postMessage(asked, ...more);
    }
  };`;

/** Types a figure; gives the milliseconds to the new picture, and to the answer with checks and proof. */
const TYPED = `async (id, value) => {
  const field = document.getElementById(id);
  const begin = performance.now();
  told.length = 0;
  const drawn = new Promise((done) => {
    const seen = new MutationObserver(() => { seen.disconnect(); done(performance.now() - begin); });
    seen.observe(document.querySelector('.picture'), { childList: true, subtree: true });
  });
  field.value = value;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  const picture = await drawn;
  while (!told.some(([kind]) => kind === 'part')) await new Promise((done) => setTimeout(done, 1));
  return [picture, told.find(([kind]) => kind === 'part')[1] - begin];
}`;

export default async (): Promise<Answer[]> => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-page-'));
  const browser = await chromium.launchPersistentContext(folder, {
    executablePath: '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu'],
    headless: true,
  });
  try {
    const answers = [];
    for (const [family, load] of FAMILIES) {
      const [example] = (await load()).default.examples;
      const { name: _, hand: __, quantity: ___, ...inputs } = example?.inputs ?? {};
      const page = await browser.newPage();
      await page.addInitScript(WATCHED);
      const job = stringify({ title: 'bench', parts: [{ family, inputs }] });
      await page.addInitScript(
        `localStorage.clear(); localStorage.setItem('blankwright.job', ${JSON.stringify(job)})`,
      );
      answers.push(...(await typing(page, family)));
      await page.close();
    }
    const megabytes = statSync(FILE).size / 1e6;
    return [
      ...answers,
      answerOf('page: open to usable', await openings(browser.newPage.bind(browser)), OPEN_AIM_MS),
      {
        question: `page: its file has ${megabytes.toFixed(2)} MB`,
        wallMs: { middle: 0 },
        perSecond: 0,
        ratio: { middle: megabytes / SIZE_AIM_MB },
        against: `${SIZE_AIM_MB} MB`,
        aim: { on: 'ratio', atMost: 1 },
      },
    ];
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
};

const typing = async (page: Page, family: string): Promise<Answer[]> => {
  await page.goto(`${PAGE}#/part/0/flat`);
  await page.waitForSelector('.picture .paper svg');
  const [id, value] = await page.evaluate<[string, string]>(
    "(() => { const one = [...document.querySelectorAll('.fields input')].find((field) => /^\\d+(\\.\\d+)?$/.test(field.value) && !/thickness|quantity/.test(field.id)); return [one?.id ?? '', one?.value ?? '']; })()",
  );
  if (id === '') return [];
  const pictures: number[] = [];
  const checked: number[] = [];
  const used: number[] = [];
  const cpuMs = await processorOf(page);
  for (let i = 0; i < KEYS; i++) {
    const next = String(Number(value) + (i % 2 === 0 ? 1 + i / 100 : 0));
    const before = await cpuMs();
    const [picture, part] = await page.evaluate<[number, number]>(
      `(${TYPED})(${JSON.stringify(id)}, ${JSON.stringify(next)})`,
    );
    pictures.push(picture);
    checked.push(part);
    used.push((await cpuMs()) - before);
    await page.waitForTimeout(REST_MS);
  }
  const aim = family.startsWith('bracket') ? KEY_AIM_MS : LARGE_AIM_MS;
  return [
    answerOf(`page, ${family}: key to flat picture`, pictures, aim),
    answerOf(`page, ${family}: key to checks and proof`, checked, CHECKED_AIM_MS, used),
  ];
};

/**
 * Reads what the process of a page has had of the processor so far, its workers included, ms: in
 * steps of 10, as the browser tells it.
 */
const processorOf = async (page: Page): Promise<() => Promise<number>> => {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    const seconds = metrics.find(({ name }) => name === 'ProcessTime')?.value;
    if (seconds === undefined) throw new Error('the browser does not tell its processor time');
    return 1000 * seconds;
  };
};

const openings = async (newPage: () => Promise<Page>): Promise<number[]> => {
  const times: number[] = [];
  for (let i = 0; i < OPENINGS; i++) {
    const page = await newPage();
    const begin = performance.now();
    await page.goto(`${PAGE}#/`);
    await page.waitForSelector('h1');
    times.push(performance.now() - begin);
    await page.close();
  }
  return times;
};

/** Of the clock: that is what whoever types waits for. */
const answerOf = (
  question: string,
  wallMs: readonly number[],
  aimMs: number,
  cpuMs?: readonly number[],
): Answer => {
  const sorted = wallMs.toSorted((a, b) => a - b);
  const middle = middleOf(wallMs);
  return {
    question,
    wallMs: figureOf(wallMs),
    ...(cpuMs !== undefined && { cpuMs: figureOf(cpuMs) }),
    p95Ms: sorted[Math.floor(0.95 * (sorted.length - 1))] ?? middle,
    perSecond: 1000 / middle,
    ratio: figureOf(wallMs.map((ms) => ms / aimMs)),
    against: `${aimMs} ms`,
    aim: { on: 'ratio', atMost: 1 },
  };
};
