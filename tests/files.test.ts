import type { ICircleEntity, ILineEntity, ILwpolylineEntity } from 'dxf-parser';
import { describe, expect, test } from 'vitest';
import type { Loop } from '../src/geometry/loop.ts';
import { signedArea } from '../src/geometry/measure.ts';
import type { MadePart } from '../src/use/made-part.ts';
import { makeParts } from '../src/use/make/make-parts.ts';
import { movePoint, STILL } from '../src/geometry/motion2.ts';
import type { FlatPattern } from '../src/model/flat.ts';
import type { Part } from '../src/model/part.ts';
import { FAMILIES } from '../templates/index.ts';
import { DxfParser } from './helpers/dxf-parser.ts';
import { examplesIn } from './helpers/extent.ts';
import { inTurns } from './helpers/extent.ts';
import { ezdxfAvailable, readWithEzdxf, type ReadDxf } from './helpers/ezdxf.ts';
import { needsOutside } from './helpers/needs-outside.ts';
import { foldedPlaces, idealPlaces } from './helpers/witness.ts';

/** Two coordinates rounded for the file, mm. */
const ROUNDING_MM = 2e-4;

interface Written {
  readonly name: string;
  readonly part: MadePart;
  readonly flat: FlatPattern;
  readonly cutOnly: boolean;
  readonly dxf: string;
}

/**
 * Every example of every family, both hands, in both dialects, with and without all that is not
 * cut.
 */
const written: Written[] = [];
for (const [place, [family, load]] of [...FAMILIES].entries()) {
  const { default: template } = await load();
  for (const example of examplesIn(template)) {
    for (const cutOnly of inTurns([false, true], place, 2)) {
      for (const dxfVersion of ['r2000', 'r12'] as const) {
        const made = makeParts(
          template,
          { ...example.inputs, hand: 'both' },
          { cutOnly, dxfVersion },
        );
        if (!made.ok) throw new Error(`${family}: ${JSON.stringify(made.problems)}`);
        for (const part of made.parts) {
          const dxf = part.files().find((f) => f.name.endsWith('.dxf'))?.contents;
          if (dxf === undefined || part.flat === undefined)
            throw new Error(`${family}: ${example.title} wrote no DXF`);
          written.push({
            name: `${part.result.name} ${dxfVersion}`,
            part,
            flat: part.flat,
            cutOnly,
            dxf,
          });
        }
      }
    }
  }
}

type Point = readonly [number, number];

/** Each vertex of the one has a vertex of the other at the same place with the same bulge. */
const expectSameLoop = (
  found: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[],
  loop: Loop,
): void => {
  expect(found.length).toBe(loop.length);
  for (const v of loop) {
    const near = found.find((f) => Math.hypot(f.x - v.x, f.y - v.y) < ROUNDING_MM);
    expect(near, `${v.x}, ${v.y}`).toBeDefined();
    expect(near?.bulge ?? 0).toBeCloseTo(v.bulge, 6);
  }
};

/** A blank that is one full circle goes out as one, not as a polyline of arcs. */
const expectRound = (radius: number, flat: FlatPattern): void => {
  expect(flat.outline.every((v) => v.bulge === flat.outline[0]?.bulge && v.bulge > 0)).toBe(true);
  expect([2 * radius, 2 * radius]).toEqual([
    expect.closeTo(flat.widthMm, 3),
    expect.closeTo(flat.heightMm, 3),
  ]);
};

/**
 * As many of the one as of the other, and for each wanted row of figures one found that is the same
 * but for rounding.
 */
const expectSameRows = (
  found: readonly (readonly number[])[],
  wanted: readonly (readonly number[])[],
): void => {
  expect(found).toHaveLength(wanted.length);
  for (const row of wanted) {
    const least = Math.min(
      ...found.map((f) => Math.max(...f.map((v, i) => Math.abs(v - (row[i] ?? NaN))))),
    );
    expect(least, row.join(', ')).toBeLessThan(ROUNDING_MM);
  }
};

