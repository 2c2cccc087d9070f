import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { paperMarkText, readPaperMark } from '../../../src/model/paper-mark.ts';
import { hasChromium, openBrowser } from '../../helpers/chromium.ts';
import { blankwright, tempFolder } from '../../helpers/command.ts';
import { fixedRuns } from '../../helpers/extent.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler } from '../../helpers/poppler.ts';
import { codesIn, hasZbar } from '../../helpers/zbar.ts';

/** A bracket, and a set of pieces that are welded together. */
const JOB = `title: cart
defaults: { papers: [card, sheet, folding, assembly], date: 30 Nov 2026 }
parts:
  - { family: bracket-angle, name: seat post, revision: B 2, inputs: { legA: 60, legB: 40, width: 80, material: s275, thickness: 3, radius: 4 } }
  - { family: bracket-channel, name: trough, inputs: { flangeA: 30, web: 60, flangeB: 30, width: 90, material: s235, thickness: 2, weldAt: A } }
`;

const sha = (file: string): string =>
  createHash('sha256').update(readFileSync(file)).digest('hex').slice(0, 12);

/** The codes on every page of a PDF, drawn as fine as a cheap printer prints. */
const codesOf = (pdf: string): string[][] => {
  const folder = tempFolder();
  const run = spawnSync('pdftoppm', ['-png', '-gray', '-r', '150', pdf, join(folder, 'p')]);
  if (run.status !== 0) throw new Error(run.stderr.toString());
  return readdirSync(folder)
    .toSorted()
    .map((name) => codesIn(join(folder, name)));
};

test('zbar reads from every paper of a job and of its archives which part and which file it is of', async (ctx) => {
  needsOutside(ctx, 'zbar', hasZbar);
  needsOutside(ctx, 'poppler', hasPoppler);
  needsOutside(ctx, 'chromium', hasChromium);
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'job.yaml'), JOB);
  expect((await blankwright(['job', 'job.yaml'], cwd)).code).toBe(0);
  const cart = join(cwd, 'out', 'cart');
  const post = join(cart, 'seat-post');
  const [file] = readdirSync(post).filter((name) => name.endsWith('.dxf')) as [string];
  const base = file.slice(0, -'.dxf'.length);
  const own = { part: 'seat post', revision: 'B 2', file, sha: sha(join(post, file)) };
  for (const paper of ['card', 'folding'])
    for (const page of codesOf(join(post, `${base}-${paper}.pdf`)))
      expect(page.map(readPaperMark)).toEqual([own]);
  const [first, ...more] = codesOf(join(post, `${base}-sheet.pdf`));
  expect(first?.map(readPaperMark)).toEqual([own]);
  expect(more.flat()).toEqual([]);

  const trough = join(cart, 'trough');
  const cut = readdirSync(trough).filter((name) => name.endsWith('.dxf'));
  expect(cut.length).toBe(2);
  const [whole] = codesOf(join(trough, 'trough-assembly.pdf'));
  const mark = readPaperMark(whole?.[0] ?? '');
  expect(mark?.part).toBe('trough');
  // The files one behind the other, in either order.
  const hash = (names: readonly string[]): string =>
    createHash('sha256')
      .update(Buffer.concat(names.map((name) => readFileSync(join(trough, name)))))
      .digest('hex')
      .slice(0, 12);
  expect([hash(cut), hash(cut.toReversed())]).toContain(mark?.sha);

  const browser = await openBrowser();
  try {
    const page = await browser.newPage();
    await page.emulateMedia({ colorScheme: 'dark' });
    const shown = async (path: string): Promise<string[]> => {
      // A picture alone has no page that could be shot as a whole.
      if (path.endsWith('.svg'))
        await page.setContent(
          `<style>svg{width:1400px;height:auto}</style>${readFileSync(path, 'utf8')}`,
        );
      else await page.goto(pathToFileURL(path).href);
      const picture = join(tempFolder(), 'page.png');
      await page.screenshot({ path: picture, fullPage: true });
      return codesIn(picture);
    };
    for (const ending of ['-sheet.html', '-folding.html', '-folding.svg'])
      expect([ending, (await shown(join(post, base + ending))).map(readPaperMark)]).toEqual([
        ending,
        [own],
      ]);
    const front = (await shown(join(cart, 'index.html'))).map(readPaperMark);
    expect(front).toContainEqual(own);
    expect(front.length).toBe(3);
    expect(await shown(join(trough, 'trough-assembly.html'))).toEqual(whole);
  } finally {
    await browser.close();
  }

  expect(
    (await blankwright(['pack', 'job.yaml', '--fold', 'service', '--out', 'zips'], cwd)).code,
  ).toBe(0);
  const [zip] = readdirSync(join(cwd, 'zips')).filter((name) => name.includes('s275'));
  const out = join(cwd, 'unpacked');
  mkdirSync(out);
  spawnSync('unzip', ['-q', join(cwd, 'zips', zip ?? ''), '-d', out]);
  const packed = readdirSync(out).find((name) => name.endsWith('.dxf')) ?? '';
  const drawing = readdirSync(out).find((name) => name.endsWith('.pdf')) ?? '';
  for (const page of codesOf(join(out, drawing)))
    expect(page.map(readPaperMark)).toEqual([
      { ...own, file: packed, sha: sha(join(out, packed)) },
    ]);
  // The day stands in title blocks as it was written.
  for (const paper of [join(out, drawing), join(post, `${base}-sheet.pdf`)])
    expect(spawnSync('pdftotext', ['-layout', paper, '-'], { encoding: 'utf8' }).stdout).toContain(
      '30 Nov 2026',
    );
});

const words = fc.string({ minLength: 1, unit: 'binary' }).filter((text) => !/\p{Cs}/u.test(text));

test('a mark is read as it was written, bare, in an address and escaped once more', () => {
  fc.assert(
    fc.property(
      words,
      fc.option(words, { nil: undefined }),
      fc.option(words, { nil: undefined }),
      fc.option(fc.stringMatching(/^[0-9a-f]{12}$/), { nil: undefined }),
      (part, revision, file, digest) => {
        const mark = { part, revision, file, sha: digest };
        const text = paperMarkText(mark);
        expect(text).toMatch(/^blankwright:[\x21-\x7e]+$/);
        for (const given of [
          text,
          ` ${text}\n`,
          `#${text}`,
          `http://127.0.0.1:8080/#${text}`,
          `file:///page.html#${encodeURIComponent(text)}`,
        ])
          expect(readPaperMark(given)).toEqual(JSON.parse(JSON.stringify(mark)));
      },
    ),
    { numRuns: fixedRuns(400) },
  );
});

test('other texts are no marks', () => {
  for (const text of [
    '',
    'seat post',
    'blankwright',
    'blankwright:',
    'blankwright:?sha=1',
    'blankwright:%zz',
    'https://example.org/#part',
    '#blankwright%3A%zz',
  ])
    expect([text, readPaperMark(text)]).toEqual([text, undefined]);
});
