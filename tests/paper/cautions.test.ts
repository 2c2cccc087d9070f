import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { CAUTION_STEPS, type CautionId, CAUTIONS } from '../../src/data/cautions.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { Picture, PictureItem } from '../../src/model/picture.ts';
import { filesOf } from '../../src/use/outputs/files-of.ts';
import { setsOf } from '../../src/use/assembly/assembled.ts';
import { makeTexts } from '../../src/use/make/make-text.ts';
import { drawingPages } from '../../src/use/pack/drawing-pdf.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { tempFolder } from '../helpers/command.ts';
import { examplesIn, someOf } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { hasPoppler } from '../helpers/poppler.ts';

/** Common practice: what a workshop warns of at each kind of part, whatever the tool says. */
const OF_FAMILY: Readonly<Record<string, readonly CautionId[]>> = {
  tank: ['fuel-tank', 'leak-test', 'weld-heat'],
  'tank-plan': ['fuel-tank', 'leak-test', 'weld-heat'],
  'tank-sections': ['fuel-tank', 'leak-test', 'weld-heat'],
  baffle: ['fuel-tank', 'weld-heat'],
  ring: ['tank-opening'],
  'strut-brace': ['suspension', 'safety-relevant', 'load-bearing'],
  tray: ['carried-load'],
  strap: ['carried-load', 'load-bearing'],
  'heel-rest': ['pedal-area', 'weld-heat'],
  'bracket-gusset': ['load-bearing', 'weld-heat'],
};

const OF_METAL: Readonly<Record<string, readonly CautionId[]>> = {
  steel: ['steel-fume'],
  galvanised: ['galvanised-fume'],
  stainless: ['stainless-fume'],
  aluminium: ['aluminium-fume', 'aluminium-grain'],
};

/** What the line CARE of a step card says in its own words, of the machine that its stroke is made on. */
const ON_CARDS: Readonly<Partial<Record<CautionId, string>>> = {
  pinch: 'CARE .*hands (clear|out) of',
  'sharp-edges': 'CARE .*cut edges are sharp',
};

const flowing = (text: string): string => text.replace(/\s+/g, ' ');

const textOf = (pdf: Uint8Array): string => {
  const file = join(tempFolder(), 'paper.pdf');
  writeFileSync(file, pdf);
  return flowing(spawnSync('pdftotext', [file, '-'], { encoding: 'utf8' }).stdout);
};

/** The text of each page. */
const pagesOf = (pdf: Uint8Array): string[] => {
  const file = join(tempFolder(), 'pages.pdf');
  writeFileSync(file, pdf);
  const text = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
  return text.split('\f').slice(0, -1).map(flowing);
};

/** The text of a page or a picture, its tags taken out. */
const untagged = (markup: string): string =>
  flowing(
    markup
      .replace(/<style>.*?<\/style>/gs, '')
      .replace(/<[^>]+>/g, ' ')
      .replaceAll('&apos;', "'")
      .replaceAll('&#39;', "'"),
  );

/** What is written on a page, in the order of its painting; lines of one sentence follow each other. */
const writingOf = ({ items }: Picture): string => flowing(labelsOf(items).join(' '));

const labelsOf = (items: readonly PictureItem[]): string[] =>
  items.flatMap((item) =>
    item.kind === 'label' ? [item.text] : item.kind === 'group' ? labelsOf(item.items) : [],
  );

