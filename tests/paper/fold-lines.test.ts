import { expect, test } from 'vitest';
import { type Extents, loopExtents } from '../../src/geometry/extents.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Area, Curve, PictureItem } from '../../src/model/picture.ts';
import { cardPages } from '../../src/paper/draw/card-template.ts';
import { foldPages } from '../../src/paper/draw/fold-pages.ts';
import { FOLDS } from '../../src/paper/draw/line-types.ts';
import { smallBlank } from '../../src/paper/draw/small-blank.ts';
import { sheetContent } from '../../src/paper/sheet/sheet-content.ts';
import type { PictureBlock, SheetBlock, TableBlock } from '../../src/paper/sheet/content.ts';
import { drawnBlank } from '../../src/paper/sizes/drawn-blank.ts';
import { foldCards } from '../../src/use/outputs/folding.ts';
import type { WholePart } from '../../src/use/made-part.ts';
import { drawingPages } from '../../src/use/pack/drawing-pdf.ts';
import { sizedFlat } from '../../src/use/show/part-pictures.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { byTurns, examplesIn } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';

/** Ends of a line on paper that differ by no more, mm, are one. */
const SAME_MM = 0.01;

const flattened = (items: readonly PictureItem[], off: Vec2 = [0, 0]): PictureItem[] =>
  items.flatMap((item): PictureItem[] => {
    if (item.kind === 'group')
      return flattened(item.items, [off[0] + item.at[0], off[1] + item.at[1]]);
    const moved = (p: Vec2): Vec2 => [p[0] + off[0], p[1] + off[1]];
    const pieces = (all: Curve['pieces']) =>
      all.map((p) => ({ ...p, from: moved(p.from), to: moved(p.to) }));
    if (item.kind === 'curve') return [{ ...item, pieces: pieces(item.pieces) }];
    return item.kind === 'area' ? [{ ...item, rims: item.rims.map(pieces) }] : [item];
  });

const boxOfRim = (rim: Area['rims'][number] | undefined): Extents | undefined =>
  loopExtents((rim ?? []).map(({ from: [x, y], bulge }) => ({ x, y, bulge })));

const areaOf = ({ minX, minY, maxX, maxY }: Extents): number => (maxX - minX) * (maxY - minY);

/** How a blank lies in a picture: found by its outline alone, turned by a quarter or not. */
const layingOf = (
  items: readonly PictureItem[],
  { outline, widthMm, heightMm }: FlatPattern,
): ((p: Vec2) => Vec2) | undefined => {
  const boxes = items.flatMap((item) =>
    item.kind === 'area' && item.rims[0]?.length === outline.length
      ? (boxOfRim(item.rims[0]) ?? [])
      : [],
  );
  const [box] = boxes.toSorted((a, b) => areaOf(b) - areaOf(a));
  if (box === undefined) return undefined;
  const [wide, high] = [box.maxX - box.minX, box.maxY - box.minY];
  const isTurned = Math.abs(wide * heightMm - high * widthMm) > 1e-3 * wide * heightMm;
  const scale = isTurned ? wide / heightMm : wide / widthMm;
  return ([x, y]) =>
    isTurned
      ? [box.minX + scale * y, box.minY + scale * (widthMm - x)]
      : [box.minX + scale * x, box.minY + scale * y];
};

/** Every fold of a blank is drawn in its place by the line of its direction, and by no other. */
const expectFolds = (all: readonly PictureItem[], flat: FlatPattern, where: string): void => {
  const items = flattened(all);
  const laid = layingOf(items, flat);
  if (laid === undefined) throw new Error(`${where}: no blank`);
  const lines = items.filter((item): item is Curve => item.kind === 'curve');
  for (const { id, centreLine, direction } of flat.bends) {
    const ends = centreLine.map(laid) as [Vec2, Vec2];
    // A line may be broken where a text stands on it.
    const onFold = (p: Vec2): boolean =>
      distance(p, ends[0]) + distance(p, ends[1]) - distance(...ends) < SAME_MM;
    const own = lines.filter(({ pieces: [piece, ...more] }) => {
      if (piece === undefined || more.length > 0) return false;
      return onFold(piece.from) && onFold(piece.to) && distance(piece.from, piece.to) > 1;
    });
    expect(own.length, `${where}, fold ${id}`).toBeGreaterThan(0);
    const { dashMm } = FOLDS[direction];
    for (const { stroke } of own) expect(stroke.dashMm, `${where}, fold ${id}`).toEqual(dashMm);
  }
};

const labelsOf = (items: readonly PictureItem[]): string[] =>
  items.flatMap((item) =>
    item.kind === 'label' ? [item.text] : item.kind === 'group' ? labelsOf(item.items) : [],
  );

