import { expect, test } from 'vitest';
import { loopExtents } from '../../src/geometry/extents.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { calledOf } from '../../src/model/hole-names.ts';
import type { Picture, PictureItem } from '../../src/model/picture.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { cardPages } from '../../src/paper/draw/card-template.ts';
import { sheetContent } from '../../src/paper/sheet/sheet-content.ts';
import { fitShort } from '../../src/fit/short.ts';
import { makeTexts } from '../../src/use/make/make-text.ts';
import type { WholePart } from '../../src/use/made-part.ts';
import { drawingPages } from '../../src/use/pack/drawing-pdf.ts';
import { proofText } from '../../src/use/prove/proof-text.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { byTurns, examplesIn } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';

/** Middles of a cut line and of its hole differ by no more, mm: a hole may be pierced smaller. */
const SAME_MM = 1e-3;

const middleOf = (points: readonly (readonly [number, number, number])[]): Vec2 => {
  const box = loopExtents(points.map(([x, y, bulge]) => ({ x, y, bulge })));
  if (box === undefined) throw new Error('a hole without a line');
  return [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
};

const labelsOf = (items: readonly PictureItem[]): string[] =>
  items.flatMap((item) =>
    item.kind === 'label' ? [item.text] : item.kind === 'group' ? labelsOf(item.items) : [],
  );

const textOf = (pages: readonly Picture[]): string =>
  pages.flatMap(({ items }) => labelsOf(items)).join('\n');

type Paper = (part: WholePart) => string;

/** What a person reads of a part, by the paper on which it stands. */
const PAPERS: Readonly<Record<string, Paper>> = {
  findings: ({ result }) => result.findings.map(({ message }) => message).join('\n'),
  terminal: ({ result }) =>
    makeTexts({
      parts: [{ ...result, fit: null, files: [] }],
      lists: [],
      reports: [],
    }).join('\n'),
  fit: ({ result: { fit } }) =>
    fit === null ? '' : [...fit.measures.map(calledOf), ...fitShort(fit)].join('\n'),
  proof: ({ result }) => proofText(result.name, { ...result.proof, findings: [] }),
  sheet: (made) => stringsIn(sheetContent({ made, isHanded: true }).blocks).join('\n'),
  archive: (made) => {
    const { name: baseName } = made.result;
    const whole = { made, fold: 'service', baseName, sharesBlank: false } as const;
    const files = { cutFile: 'cut.dxf', file: 'part.pdf' };
    return textOf(drawingPages(whole, files, { handover: DEFAULT_SHOP.handover }));
  },
  card: ({ flat, datum, drawing, result: { name } }) =>
    textOf(
      cardPages({
        flat,
        datum,
        drawing,
        name,
        about: '',
        paper: 'a3',
        paperMark: { part: name },
        cautions: [],
      }),
    ),
};

/** All texts of something, whatever they stand in. */
const stringsIn = (value: unknown): string[] => {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === 'pieces' || key === 'rims' ? [] : stringsIn(inner),
  );
};

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/**
 * What a hole came from is told behind its name, or in the table of holes beside it, and nowhere
 * else; and no name is told that no hole has.
 */
const expectNamed = (part: WholePart, said: string, where: string): void => {
  const known = part.result.blank.holes.map(({ name }) => name);
  const told = [...said.matchAll(/(?<![\w-])(h\d+)\b/g)].map(([, name]) => name as string);
  expect(
    told.filter((name) => !known.includes(name)),
    where,
  ).toEqual([]);
  // What is the name of an input alone is said of that input too.
  const named = part.flat.cutouts.filter(
    ({ name, from }) => name !== undefined && /\d$/.test(from),
  );
  const right = new Set(
    named.flatMap(({ name, panel, from }) => [`${name} (${from}`, `${panel}: ${from}`]),
  );
  const mention = new RegExp(
    `(?:h\\d+ \\(|(?:${[...new Set(named.map(({ panel }) => escaped(panel)))].join('|')}): )?(?<![\\w.])(?:${[...new Set(named.map(({ from }) => escaped(from)))].join('|')})(?!\\w|\\.\\d)`,
    'g',
  );
  const wrong = named.length === 0 ? [] : [...said.matchAll(mention)].map(([text]) => text);
  expect(
    wrong.filter((text) => !right.has(text)),
    where,
  ).toEqual([]);
};

