import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import tank from '../../templates/tank/index.ts';
import { blankwright, tempFolder } from '../helpers/command.ts';
import { hasChromium, openBrowser, openPage } from '../helpers/chromium.ts';
import { madeOf, packedOf, readZip } from '../helpers/packed.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

const JOB = `title: cart, part two
defaults: { papers: [card, sheet, model] }
parts:
  - { family: bracket-angle, name: seat post, hand: both, inputs: { legA: 60, legB: 40, width: 80, thickness: 3, radius: 3, holesA: '35,20,3' } }
  - { family: ring, name: a_very_long_name_without_a_space_in_it_for_the_filler_flange, revision: C, note: two to spare, inputs: { outer: 120, inner: 62, boltCircle: 92, thickness: 3 } }
  - { family: bracket-angle, name: off the metal, inputs: { legA: 60, legB: 40, width: 80, thickness: 3, holesA: '35,300,M8' } }
`;

const TANK = { ...tank.examples[0]?.inputs, name: undefined };

const linksIn = (html: string): string[] =>
  [...html.matchAll(/(?:href|src)="([^"]+)"/g)].map(([, to]) => to as string);

const made = async (): Promise<string> => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'job.yaml'), JOB);
  expect((await blankwright(['job', 'job.yaml'], cwd)).code).toBe(1);
  return join(cwd, 'out', 'cart-part-two');
};

test('the front page of a job tells what is to be decided before all else, and every link leads somewhere', async () => {
  const folder = await made();
  const html = readFileSync(join(folder, 'index.html'), 'utf8');
  const at = (text: string): number => {
    expect(html).toContain(text);
    return html.indexOf(text);
  };
  const order = [
    'To be decided first',
    'Not made:',
    '<b>Warning:</b>',
    'Cautions',
    'Sheet that is needed',
    '<h2>Parts</h2>',
    'cutlist.csv',
  ].map(at);
  expect(order).toEqual(order.toSorted((a, b) => a - b));
  expect(html).toContain('(seat post)');
  expect(html).toContain('What was on a tank');
  expect(html).toContain('Revision C');
  const files = linksIn(html).filter((to) => !to.startsWith('data:image/svg+xml,'));
  // The pictures are in the page; one for each blank that is made.
  expect(linksIn(html).length - files.length).toBe(3);
  for (const to of files) expect([to, existsSync(join(folder, to))]).toEqual([to, true]);
  // From each of its sheets there is a way back.
  const sheets = linksIn(html).filter((to) => to.endsWith('-sheet.html'));
  expect(sheets).toHaveLength(3);
  for (const sheet of sheets) {
    const page = readFileSync(join(folder, sheet), 'utf8');
    const [back = ''] = linksIn(page);
    expect(resolve(folder, dirname(sheet), back)).toBe(join(folder, 'index.html'));
  }
});

test('what is welded of several pieces stands at them with its papers, once for each hand', async () => {
  const cwd = tempFolder();
  writeFileSync(
    join(cwd, 'job.yaml'),
    `title: tank
defaults: { papers: [assembly, model] }
parts:
  - { family: tank, name: tank, hand: both, inputs: ${JSON.stringify(TANK)} }
`,
  );
  const ran = await blankwright(['job', 'job.yaml'], cwd);
  expect(ran.code).toBe(0);
  const folder = join(cwd, 'out', 'tank');
  const html = readFileSync(join(folder, 'index.html'), 'utf8');
  expect([...html.matchAll(/welded of its pieces<\/a>/g)]).toHaveLength(2);
  // Each hand has a picture of its pieces, moved apart.
  const pictures = [...html.matchAll(/<img src="([^"]+)" alt="[^"]*: pieces moved apart"/g)];
  const drawn = pictures.map(([, src = '']) => decodeURIComponent(src));
  expect(drawn).toHaveLength(2);
  for (const svg of drawn) expect(svg.match(/<path/g)?.length).toBeGreaterThan(20);
  expect(drawn[0]).not.toBe(drawn[1]);
  const papers = linksIn(html).filter((to) => to.includes('-assembly'));
  expect(papers.map((to) => to.split('.').at(-1) ?? '').toSorted()).toEqual([
    'glb',
    'glb',
    'html',
    'html',
    'pdf',
    'pdf',
  ]);
  for (const to of papers) expect([to, existsSync(join(folder, to))]).toEqual([to, true]);
  // The model of a piece is its own, not that of the whole.
  expect(
    linksIn(html).filter((to) => to.endsWith('.glb') && !to.includes('-assembly')),
  ).not.toEqual([]);
});

test('on a telephone nothing of it scrolls sideways, and a finger hits each of its links', async (ctx) => {
  needsOutside(ctx, 'chromium', hasChromium);
  const folder = await made();
  const browser = await openBrowser();
  try {
    const file = join(folder, 'index.html');
    const { errors, tooWide } = await openPage(browser, file, 390);
    expect([errors, tooWide]).toEqual([[], 0]);
    const page = await browser.newPage();
    await page.setViewportSize({ width: 390, height: 800 });
    await page.goto(`file://${file}`);
    const low = await page.evaluate(
      "document.querySelectorAll('details').forEach((d) => d.setAttribute('open', '')); [...document.querySelectorAll('a, summary')].filter((a) => a.getBoundingClientRect().height < 40).length",
    );
    expect(low).toBe(0);
    const wide = await page.evaluate('document.documentElement.scrollWidth');
    expect(wide).toBeLessThanOrEqual(390);
  } finally {
    await browser.close();
  }
});

test('the cover of an archive tells the same of what is in it, with its pictures in it', async () => {
  const parts = [...(await madeOf('ring')), ...(await madeOf('strut-brace'))];
  const { zips } = await packedOf(parts, 'service', {});
  for (const zip of zips) {
    const { names, manifest } = readZip(zip.contents);
    expect(names).toContain('index.html');
    expect(manifest.files.map(({ file }) => file)).toContain('index.html');
    const html = coverOf(zip.contents);
    for (const to of linksIn(html))
      expect([to.startsWith('data:image/svg+xml,') || names.includes(to), to]).toEqual([true, to]);
    expect(html).toContain('Cut edges are sharp');
    expect(html).toContain(
      zip.parts.some((name) => name.includes('flange'))
        ? 'What was on a tank'
        : 'Springs and struts',
    );
  }
});

const coverOf = (bytes: Uint8Array): string =>
  new TextDecoder().decode(unzipSync(bytes)['index.html']);
