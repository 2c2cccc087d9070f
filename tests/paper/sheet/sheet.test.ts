import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SHEETS } from '../../../src/model/paper.ts';
import { textWidthMm } from '../../../src/paper/draw/text-width.ts';
import { fitShort } from '../../../src/fit/short.ts';
import type { MadePart } from '../../../src/use/made-part.ts';
import type { Label, PictureItem } from '../../../src/model/picture.ts';
import { sheetContent } from '../../../src/paper/sheet/sheet-content.ts';
import { sheetHtml } from '../../../src/paper/sheet/sheet-html.ts';
import { sheetPages } from '../../../src/paper/sheet/sheet-pages.ts';
import { writePdf } from '../../../src/paper/write/pdf.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { loadFamily } from '../../helpers/check-template.ts';
import { hasChromium, openBrowser, openPage } from '../../helpers/chromium.ts';
import { tempFolder } from '../../helpers/command.ts';
import { inTurns } from '../../helpers/extent.ts';
import { madeOnce } from '../../helpers/made-once.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler } from '../../helpers/poppler.ts';

const partsOf = async (
  family: string,
  inputs: Record<string, unknown>,
): Promise<readonly MadePart[]> => {
  const made = madeOnce(await loadFamily(family), inputs, {
    cutOnly: false,
    dxfVersion: 'r2000',
    fit: {},
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts;
};

const SEAT_POST = {
  name: 'seat post',
  legA: 60,
  legB: 40,
  width: 80,
  material: 's275',
  thickness: 3,
  radius: 4,
  holesA: '35,20,M8; 35,60,M8',
  holesB: '22,40,8x20',
};

const requestOf = (made: MadePart) => {
  if (made.flat === undefined) throw new Error('there is no blank');
  return { made, ...(made.result.fit !== null && { fit: fitShort(made.result.fit) }) };
};

/** Labels with where they stand on the page, which groups move. */
const labelsIn = (
  items: readonly PictureItem[],
  [dx, dy]: readonly [number, number] = [0, 0],
): Label[] =>
  items.flatMap((item): Label[] => {
    if (item.kind === 'label') return [{ ...item, at: [item.at[0] + dx, item.at[1] + dy] }];
    return item.kind === 'group' ? labelsIn(item.items, [dx + item.at[0], dy + item.at[1]]) : [];
  });

/** Across the page, of a level text. */
const spanOf = ({
  at: [x],
  text,
  sizeMm,
  align = 'left',
  isBold,
}: Label): readonly [number, number] => {
  const wide = textWidthMm(text, sizeMm, isBold);
  const from = x + { left: 0, middle: -wide / 2, right: -wide }[align];
  return [from, from + wide];
};

test.each(inTurns([...FAMILIES.keys()], 0, 4))(
  '%s: nothing written off its pages, and every page says which part it is of',
  async (family) => {
    const [example] = (await loadFamily(family)).examples;
    const paper = (['a4', 'a3', 'letter'] as const)[family.length % 3] ?? 'a4';
    for (const made of await partsOf(family, { ...example?.inputs })) {
      const pages = sheetPages(sheetContent({ ...requestOf(made), paper }));
      expect(pages.map((page) => page.widthMm)).toEqual(pages.map(() => SHEETS[paper].widthMm));
      for (const [i, page] of pages.entries()) {
        const labels = labelsIn(page.items);
        expect(
          labels.some(({ text }) => text === `${i + 1} of ${pages.length}, ${paper.toUpperCase()}`),
        ).toBe(true);
        expect(
          labels
            .filter(
              (label) =>
                (label.angleDeg ?? 0) === 0 &&
                (spanOf(label)[0] < 5 || spanOf(label)[1] > page.widthMm - 5),
            )
            .map(({ text }) => text),
        ).toEqual([]);
        expect(
          labels.filter(({ at: [, y] }) => y < 5 || y > page.heightMm - 5).map(({ text }) => text),
        ).toEqual([]);
      }
    }
  },
);

describe('the sheet of a bracket', () => {
  test('takes two pages and an appendix, and tells every figure that is needed at the machine', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const [made] = await partsOf('bracket-angle', SEAT_POST);
    if (made === undefined) throw new Error('not made');
    const file = join(tempFolder(), 'sheet.pdf');
    const pages = sheetPages(sheetContent(requestOf(made)));
    expect(pages).toHaveLength(3);
    writeFileSync(file, writePdf(pages, { title: 'sheet', mark: made.mark }));
    const text = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    const { bends, foldPlan, proof, findings, fit } = made.result;
    const [bend] = bends;
    const [step] = foldPlan?.steps ?? [];
    if (bend === undefined || step === undefined || proof === null || fit === null)
      throw new Error('not planned, proved or fitted');
    expect(text).toMatch(
      new RegExp(`${bend.allowanceMm.toFixed(2)} +${bend.deductionMm.toFixed(2)}`),
    );
    expect(text).toContain(`stop at ${step.stopAtDeg.toFixed(1)}`);
    expect(text).toContain('LEFT HAND');
    const flowing = text.replace(/\s+/g, ' ');
    for (const { name, called = name } of proof.measures.slice(0, 4))
      expect(flowing).toContain(called);
    for (const line of fitShort(fit)) expect(flowing).toContain(line);
    for (const { message } of findings) expect(flowing).toContain(message.slice(0, 60));
  });

  test('of a part that was stopped says so in large letters', async () => {
    const [made] = await partsOf('bracket-angle', { ...SEAT_POST, holesA: '35,20,300' });
    if (made === undefined) throw new Error('not made');
    expect(made.stopped).toBe(true);
    expect(sheetHtml(sheetContent(requestOf(made)))).toContain('DO NOT CUT');
  });

  test('the same text each time; whatever a part is called, it stays a text', async () => {
    const name = '<script>alert(1)</script>--> "x" & \\ }*{';
    const [made] = await partsOf('bracket-angle', { ...SEAT_POST, name });
    if (made === undefined) throw new Error('not made');
    const html = sheetHtml(sheetContent(requestOf(made)));
    expect(sheetHtml(sheetContent(requestOf(made)))).toBe(html);
    expect(html).not.toContain('<script');
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
  });
});

test('holes of a pattern are counted beside one of them, others have their names', async () => {
  const grip = (await loadFamily('heel-rest')).examples[0];
  const [made] = await partsOf('heel-rest', { ...grip?.inputs });
  if (made?.flat === undefined) throw new Error('not made');
  const round = made.flat.cutouts
    .filter((hole) => hole.kind === 'round')
    .map(({ diameterMm }) => diameterMm);
  const [size, count] = [...new Set(round)]
    .map((d) => [d, round.filter((other) => other === d).length] as const)
    .toSorted((a, b) => b[1] - a[1])[0] as readonly [number, number];
  expect(count).toBeGreaterThan(12);
  const [page] = sheetPages(sheetContent(requestOf(made)));
  const texts = labelsIn(page?.items ?? []).map(({ text }) => text);
  const told = texts.flatMap((text) => {
    const found = /^(\d+) x Ø([\d.]+), \d+ rows of \d+, pitch /.exec(text);
    return found?.[2] === `${size}` ? [Number(found[1])] : [];
  });
  // Rows set off against each other are two patterns, of which one may stand in the table alone.
  expect(told.length).toBeGreaterThan(0);
  expect(told.reduce((sum, n) => sum + n, 0)).toBeGreaterThan(count / 3);
  expect(texts.filter((text) => /^h\d+$/.test(text)).length).toBeLessThanOrEqual(
    made.flat.cutouts.length - count,
  );
});

test('opened in a browser: no complaint, nothing fetched, no scrolling sideways on a phone, two pages of paper and an appendix for a bracket', async (ctx) => {
  needsOutside(ctx, 'chromium', hasChromium);
  needsOutside(ctx, 'poppler', hasPoppler);
  const folder = tempFolder();
  const browser = await openBrowser();
  try {
    for (const [family, inputs, most] of [
      ['bracket-angle', SEAT_POST, 3],
      ['heel-rest', undefined, 6],
      ['tray', undefined, 6],
    ] as const) {
      const [example] = (await loadFamily(family)).examples;
      const [made] = await partsOf(family, { ...(inputs ?? example?.inputs) });
      if (made === undefined) throw new Error('not made');
      const file = join(folder, `${family}.html`);
      writeFileSync(file, sheetHtml(sheetContent(requestOf(made))));
      const { errors, asked, tooWide, text, pdf } = await openPage(browser, file, 390);
      expect([errors, asked, tooWide]).toEqual([[], [], 0]);
      expect(text).toContain(made.result.name);
      const paper = join(folder, `${family}.pdf`);
      writeFileSync(paper, pdf);
      const pages = Number(
        /Pages: +(\d+)/.exec(spawnSync('pdfinfo', [paper], { encoding: 'utf8' }).stdout)?.[1],
      );
      expect(pages).toBeGreaterThan(0);
      expect(pages).toBeLessThanOrEqual(most);
    }
  } finally {
    await browser.close();
  }
});
