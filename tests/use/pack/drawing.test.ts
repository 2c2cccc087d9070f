import { calledOf } from '../../../src/model/hole-names.ts';
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { figure } from '../../../src/text/figures.ts';
import { drawingPages, drawingPdf } from '../../../src/use/pack/drawing-pdf.ts';
import { sorted, type HandedPart } from '../../../src/use/pack/pack-part.ts';
import { drawable } from '../../../src/use/pack/space-dimensions.ts';
import { tempFolder } from '../../helpers/command.ts';
import { inTurns } from '../../helpers/extent.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { madeOf, OPTIONS } from '../../helpers/packed.ts';
import { hasPoppler } from '../../helpers/poppler.ts';

interface Word {
  readonly text: string;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

const FILES = { cutFile: 'cut.dxf', file: 'part.pdf' };

/**
 * A drawing as Poppler reads it: its lines page by page, and every word of the first page with its
 * box in points.
 */
const readDrawing = async (
  whole: HandedPart,
  handover = OPTIONS.handover,
): Promise<{ readonly pages: readonly string[]; readonly words: readonly Word[] }> => {
  const file = join(tempFolder(), 'drawing.pdf');
  writeFileSync(file, drawingPdf(whole, FILES, { handover }));
  const text = (...args: string[]): string => {
    const run = spawnSync('pdftotext', [...args, file, '-'], { encoding: 'utf8' });
    expect([run.status, run.stderr]).toEqual([0, '']);
    return run.stdout;
  };
  const words = [
    ...text('-bbox', '-l', '1').matchAll(
      /<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</g,
    ),
  ].map(([, minX, minY, maxX, maxY, word]): Word => ({
    text: word ?? '',
    minX: Number(minX),
    minY: Number(minY),
    maxX: Number(maxX),
    maxY: Number(maxY),
  }));
  return { pages: text('-layout').split('\f'), words };
};

const wholeOf = async (
  family: string,
  inputs: Readonly<Record<string, unknown>> = {},
): Promise<HandedPart> => {
  const made = await madeOf(family, inputs, { foldAt: 'service' });
  const whole = sorted(made.map((one) => ({ made: one, fold: 'service' as const }))).whole.find(
    (p) => p.made.flat.bends.length > 0,
  );
  if (whole === undefined) throw new Error('nothing to fold');
  return whole;
};

const DRAWN = [
  'bracket-angle',
  'bracket-channel',
  'bracket-hat',
  'bracket-zed',
  'bracket-gusset',
  'tray',
  'heel-rest',
  'strut-brace',
  'strap',
  'plate',
  'baffle',
];

/**
 * With what a stranger has to know: lengths and angles by the part's own proof, not by the drawing.
 */
describe.each(inTurns(DRAWN, 0, 2))('the drawing of %s', (family) => {
  test('says each measure and each bend as the part was proved, has each leg at a view, and no word over another, by Poppler', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const whole = await wholeOf(family);
    const {
      pages: [first = '', ...others],
      words,
    } = await readDrawing(whole);
    const rest = others.join('\n');
    const { result } = whole.made;
    const { proof } = result;
    // What the inputs mean is the maker's own business; a drawing tells what lies between faces and
    // edges.
    const measures = drawable(
      proof.measures.filter((m) => m.input === undefined),
      whole.made.flat,
    );
    expect(measures.length).toBeGreaterThan(0);
    for (const m of measures) {
      expect(rest).toMatch(
        new RegExp(
          `(?:^|\\s)${escaped(calledOf(m))} +(?:${escaped(figure(m.askedMm))}|${escaped(figure(m.askedMm, 1))})(?: |$)`,
        ),
      );
      // What was found in the part's own DXF, as its proof has it.
      expect(m.foundMm).toBeCloseTo(m.askedMm, 1);
    }
    for (const a of proof.angles.filter((angle) => angle.input === undefined))
      expect(rest).toMatch(
        new RegExp(
          `(?:^|\\s)${escaped(a.name)}, +between the faces +(?:${escaped(figure(a.askedDeg))}|${escaped(figure(a.askedDeg, 1))})°`,
        ),
      );
    for (const b of result.bends) {
      expect(rest).toMatch(
        new RegExp(
          `(?:^|\\n)(?:.*\\s)?${b.id} +${b.direction.toUpperCase()} +${escaped(figure(b.angleDeg))}° +${escaped(figure(180 - b.angleDeg))}° +${escaped(figure(b.insideRadiusMm))}(?: |\\n|$)`,
        ),
      );
    }
    for (const said of [
      result.name,
      whole.baseName === result.name ? 'one only' : `${result.hand.toUpperCase()} HAND`,
      'part.pdf',
      'Issued, by hand',
      'Revision',
      `${result.quantity} off`,
      whole.made.material.name,
      `ISO 2768-m`,
      'First-angle',
      'cut.dxf',
      'blankwright',
      result.folded.sizeMm.map((v) => figure(v, 1)).join(' x '),
    ])
      expect(first).toContain(said);
    expect(rest).toContain(
      `Blank ${figure(whole.made.result.blank.widthMm)} x ${figure(whole.made.result.blank.heightMm)} mm`,
    );

    const labels = (drawingPages(whole, FILES, OPTIONS)[0]?.items ?? []).flatMap((item) =>
      item.kind === 'label' ? [item] : [],
    );
    const legs = whole.made.result.proof.measures.filter(
      (m) =>
        m.askedMm > 0 &&
        m.between.some((p) => p.kind === 'mould') &&
        m.between.every((p) => p.kind === 'mould' || p.kind === 'edge'),
    );
    for (const leg of legs) {
      // To a tenth, where it may be off by a tenth or more.
      const texts = [figure(leg.askedMm), figure(leg.askedMm, 1)];
      const own = labels.filter((l) => texts.includes(l.text));
      expect(own.length, leg.name).toBeGreaterThan(0);
      // Poppler takes slanted words apart.
      if (own.some((l) => (l.angleDeg ?? 0) % 90 === 0))
        expect(words.some((w) => texts.includes(w.text))).toBe(true);
    }
    for (const [i, a] of words.entries()) {
      for (const b of words.slice(i + 1)) {
        // Boxes of slanted words are larger than the words.
        if ([a, b].some(isSlanted)) continue;
        expect(overlap(a, b), `${a.text} over ${b.text}`).toBe(false);
      }
    }
  });
});

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A level or upright word is about as high across as its letters, 12 points at most. */
const isSlanted = (w: Word): boolean => Math.min(w.maxX - w.minX, w.maxY - w.minY) > 22;