test.each([...FAMILIES.keys()])(
  '%s: every caution stands on each of its papers, before the work that it is about',
  async (family) => {
    const template = await loadFamily(family);
    for (const [i, { inputs }] of someOf(examplesIn(template), 2).entries()) {
      const made = madeOnce(template, inputs, { cutOnly: false, dxfVersion: 'r2000' });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const part of someOf(made.parts, 3, i)) {
        if (part.stopped) continue;
        const ids: CautionId[] = [
          'sharp-edges',
          'eyes',
          ...(OF_METAL[part.material.family] ?? []),
          ...(part.part.folds.length > 0 ? (['pinch'] as const) : []),
          ...(OF_FAMILY[family] ?? []),
        ];
        const { files } = await filesOf({ part, outputs: ['card', 'sheet', 'folding'] });
        const read = (ending: string): string | undefined => {
          const contents = files.find(({ name }) => name.endsWith(ending))?.contents;
          if (contents === undefined) return undefined;
          return typeof contents === 'string' ? untagged(contents) : textOf(contents);
        };
        const page = read('-sheet.html') as string;
        for (const id of ids) {
          expect(page).toContain(CAUTIONS[id].text);
          expect(page.indexOf(CAUTIONS[id].short)).toBeLessThan(page.indexOf('Blank, developed'));
        }
        // At their step: those of cutting and folding before folding, those of the rest behind it.
        const steps = ids
          .toSorted((a, b) => page.indexOf(CAUTIONS[a].text) - page.indexOf(CAUTIONS[b].text))
          .map(stepOf)
          .map((step) => Math.floor(step / 2));
        expect(steps).toEqual(steps.toSorted((a, b) => a - b));
        if (hasPoppler) {
          const sheet = read('-sheet.pdf') as string;
          const card = read('-card.pdf') as string;
          for (const id of ids) {
            expect(sheet).toContain(CAUTIONS[id].text.slice(0, 40));
            expect(card).toContain(CAUTIONS[id].short);
          }
        }
        const folding = read('-folding.svg');
        if (folding !== undefined && part.part.folds.length > 0)
          for (const id of ids)
            expect(folding).toMatch(
              new RegExp(`${CAUTIONS[id].short}|${CAUTIONS[id].text}|${ON_CARDS[id] ?? 'none'}`),
            );
        const drawing = drawingPages(
          { made: part, fold: 'service', baseName: part.result.name, sharesBlank: false },
          { cutFile: 'cut.dxf', file: 'part.pdf' },
          { handover: DEFAULT_SHOP.handover },
        ).map(writingOf);
        for (const id of ids) {
          for (const text of drawing) expect(text).toContain(CAUTIONS[id].short);
          // A long one may go on on the next page.
          expect(drawing.join(' ')).toContain(CAUTIONS[id].text.slice(0, 30));
        }
        const [told = ''] = makeTexts({
          parts: [{ ...part.result, files: [] }],
          reports: [],
          lists: [],
        });
        for (const id of ids) expect(flowing(told)).toContain(`CAUTION ${CAUTIONS[id].text}`);
        expect(told).not.toMatch(/note +Cut edges/);
      }
    }
  },
);

test.each(['tank', 'tank-plan', 'tank-sections'])(
  '%s: hot work and the test for leaks stand first on every paper, and on every page of its own',
  async (family) => {
    const template = await loadFamily(family);
    const { inputs } = template.examples[0] as (typeof template.examples)[number];
    const made = madeOnce(template, inputs, { cutOnly: false, dxfVersion: 'r2000' });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const [set] = setsOf(made.parts);
    const both = `${CAUTIONS['fuel-tank'].short}; ${CAUTIONS['leak-test'].short}`;
    const [part] = made.parts;
    if (part === undefined || part.stopped) throw new Error('no part');
    const { files } = await filesOf({ part, outputs: ['card', 'sheet', 'assembly'], set });
    for (const { name, contents } of files.filter((file) => file.name.endsWith('.pdf'))) {
      if (!hasPoppler || typeof contents === 'string') continue;
      const pages = pagesOf(contents);
      expect(pages.length, name).toBeGreaterThan(1);
      for (const [i, page] of pages.entries()) {
        // The first page of the whole has both in full, before all else.
        if (name.includes('assembly') && i === 0)
          expect(page.indexOf(CAUTIONS['fuel-tank'].text)).toBeLessThan(
            page.indexOf(CAUTIONS['sharp-edges'].text),
          );
        else if (name.includes('card')) expect(page + pages[0]).toContain(both);
        else expect(page, name).toMatch(new RegExp(`CAUTION ${both}`));
      }
    }
    for (const { name, contents } of files.filter((file) => file.name.endsWith('sheet.html')))
      expect(untagged(contents as string), name).toContain(`CAUTION ${both}`);
    const [told = ''] = makeTexts({
      parts: [{ ...part.result, files: [] }],
      reports: [],
      lists: [],
    });
    expect(told).toContain(`CAUTION ${both}`);
  },
);

const stepOf = (id: CautionId): number => CAUTION_STEPS.indexOf(CAUTIONS[id].at);

test('papers are read back by Poppler', (ctx) => {
  needsOutside(ctx, 'poppler', hasPoppler);
  expect(hasPoppler).toBe(true);
});