/** Either way round a fold line is the same line. */
const bothWays = ([p, q]: readonly [Point, Point]): number[][] => [
  [...p, ...q],
  [...q, ...p],
];

const expectFolds = (
  found: readonly (readonly [string, Point, Point])[],
  { flat, cutOnly }: Written,
): void => {
  for (const [layer, direction] of [
    ['FOLD-UP', 'up'],
    ['FOLD-DOWN', 'down'],
  ] as const) {
    const wanted = cutOnly ? [] : flat.bends.filter((b) => b.direction === direction);
    expectSameRows(
      found.filter(([on]) => on === layer).flatMap(([, p, q]) => bothWays([p, q])),
      wanted.flatMap((b) => bothWays(b.centreLine)),
    );
  }
};

const holeLoops = (flat: FlatPattern): Loop[] =>
  flat.cutouts.flatMap((c) => (c.kind === 'loop' ? [c.loop] : []));
const rounds = (flat: FlatPattern): number[][] =>
  flat.cutouts.flatMap((c) => (c.kind === 'round' ? [[...c.centre, c.diameterMm / 2]] : []));

const checkEzdxf = (w: Written, read: ReadDxf): void => {
  expect([w.name, read.errors, read.fixes]).toEqual([w.name, [], []]);
  const polylines = read.entities.filter((e) => e.type === 'LWPOLYLINE' || e.type === 'POLYLINE');
  const outlines = read.entities.filter((e) => e.layer === 'OUTLINE');
  expect(outlines).toHaveLength(1);
  const [outline] = outlines;
  if (outline?.type === 'CIRCLE') expectRound(outline.radius, w.flat);
  else
    expectSameLoop(
      outline?.type === 'LWPOLYLINE' || outline?.type === 'POLYLINE' ? outline.vertices : [],
      w.flat.outline,
    );
  expect(polylines.every((p) => p.closed)).toBe(true);
  expect(polylines.filter((p) => p.layer === 'HOLES')).toHaveLength(holeLoops(w.flat).length);
  const circles = read.entities.flatMap((e) =>
    e.type === 'CIRCLE' && e.layer === 'HOLES' ? [[...e.centre, e.radius]] : [],
  );
  expectSameRows(circles, rounds(w.flat));
  expectFolds(
    read.entities.flatMap((e) => (e.type === 'LINE' ? [[e.layer, e.from, e.to] as const] : [])),
    w,
  );
  expect(read.extMin).toEqual([expect.closeTo(0, 3), expect.closeTo(0, 3)]);
  expect(read.extMax).toEqual([
    expect.closeTo(w.flat.widthMm, 3),
    expect.closeTo(w.flat.heightMm, 3),
  ]);
  if (w.cutOnly)
    expect(
      Object.keys(read.layers).filter((l) => !['0', 'Defpoints', 'OUTLINE', 'HOLES'].includes(l)),
    ).toEqual([]);
};

/**
 * Takes the round holes out of the DXF, folds each up with its panel by the witness, and compares
 * with its place by the mould lines alone. Says how many there were.
 */
const expectHolesFoldBack = ({ part, flat, dxf }: Written): number => {
  const folded = part.part as Part;
  const circles = (new DxfParser().parseSync(dxf)?.entities ?? []).filter(
    (e): e is ICircleEntity => e.type === 'CIRCLE' && e.layer === 'HOLES',
  );
  const root = flat.panels.find((p) => p.id === folded.root);
  const ideal = idealPlaces(folded, ([x, y, z]) => [
    ...movePoint(root?.placement ?? STILL, [x, y]),
    z,
  ]);
  const places = foldedPlaces(flat, folded.root);
  const holes = folded.panels.flatMap((p) =>
    p.cutouts.flatMap((c) => (c.kind === 'round' ? [{ panel: p.id, centre: c.centre }] : [])),
  );
  expect(circles).toHaveLength(holes.length);
  for (const { panel, centre } of holes) {
    const wanted = ideal.get(panel)?.([...centre, 0]) ?? [];
    const found = circles.map((c) => places.get(panel)?.([c.center.x, c.center.y, 0]) ?? []);
    const gaps = found.map((f) => Math.hypot(...f.map((v, i) => v - (wanted[i] ?? NaN))));
    expect(Math.min(...gaps)).toBeLessThan(ROUNDING_MM);
  }
  return holes.length;
};

