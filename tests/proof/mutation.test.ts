import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { PROOF_MM } from '../../src/geometry/tolerance.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { Part } from '../../src/model/part.ts';
import type { Asked } from '../../src/contract/asked.ts';
import { askedOf } from '../../src/measure/asked-part.ts';
import { FAMILIES } from '../../templates/index.ts';
import { inTurns } from '../helpers/extent.ts';
import { edited, type Group, proofOf, stopsOf } from '../helpers/proved.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const OTHER_LAYER: Readonly<Record<string, string>> = {
  OUTLINE: 'HOLES',
  HOLES: 'OUTLINE',
  'FOLD-UP': 'FOLD-DOWN',
  'FOLD-DOWN': 'FOLD-UP',
};

/** What one group becomes; undefined where a change would say nothing about the part. */
const mutated = ({ type, code, value, layer }: Group, by: number): string | undefined => {
  // Texts are notes; the head of an old polyline has no place of its own; the layer of a corner is
  // that of its polyline.
  if (
    type === 'TEXT' ||
    (type === 'POLYLINE' && code !== 8 && code !== 70) ||
    ((type === 'VERTEX' || type === 'SEQEND') && code === 8)
  )
    return undefined;
  if ([10, 20, 11, 21, 40].includes(code)) return String(Number(value) + by);
  if (code === 42) return String(Number(value) + by / 10);
  if (code === 8) return OTHER_LAYER[layer];
  return code === 70 && /POLYLINE/.test(type) && value === '1' ? '0' : undefined;
};

/** Each single change to a good file that the proof does not notice. */
const missed = (dxf: string, asked: Asked, by: number): { tried: number; missed: Group[] } => {
  const groups: Group[] = [];
  edited(dxf, (g) => {
    if (mutated(g, by) !== undefined) groups.push(g);
    return undefined;
  });
  const tried = inTurns(groups, 0, 4);
  const unseen = tried.filter(
    (one) =>
      stopsOf(
        proofOf(
          edited(dxf, (g) => (g.at === one.at ? mutated(g, by) : undefined)),
          asked,
        ),
      ).length === 0,
  );
  return { tried: tried.length, missed: unseen };
};

/** Whether a change moves an end of a level or upright line along the line. */
const isAlongLine = ({ type, code, at }: Group, dxf: string): boolean => {
  const ends: Record<number, number> = {};
  let start = 0;
  edited(dxf, (g) => {
    if (g.code === 0) start = g.at;
    if (g.at >= at - 12 && g.at <= at + 12 && g.type === 'LINE' && start <= at)
      ends[g.code] = Number(g.value);
    return undefined;
  });
  const across = code === 10 || code === 11 ? [20, 21] : [10, 11];
  return (
    type === 'LINE' &&
    Math.abs((ends[across[0] as number] ?? 0) - (ends[across[1] as number] ?? 1)) < 1e-6
  );
};

/** How far a point lies from a stretch of a straight line. */
const offStretch = ([x, y]: Vec2, a: Vec2, b: Vec2): number => {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const share = ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy);
  const at = Math.min(1, Math.max(0, share));
  return Math.hypot(x - a[0] - at * dx, y - a[1] - at * dy);
};

/**
 * Whether a change moves a point where two arcs of an opening run on into each other along both of
 * them: they still pass it, so near that the opening is the same within what a file may be wrong.
 */
const isAlongArcs = ({ type, code, at, layer }: Group, dxf: string): boolean => {
  if (layer !== 'HOLES' || ![10, 20].includes(code)) return false;
  const rows: Group[] = [];
  edited(dxf, (g) => {
    if (g.type === type && g.layer === layer && [10, 20].includes(g.code)) rows.push(g);
    return undefined;
  });
  const ys = rows.filter((g) => g.code === 20);
  const points = rows
    .filter((g) => g.code === 10)
    .map((g, i): Vec2 => [Number(g.value), Number(ys[i]?.value)]);
  const k = rows.filter((g) => g.code === code).findIndex((g) => g.at === at);
  const [before, after] = [points[k - 1], points[k + 1]];
  if (before === undefined || after === undefined) return false;
  const across = code === 10 ? 1 : 0;
  const off = Math.abs(after[across] - before[across]);
  return off < 1e-3 * Math.hypot(after[0] - before[0], after[1] - before[1]);
};

