import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import type { Loop, Vertex } from '../../src/geometry/loop.ts';
import { pieceOf, pointOn } from '../../src/geometry/piece.ts';
import { PROOF_MM } from '../../src/geometry/tolerance.ts';
import type { Part } from '../../src/model/part.ts';
import type { Asked } from '../../src/contract/asked.ts';
import { askedOf } from '../../src/measure/asked-part.ts';
import { FAMILIES } from '../../templates/index.ts';
import { inTurns, IS_FULL, someOf } from '../helpers/extent.ts';
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
  // Each change is a proof of its own: of a file with a thousand arcs every so many.
  const tried = someOf(groups, IS_FULL ? 200 : 100);
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

/** Whether a change moves an end of a line along the line, but for what a file may be off. */
const isAlongLine = ({ type, code, at }: Group, dxf: string): boolean => {
  const ends: Record<number, number> = {};
  let start = 0;
  edited(dxf, (g) => {
    if (g.code === 0) start = g.at;
    if (g.at >= at - 12 && g.at <= at + 12 && g.type === 'LINE' && start <= at)
      ends[g.code] = Number(g.value);
    return undefined;
  });
  const span = (from: number, to: number): number => (ends[to] ?? NaN) - (ends[from] ?? NaN);
  const [x, y] = [span(10, 11), span(20, 21)];
  const across = code === 10 || code === 11 ? y : x;
  return type === 'LINE' && Math.abs((BY_MM * across) / Math.hypot(x, y)) < PROOF_MM;
};

/** The corners of the polyline that a group belongs to, in its file's order, and which is meant. */
const cornersAround = ({ type, at }: Group, dxf: string): { loop: Vertex[]; corner: number } => {
  let loop: Vertex[] = [];
  let [corner, isPast] = [-1, false];
  edited(dxf, (g) => {
    if (g.code === 0 && g.type !== 'VERTEX') {
      isPast ||= g.at > at;
      if (!isPast) loop = [];
    }
    if (isPast || g.type !== type) return undefined;
    if (g.code === 10) loop.push({ x: Number(g.value), y: NaN, bulge: 0 });
    const last = loop.at(-1);
    if (last !== undefined && g.code === 20)
      loop[loop.length - 1] = { ...last, y: Number(g.value) };
    if (last !== undefined && g.code === 42)
      loop[loop.length - 1] = { ...last, bulge: Number(g.value) };
    if (g.at === at) corner = loop.length - 1;
    return undefined;
  });
  return { loop, corner };
};

/** How far points along the edges of one loop lie from another at most. */
const farthest = (from: Loop, to: Loop): number =>
  Math.max(
    ...from.flatMap((_, i) =>
      [0, 0.25, 0.5, 0.75].map((share) => pointGap(pointOn(pieceOf(from, i), share), to)),
    ),
  );

/**
 * Whether a change moves a corner between two nearly straight edges along them, so that the outline,
 * or the hole, stays within what a file may be wrong.
 */
const isAlongOutline = (group: Group, dxf: string, by: number): boolean => {
  const { type, code, layer } = group;
  const isDrawn = ['OUTLINE', 'HOLES'].includes(layer);
  if (!['LWPOLYLINE', 'VERTEX'].includes(type) || !isDrawn || ![10, 20].includes(code))
    return false;
  const { loop, corner } = cornersAround(group, dxf);
  const moved = loop.map((v, i) => {
    if (i !== corner) return v;
    return code === 10 ? { ...v, x: v.x + by } : { ...v, y: v.y + by };
  });
  return Math.max(farthest(moved, loop), farthest(loop, moved)) < PROOF_MM;
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
      expect(tried).toBeGreaterThan(2);
      // Lines for the rolls are notes: nothing is cut or folded by them. Nor is by the lines to which
      // louvres and beads are formed.
      expect(
        unseen.filter(
          (g) =>
            g.layer !== 'NOTE' &&
            !(family === 'vent-panel' && g.layer === 'MARK') &&
            !isAlongLine(g, dxf) &&
            !isAlongOutline(g, dxf, BY_MM),
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