describe('the files of every example', () => {
  test('read by ezdxf and found sound by its auditor, hold the flat pattern', (ctx) => {
    needsOutside(ctx, 'python3-ezdxf', ezdxfAvailable);
    const reads = readWithEzdxf(written.map((w) => w.dxf));
    written.forEach((w, i) => checkEzdxf(w, reads[i] as ReadDxf));
  });

  test.each(written.filter((w) => w.name.endsWith('r2000')))(
    '$name read by dxf-parser hold the flat pattern',
    (w) => {
      const read = new DxfParser().parseSync(w.dxf);
      const entities = read?.entities ?? [];
      const loops = entities.filter((e): e is ILwpolylineEntity => e.type === 'LWPOLYLINE');
      const rings = entities.filter((e): e is ICircleEntity => e.type === 'CIRCLE');
      const [round] = rings.filter((c) => c.layer === 'OUTLINE');
      if (round !== undefined) expectRound(round.radius, w.flat);
      else expectSameLoop(loops.find((l) => l.layer === 'OUTLINE')?.vertices ?? [], w.flat.outline);
      const circles = rings
        .filter((c) => c.layer === 'HOLES')
        .map((c) => [c.center.x, c.center.y, c.radius]);
      expectSameRows(circles, rounds(w.flat));
      const lines = entities.filter((e): e is ILineEntity => e.type === 'LINE');
      expectFolds(
        lines.map(
          (l) =>
            [
              l.layer,
              [l.vertices[0]?.x ?? NaN, l.vertices[0]?.y ?? NaN],
              [l.vertices[1]?.x ?? NaN, l.vertices[1]?.y ?? NaN],
            ] as const,
        ),
        w,
      );
      expect(read?.header['$INSUNITS']).toBe(4);
      expect(read?.header['$MEASUREMENT']).toBe(1);
    },
  );

  test('folded back from their own text, holes come to lie where their mould lines say', () => {
    let held = 0;
    for (const w of written.filter(
      (x) => x.name.endsWith('r2000') && !x.cutOnly && x.flat.bends.every((b) => b.angleDeg <= 90),
    )) {
      held += expectHolesFoldBack(w);
    }
    expect(held).toBeGreaterThan(20);
  });

  test('are the same bytes at every run, say the rule, and carry a mark that tells the hands apart', () => {
    for (const { part, dxf } of written) {
      expect(part.files().find((f) => f.name.endsWith('.dxf'))?.contents).toBe(dxf);
      const remark = /^999\n(.*)\n999\nbends by (.*)\n/.exec(dxf);
      expect(remark?.[1]).toBe(part.mark);
      // A roll, a hem or a crease may go by a rule of its own; the part's is told where a bend uses it.
      const used = part.result.bends.map((b) => b.rule);
      for (const rule of used.length === 0 ? [part.result.rule] : used) {
        expect(remark?.[2]).toContain(rule);
        expect(part.files().every((f) => f.contents.includes(rule))).toBe(true);
      }
      expect(part.mark.endsWith(` ${part.result.hand}`)).toBe(true);
    }
  });

  test('the area of the blank in the JSON is that of the outline less its holes', () => {
    for (const { part, flat } of written) {
      const holes = flat.cutouts.reduce(
        (sum, c) =>
          sum +
          (c.kind === 'round' ? (Math.PI * c.diameterMm ** 2) / 4 : Math.abs(signedArea(c.loop))),
        0,
      );
      expect(part.result.blank?.areaMm2).toBeCloseTo(signedArea(flat.outline) - holes, 6);
    }
  });
});