/**
 * Whether a change moves a corner between two nearly straight edges along them, so that the outline
 * stays within what a file may be wrong.
 */
const isAlongOutline = ({ type, code, at, layer }: Group, dxf: string, by: number): boolean => {
  if (!['LWPOLYLINE', 'VERTEX'].includes(type) || layer !== 'OUTLINE' || ![10, 20].includes(code))
    return false;
  const rows: Group[] = [];
  edited(dxf, (g) => {
    if (g.type === type && g.layer === layer && [10, 20].includes(g.code)) rows.push(g);
    return undefined;
  });
  const points = rows
    .filter((g) => g.code === 10)
    .map((g, i): Vec2 => [
      Number(g.value),
      Number(rows.filter(({ code }) => code === 20)[i]?.value),
    ]);
  const k = rows.filter((g) => g.code === code).findIndex((g) => g.at === at);
  const [from, old, to] = [points.at(k - 1), points[k], points[(k + 1) % points.length]] as [
    Vec2,
    Vec2,
    Vec2,
  ];
  const moved: Vec2 = code === 10 ? [old[0] + by, old[1]] : [old[0], old[1] + by];
  const off = (p: Vec2, middle: Vec2): number =>
    Math.min(offStretch(p, from, middle), offStretch(p, middle, to));
  return Math.max(off(moved, old), off(old, moved)) < PROOF_MM;
};

const BY_MM = 0.37;

const madeOf = async (family: string, dxfVersion: 'r2000' | 'r12') => {
  const load = FAMILIES.get(family);
  const template = (await (load as NonNullable<typeof load>)()).default;
  const made = makeParts(template, template.examples[0]?.inputs ?? {}, {
    ...UNPLANNED,
    dxfVersion,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts.slice(0, 2).flatMap((p) => {
    const dxf = p.files().find((f) => f.name.endsWith('.dxf'))?.contents;
    return dxf === undefined || p.flat === undefined
      ? []
      : [{ dxf, asked: askedOf(p.part as Part, p.flat, 0) }];
  });
};

describe('one change to a good file', () => {
  // A fold is folded along the whole of its line, from edge to edge: where the line is drawn to on
  // it does not matter.
  test.each(
    [...FAMILIES.keys()].flatMap((family, place) =>
      inTurns(['r2000', 'r12'] as const, place, 2).map((version) => [family, version] as const),
    ),
  )('of %s, %s, is noticed but for the length of a fold line', async (family, version) => {
    const blanks = await madeOf(family, version);
    expect(blanks.length).toBeGreaterThan(0);
    for (const { dxf, asked } of blanks) {
      expect(stopsOf(proofOf(dxf, asked))).toEqual([]);
      const { tried, missed: unseen } = missed(dxf, asked, BY_MM);
      expect(tried).toBeGreaterThan(inTurns([0, 1, 2], 0, 4).length - 1);
      // Lines for the rolls are notes: nothing is cut or folded by them.
      expect(
        unseen.filter(
          (g) =>
            g.layer !== 'NOTE' &&
            !isAlongLine(g, dxf) &&
            !isAlongOutline(g, dxf, BY_MM) &&
            !isAlongArcs(g, dxf),
        ),
      ).toEqual([]);
    }
  });

  test('that is no larger than a file may be wrong is none', async () => {
    const [blank] = await madeOf('bracket-angle', 'r2000');
    if (blank === undefined) throw new Error('no bracket');
    const moved = edited(blank.dxf, (g) =>
      [10, 20].includes(g.code) && g.type === 'CIRCLE'
        ? String(Number(g.value) + 0.004)
        : undefined,
    );
    expect(stopsOf(proofOf(moved, blank.asked))).toEqual([]);
  });
});