test.each([...FAMILIES.keys()].map((family, place) => [family, place] as const))(
  '%s: a hole has one name on every paper, and the same place has the same one',
  async (family, place) => {
    // How well it fits takes longer than all the rest; one family will do.
    const fit = family === 'bracket-hat' ? { fit: {} } : {};
    const template = await loadFamily(family);
    for (const [i, { inputs }] of examplesIn(template).entries()) {
      const papers = byTurns(Object.keys(PAPERS), place + i, 4);
      const made = madeOnce(template, inputs, { ...fit, foldAt: 'service' });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const part of made.parts) {
        if (part.stopped) continue;
        const { holes } = part.result.blank;
        const placeOf = new Map(holes.map(({ name, at }) => [name, at] as const));
        expect(holes.map(({ name }) => name)).toEqual(holes.map((_, i) => `h${i + 1}`));
        expectProofNames(part, placeOf);
        expectFindingNames(part, placeOf);
        for (const where of papers)
          expectNamed(part, (PAPERS[where] as Paper)(part), `${part.result.name}, ${where}`);
        if (papers.includes('sheet')) expectTableNames(part);
      }
    }
  },
);

/** What proof and fit measure of a named hole lies in its place, by the lines that are cut. */
const expectProofNames = (part: WholePart, placeOf: ReadonlyMap<string, readonly number[]>) => {
  const { proof, fit } = part.result;
  const cut = proof.made.cut.holes;
  for (const { name, holes = [], called = '', between } of proof.measures) {
    if (holes.length === 0) continue;
    for (const hole of holes) expect(called).toContain(hole);
    const places = between.flatMap((place): Vec2[] =>
      place.kind === 'mark'
        ? [place.at as Vec2]
        : 'of' in place && place.of >= 0 && place.kind !== 'edge' && place.kind !== 'cut'
          ? [middleOf(cut[place.of] ?? [])]
          : [],
    );
    const found = places.map(
      (at) => [...placeOf].find(([, own]) => distance(at, own as Vec2) < SAME_MM)?.[0] ?? 'none',
    );
    expect(found.toSorted(), name).toEqual([...holes].toSorted());
  }
  const calledInProof = new Map(proof.measures.map((m) => [m.name, m.called] as const));
  for (const { name, called } of fit?.measures ?? [])
    if (calledInProof.has(name)) expect(called, name).toBe(calledInProof.get(name));
};

/** A finding in the place of one hole calls that hole by its name. */
const expectFindingNames = (part: WholePart, placeOf: ReadonlyMap<string, readonly number[]>) => {
  for (const { at, message } of part.result.findings) {
    const names = [...message.matchAll(/(?<![\w-])(h\d+)\b/g)].map(([, name]) => name as string);
    if (at === undefined || new Set(names).size !== 1) continue;
    const [own] = names;
    expect(distance(at, placeOf.get(own as string) as Vec2), message).toBeLessThan(SAME_MM);
  }
};

/** The table of holes gives each name its place from the datum, to the tenth that it prints. */
const expectTableNames = (part: WholePart): void => {
  const { blocks } = sheetContent({ made: part, isHanded: true });
  const rows = blocks.flatMap((b) => (b.kind === 'table' && b.title === 'Holes' ? b.rows : []));
  for (const { name, kind, fromDatum } of part.result.blank.holes) {
    // The middle of the box round a cut-out is another one when the blank is turned on the sheet.
    if (kind === 'cut-out') continue;
    const own = rows.filter(([key]) => key === name);
    expect(own.length, name).toBeLessThanOrEqual(1);
    for (const [, , , x, y] of own) {
      expect(Math.abs(Number(x) - fromDatum[0]), name).toBeLessThan(0.0501);
      expect(Math.abs(Number(y) - fromDatum[1]), name).toBeLessThan(0.0501);
    }
  }
};