/** Angles beside the names of folds: turned from flat, in brackets the one between the faces. */
const expectAngles = (texts: readonly string[], flat: FlatPattern, where: string): void => {
  for (const { id, angleDeg, direction } of flat.bends) {
    const own = texts.flatMap((text) => {
      const found = new RegExp(
        `^${id.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}:? +([\\d.]+)°?(?: \\(([\\d.]+)°\\))?(?: (UP|DOWN))?(?: R.*)?$`,
      ).exec(text);
      return found === null ? [] : [found];
    });
    for (const [text, turned, between, way = direction.toUpperCase()] of own) {
      if (!/°|UP|DOWN/.test(text)) continue;
      expect(Math.abs(Number(turned) - angleDeg), `${where}: ${text}`).toBeLessThan(0.051);
      if (between !== undefined)
        expect(Math.abs(Number(between) - (180 - angleDeg)), `${where}: ${text}`).toBeLessThan(
          0.051,
        );
      expect(way, `${where}: ${text}`).toBe(direction.toUpperCase());
    }
  }
};

const pictureOf = (blocks: readonly SheetBlock[]): PictureBlock['picture'] => {
  const found = blocks.flatMap((b) =>
    b.kind === 'picture' ? [b.picture] : b.kind === 'overview' ? (b.blank?.picture ?? []) : [],
  );
  return found[0] as PictureBlock['picture'];
};

const OUTPUTS: Readonly<Record<string, (part: WholePart, where: string) => void>> = {
  sheet: (made, where) => {
    const { blocks } = sheetContent({ made });
    const { items } = pictureOf(blocks);
    const { flat } = drawnBlank(made.flat, made.datum);
    expectFolds(items, flat, where);
    expectAngles(labelsOf(items), flat, where);
    const bends = blocks.find((b): b is TableBlock => b.kind === 'table' && b.title === 'Bends');
    expect(bends?.rows.length).toBe(flat.bends.length);
    for (const [id, turned, square] of bends?.rows ?? []) {
      const bend = flat.bends.find((b) => b.id === id);
      expect(Number(turned)).toBeCloseTo(bend?.angleDeg ?? NaN, 0);
      if (square !== '-') expect(Number(square)).toBeCloseTo(180 - (bend?.angleDeg ?? NaN), 0);
    }
  },
  card: ({ flat, datum, drawing, result: { name } }, where) => {
    const [page] = cardPages({
      flat,
      datum,
      drawing,
      name,
      about: '',
      paper: 'plotter',
      paperMark: { part: name },
    });
    expectFolds(page?.items ?? [], flat, where);
    expectAngles(labelsOf(page?.items ?? []), flat, where);
  },
  archive: (made, where) => {
    const { name: baseName } = made.result;
    const whole = { made, fold: 'service', baseName, sharesBlank: false } as const;
    const files = { cutFile: 'cut.dxf', file: 'part.pdf' };
    const [views, blank] = drawingPages(whole, files, { handover: DEFAULT_SHOP.handover });
    const { flat } = drawnBlank(made.flat, made.datum);
    expectFolds(blank?.items ?? [], flat, where);
    expectAngles(labelsOf([...(views?.items ?? []), ...(blank?.items ?? [])]), flat, where);
  },
  page: (made, where) => {
    const items = sizedFlat(made, { widthMm: 160, heightMm: 110 })?.picture.items ?? [];
    const { flat } = drawnBlank(made.flat, made.datum);
    expectFolds(items, flat, where);
    expectAngles(labelsOf(items), flat, where);
  },
  'front page': ({ flat }, where) => {
    expectFolds(smallBlank(flat, { widthMm: 80, heightMm: 50 }).items, flat, where);
  },
  'step cards': (made, where) => {
    if (made.plan?.plan.feasible !== true) return;
    const cards = foldCards(made.result, made.plan, made);
    if (cards === undefined) return;
    const steps = made.plan.plan.steps;
    for (const [i, { scene }] of cards.strokes.entries()) {
      const step = steps[i];
      const bend = made.flat.bends.find(({ id }) => step?.bend.split(' + ').includes(id));
      if (scene === undefined || bend === undefined) continue;
      const pages = foldPages({
        ...cards,
        strokes: [cards.strokes[i] as (typeof cards.strokes)[0]],
      });
      const heavy = flattened(pages.flatMap(({ items }) => items)).filter(
        (item): item is Curve => item.kind === 'curve' && item.stroke.widthMm === 0.9,
      );
      expect(heavy.length, where).toBeGreaterThan(0);
      for (const { stroke } of heavy)
        expect(stroke.dashMm, `${where}, ${step?.bend}`).toEqual(FOLDS[bend.direction].dashMm);
      for (const { kind, value } of step?.card.checks ?? [])
        if (kind === 'angle')
          expect(value, `${where}, ${step?.bend}`).toBeCloseTo(180 - (step?.card.keepsDeg ?? 0), 1);
    }
  },
};

test.each([...FAMILIES.keys()].map((family, place) => [family, place] as const))(
  '%s: a fold is one line and one angle on every paper',
  async (family, place) => {
    const template = await loadFamily(family);
    for (const [i, { inputs }] of examplesIn(template).entries()) {
      const made = madeOnce(template, inputs, {});
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const part of made.parts) {
        if (part.stopped || part.flat.bends.length === 0) continue;
        for (const output of byTurns(Object.keys(OUTPUTS), place + i, 3))
          (OUTPUTS[output] as (typeof OUTPUTS)[string])(part, `${part.result.name}, ${output}`);
      }
    }
  },
);
