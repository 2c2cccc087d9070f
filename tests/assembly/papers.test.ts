import { describe, expect, test } from 'vitest';
import { makeFiles } from '../../src/use/make/make-files.ts';
import type { Picture } from '../../src/model/picture.ts';
import { movedApart } from '../../src/paper/draw/apart.ts';
import { seen } from '../../src/paper/draw/camera.ts';
import { cameraFor, type ShownPiece } from '../../src/paper/draw/exploded-view.ts';
import type { SheetBlock, SheetContent } from '../../src/paper/sheet/content.ts';
import { sheetHtml } from '../../src/paper/sheet/sheet-html.ts';
import { sheetPages } from '../../src/paper/sheet/sheet-pages.ts';
import { assemblySheet } from '../../src/use/assembly/assembly-sheet.ts';
import { shownPieces } from '../../src/use/assembly/shown-pieces.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import tank from '../../templates/tank/index.ts';
import duct from '../../templates/duct-box/index.ts';
import angle from '../../templates/bracket-angle/index.ts';
import { offPage, overlapping, paintedOf, struckThrough } from '../helpers/legible.ts';
import { exampleSets, setsFrom } from '../helpers/made-sets.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const ALL = await exampleSets();

const blockOf = <K extends SheetBlock['kind']>(
  { blocks }: SheetContent,
  kind: K,
  title: RegExp,
): Extract<SheetBlock, { kind: K }> => {
  const found = blocks.find(
    (block): block is Extract<SheetBlock, { kind: K }> =>
      block.kind === kind && 'title' in block && title.test(block.title),
  );
  if (found === undefined) throw new Error(`no ${kind}`);
  return found;
};

const textsOf = (picture: Picture): string[] =>
  paintedOf(picture).texts.map(({ label }) => label.text);

describe.each([...ALL])('$title', ({ set }) => {
  const content = assemblySheet({ set });
  const { picture } = blockOf(content, 'picture', /Pieces/);
  const isBolted = set.assembly.pieces.every(({ weldedTo }) => weldedTo?.length === 0);

  const expectBolts = (): void => {
    const { rows } = blockOf(content, 'table', /Bolts/);
    expect(rows.length).toBeGreaterThan(0);
    for (const [screw, through = '', aside] of rows) {
      expect(screw).toMatch(/^M\d+$/);
      expect(aside).toBe('0');
      for (const one of through.split(', '))
        expect(set.assembly.pieces.map(({ name }) => name)).toContain(one.replace(/ h\d+$/, ''));
    }
    // And nothing about welding.
    expect(JSON.stringify(content.blocks)).not.toMatch(/[Ww]elding pulls|Tack at|[Ss]eams/);
    for (const { name } of set.assembly.pieces)
      expect(textsOf(picture).filter((text) => text === name)).toEqual([name]);
  };

  test('every seam has its letter in view and table, at both pieces, or every bolt its row; every piece has its name', () => {
    if (isBolted) {
      expectBolts();
      return;
    }
    const table = blockOf(content, 'table', /Seams/);
    const letters = table.rows.map(([letter]) => letter ?? '');
    const shown = textsOf(picture);
    expect(letters.length).toBeGreaterThan(0);
    for (const [i, letter] of letters.entries()) {
      const isOwn = /its own/.test(table.rows[i]?.[1] ?? '');
      const count = shown.filter((text) => text === letter).length;
      expect(count, letter).toBeGreaterThanOrEqual(isOwn ? 1 : 2);
    }
    const names = set.assembly.pieces.map(({ name }) => name);
    for (const name of names) expect(shown.filter((text) => text === name)).toEqual([name]);
    // There is nothing else.
    for (const text of shown) expect([...letters, ...names]).toContain(text);
  });

  test('pieces do not lie over each other: a line parts the outlines of any two', () => {
    const pieces = shownPieces(set.assembly.pieces, 0.5) as ShownPiece[];
    const camera = cameraFor(pieces);
    const moves = movedApart(pieces, camera, [160, 110]);
    const shadows = pieces.map(({ mesh }, i) =>
      mesh.points.map((p): Vec2 => {
        const move = moves[i] ?? [NaN, NaN, NaN];
        const [x, y] = seen(camera, [p[0] + move[0], p[1] + move[1], p[2] + move[2]]);
        return [x, y];
      }),
    );
    for (const [i, own] of shadows.entries())
      for (const other of shadows.slice(i + 1)) expect(isParted(own, other)).toBe(true);
  });

  test('every text can be read: on the paper, on no other text, no line through it', () => {
    for (const page of sheetPages(content)) {
      const painted = paintedOf(page);
      expect([offPage(page, painted), overlapping(painted), struckThrough(painted)]).toEqual([
        [],
        [],
        [],
      ]);
    }
  });

  test('cautions stand before everything else', () => {
    const [first] = content.blocks;
    expect(first).toMatchObject({ kind: 'texts', title: 'Before you begin' });
    const html = sheetHtml(content);
    // But the square code beside the name.
    const pictures = html.indexOf('<svg', html.indexOf('</header>'));
    expect(html.indexOf('Before you begin')).toBeLessThan(pictures);
  });

  test('each piece that is joined later has a step, the pieces table counts all of them', () => {
    const { steps } = blockOf(content, 'steps', /Order/);
    const titles = steps.map(({ title }) => title).join('; ');
    for (const { id } of set.assembly.pieces) expect(titles).toContain(id);
    const pieces = blockOf(content, 'table', /Pieces/);
    expect(pieces.rows.reduce((sum, [, off]) => sum + Number(off), 0)).toBe(
      set.assembly.pieces.length,
    );
  });
});

