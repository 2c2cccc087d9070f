import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Label, PictureItem } from '../../../src/model/picture.ts';
import { dimensionedBlank } from '../../../src/paper/draw/dimensioned-blank.ts';
import { textWidthMm } from '../../../src/paper/draw/text-width.ts';
import { writePdf } from '../../../src/paper/write/pdf.ts';
import { loadFamily } from '../../helpers/check-template.ts';
import { madeOnce } from '../../helpers/made-once.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler } from '../../helpers/poppler.ts';
import { tempFolder } from '../../helpers/command.ts';

const MM = 72 / 25.4;

/** The middle of a level or upright label, mm from the lower left. */
const middleOf = ({ at: [x, y], text, sizeMm, isBold, align = 'left', angleDeg = 0 }: Label) => {
  const wide = textWidthMm(text, sizeMm, isBold);
  const along = { left: wide / 2, middle: 0, right: -wide / 2 }[align];
  const up = 0.36 * sizeMm;
  return angleDeg === 90 ? [x - up, y + along] : [x + along, y + up];
};

test.for(['tray', 'baffle', 'ring', 'duct-box', 'strut-brace'])(
  'every figure of a drawing lies in the PDF where its feature lies, by Poppler: %s',
  async (family, ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const template = await loadFamily(family);
    const made = madeOnce(template, { ...template.examples[0]?.inputs }, { foldAt: 'service' });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    for (const { flat, datum } of made.parts) {
      if (flat === undefined || datum === undefined) throw new Error('not made');
      const { picture } = dimensionedBlank(flat, datum, { widthMm: 190, heightMm: 136 });
      const file = join(tempFolder(), 'drawing.pdf');
      writeFileSync(file, writePdf([picture], { title: 'drawing', mark: 'drawing' }));
      const { stdout } = spawnSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' });
      const words = [
        ...stdout.matchAll(
          /<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</g,
        ),
      ].map(([, x0, y0, x1, y1, text]) => ({
        text: text as string,
        box: [x0, y0, x1, y1].map((v) => Number(v) / MM) as [number, number, number, number],
      }));
      const figures = picture.items.filter(
        (item: PictureItem): item is Label =>
          item.kind === 'label' &&
          /^\(?-?[\d.]+\)?$/.test(item.text) &&
          (item.angleDeg ?? 0) % 90 === 0,
      );
      expect(figures.length).toBeGreaterThan(1);
      for (const figure of figures) {
        const [x, y] = middleOf(figure) as [number, number];
        const own = words.filter((w) => w.text === figure.text);
        const off = own.map(({ box: [x0, y0, x1, y1] }) =>
          Math.hypot((x0 + x1) / 2 - x, picture.heightMm - (y0 + y1) / 2 - y),
        );
        expect(Math.min(...off), figure.text).toBeLessThan(1);
      }
    }
  },
);