/** Boxes reach from the highest letter a font has to the lowest: they may touch. */
const overlap = (a: Word, b: Word): boolean =>
  Math.min(a.maxX, b.maxX) - Math.max(a.minX, b.minX) > 1.5 &&
  Math.min(a.maxY, b.maxY) - Math.max(a.minY, b.minY) > 4;

test('what is asked of the service stands in it: class, grain, face', async (ctx) => {
  needsOutside(ctx, 'poppler', hasPoppler);
  const handover = { ...OPTIONS.handover, tolerance: 'f', protect: 'outside' } as const;
  // S275 of 3 mm folds at 4 mm across the grain, and along it at 5 (DIN 6935: the least radius of
  // the next class).
  const angle = (await readDrawing(await wholeOf('bracket-angle'), handover)).pages[0];
  for (const said of [
    'ISO 2768-f',
    'rolled square to the fold lines',
    'outside face, the lower one of the DXF',
  ])
    expect(angle).toContain(said);
  // Folded up and down: no face is an outside one all over.
  expect((await readDrawing(await wholeOf('bracket-zed'), handover)).pages[0]).toContain(
    'both faces',
  );
  expect((await readDrawing(await wholeOf('bracket-angle', { radius: 12 }))).pages[0]).toContain(
    'any direction',
  );
});

test('inside dimensions are said to be so', async (ctx) => {
  needsOutside(ctx, 'poppler', hasPoppler);
  const {
    pages: [first = ''],
  } = await readDrawing(await wholeOf('bracket-channel', { measure: 'inside' }));
  expect(first).toContain('inside faces');
});

test('the same part gives the same bytes', async () => {
  const [one, two] = [
    drawingPdf(await wholeOf('tray'), FILES, OPTIONS),
    drawingPdf(await wholeOf('tray'), FILES, OPTIONS),
  ];
  expect(Buffer.compare(one, two)).toBe(0);
});

test('is drawn on the paper that is asked for, and usually on A3 where the part is larger there', async () => {
  // After ISO 216, lying.
  const wide = { a4: 297, a3: 420 } as const;
  const whole = await wholeOf('tray');
  const widths = (paper?: 'a4' | 'a3'): number[] => [
    ...new Set(drawingPages(whole, FILES, { ...OPTIONS, paper }).map(({ widthMm }) => widthMm)),
  ];
  expect([widths(), widths('a3'), widths('a4')]).toEqual([[wide.a3], [wide.a3], [wide.a4]]);
});