/** Whether some of many directions parts two sets of points. */
const isParted = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  Array.from({ length: 720 }, (_, i) => (i * Math.PI) / 360).some((turn) => {
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const level = ([x, y]: Vec2): number => c * x + s * y;
    return (
      a.reduce((most, p) => Math.max(most, level(p)), -Infinity) <
      b.reduce((least, p) => Math.min(least, level(p)), Infinity)
    );
  });

test('of a tank the first cautions are hot work and the test for leaks; the top is its last step', () => {
  const [set] = setsFrom(tank, { ...tank.examples[0]?.inputs });
  if (set === undefined) throw new Error('no set');
  const content = assemblySheet({ set });
  const texts = blockOf(content, 'texts', /Before/).texts.map(({ text }) => text);
  expect(texts[0]).toContain('hot work');
  expect(texts[1]).toContain('leaks');
  const { steps } = blockOf(content, 'steps', /Order/);
  expect(steps.at(-1)?.title).toMatch(/Add top$/);
  expect(steps.at(-1)?.lines[0]).toContain('shuts the inside off');
});

describe('files', () => {
  const named = async (template: typeof tank, inputs: Record<string, unknown>) => {
    const made = await makeFiles({
      template,
      inputs,
      outputs: ['assembly', 'sheet'],
      options: UNPLANNED,
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    return made;
  };

  test('are written once for each hand, with the first piece, under the name of the whole', async () => {
    const scoop = duct.examples.find(({ inputs }) => inputs['name'] === 'heater-scoop');
    const { files, result } = await named(duct as unknown as typeof tank, { ...scoop?.inputs });
    const own = files.filter(({ name }) => name.includes('-assembly'));
    expect(own.map(({ name }) => name)).toEqual(
      ['L', 'R'].flatMap((hand) =>
        ['html', 'pdf', 'glb'].map((end) => `heater-scoop-${hand}-assembly.${end}`),
      ),
    );
    for (const { name, contents, mark } of own) {
      expect(Buffer.from(contents).toString('latin1', 0, 3000), name).toContain(mark);
      expect(mark).toBe(
        `blankwright duct-box heater-scoop-${name.charAt(13)} ${name.charAt(13) === 'L' ? 'left' : 'right'}`,
      );
    }
    expect(result.parts.flatMap((part) => part.files).length).toBe(files.length);
  });

  test('sheets of the pieces lead to it', async () => {
    const { files } = await named(tank, { ...tank.examples[0]?.inputs });
    const sheets = files.filter(({ name }) => name.endsWith('-sheet.html'));
    expect(sheets).toHaveLength(5);
    for (const { contents } of sheets)
      expect(String(contents)).toContain('<a href="cart-tank-assembly.html">');
  });

  test('there is none of a part of one blank', async () => {
    const { files } = await named(angle as unknown as typeof tank, {
      name: 'post',
      legA: 60,
      legB: 40,
      width: 80,
      thickness: 3,
      radius: 4,
    });
    expect(files.some(({ name }) => name.includes('-assembly'))).toBe(false);
  });
});
