import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { movePoint } from '../../src/geometry/motion2.ts';
import { dot3, length3, sub3, along3, type Vec3 } from '../../src/geometry/vec3.ts';
import type { FlatPanel, FlatPattern } from '../../src/model/flat.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { box, fold, panel, part, prism } from '../helpers/parts.ts';
import { TREES } from '../helpers/trees.ts';
import { foldedPlaces } from '../helpers/witness.ts';

const K = { id: 'k', k: 0.42 } as const;

const cross3 = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

type Segment = readonly [Vec3, Vec3];

/** Shortest distance between two straight segments: between their lines, or from an end. */
const segmentGap = ([a, b]: Segment, [c, d]: Segment): number => {
  const [u, v, w] = [sub3(b, a), sub3(d, c), sub3(a, c)];
  const n = cross3(u, v);
  const n2 = dot3(n, n);
  const ends = [pointGap(a, [c, d]), pointGap(b, [c, d]), pointGap(c, [a, b]), pointGap(d, [a, b])];
  if (n2 < 1e-12 * dot3(u, u) * dot3(v, v)) return Math.min(...ends);
  const s = -dot3(cross3(w, v), n) / n2;
  const t = -dot3(cross3(w, u), n) / n2;
  const between =
    s >= 0 && s <= 1 && t >= 0 && t <= 1 ? Math.abs(dot3(w, n)) / Math.sqrt(n2) : Infinity;
  return Math.min(between, ...ends);
};

const pointGap = (p: Vec3, [a, b]: Segment): number => {
  const u = sub3(b, a);
  const t = Math.min(1, Math.max(0, dot3(sub3(p, a), u) / dot3(u, u)));
  return length3(sub3(p, along3(a, u, t)));
};

/** All straight edges of a folded panel: round both faces, and between them at every corner. */
const edgesOf = (flat: FlatPattern, panel: FlatPanel, root: string): Segment[] => {
  const place = foldedPlaces(flat, root).get(panel.id);
  const corner = (i: number, z: number): Vec3 => {
    const v = panel.region[i % panel.region.length];
    return place?.([...movePoint(panel.placement, [v?.x ?? 0, v?.y ?? 0]), z]) ?? [NaN, NaN, NaN];
  };
  const t = flat.thicknessMm;
  return panel.region.flatMap((_, i): Segment[] => [
    [corner(i, 0), corner(i + 1, 0)],
    [corner(i, t), corner(i + 1, t)],
    [corner(i, 0), corner(i, t)],
  ]);
};

const gapBetween = (part: Part, flat: FlatPattern, first: string, second: string): number => {
  const [a, b] = [first, second].map((id) =>
    edgesOf(flat, flat.panels.find((p) => p.id === id) as FlatPanel, part.root),
  ) as [Segment[], Segment[]];
  return Math.min(...a.flatMap((p) => b.map((q) => segmentGap(p, q))));
};

describe('the gap of an open corner, measured on the folded part', () => {
  it.each([0.2, 0.5, 1.5])('is %s mm on a square box, as asked', (gap) => {
    for (const [r, t] of [
      [3, 3],
      [0.5, 1],
      [0, 2],
      [6, 1.5],
    ] as const) {
      const part = box(100, 60, 40, 90, r, t, { cornerGapMm: gap });
      for (const p of [part, mirrorPart(part)]) {
        const flat = flatten(p, K);
        for (let i = 0; i < 4; i++)
          expect(gapBetween(p, flat, `wall ${i}`, `wall ${(i + 1) % 4}`)).toBeCloseTo(gap, 9);
      }
    }
  });

  it('is never less than asked, whatever the corner, the angle and the taper', () => {
    for (const sides of [3, 4, 5, 6, 8]) {
      for (const angleDeg of [20, 45, 80, 90, 100, 125]) {
        for (const flare of [-5, 0, 8]) {
          const part = prism(sides, 70, 30, flare, angleDeg, 2, 1.5);
          const flat = flatten(part, K);
          expect(flat.findings).toEqual([]);
          for (let i = 0; i < sides; i++)
            expect(gapBetween(part, flat, `wall ${i}`, `wall ${(i + 1) % sides}`)).toBeGreaterThan(
              0.5 - 1e-9,
            );
        }
      }
    }
  });

  it('holds for lips turned in over a tray, and for lips turned out', () => {
    for (const { part } of TREES.filter((t) => t.name.startsWith('tray'))) {
      const flat = flatten(part, K);
      for (let i = 0; i < 4; i++) {
        for (const [a, b] of [
          ['wall', 'wall'],
          ['lip', 'lip'],
          ['lip', 'wall'],
          ['wall', 'lip'],
        ] as const) {
          expect(gapBetween(part, flat, `${a} ${i}`, `${b} ${(i + 1) % 4}`)).toBeGreaterThan(
            0.5 - 1e-9,
          );
        }
      }
    }
  });

  it("a tab that stands alone on the edge of a wall is not trimmed by the bend at the wall's foot", () => {
    const wall = part(
      [
        panel('base', rectangle(0, 0, 100, 60)),
        panel('wall', rectangle(0, 0, 100, 50)),
        panel('tab', rectangle(0, 0, 20, 15)),
      ],
      [
        fold('W', { panel: 'base', edge: 2 }, { panel: 'wall', edge: 0 }, 90, 'up', 2),
        fold(
          'T',
          { panel: 'wall', edge: 1, from: 15, to: 35 },
          { panel: 'tab', edge: 0 },
          90,
          'up',
          2,
        ),
      ],
      { thicknessMm: 2 },
    );
    const flat = flatten(wall, K);
    expect(flat.findings).toEqual([]);
    expect(flat.panels.find((p) => p.id === 'tab')?.areaMm2).toBeCloseTo(20 * 11, 9);
    expect(flat.widthMm).toBeCloseTo(100 + 15 - (flat.bends[1]?.deductionMm ?? NaN), 9);
  });

  it('a butt corner leaves the gap before the inside face, and the flange that runs on its full length', () => {
    const part = box(100, 60, 40, 90, 2, 2, {
      corners: [0, 1, 2, 3].map((i) => ({
        folds: [`F${i}`, `F${(i + 1) % 4}`],
        style: 'butt',
        through: i % 2 === 0 ? `F${i}` : `F${(i + 1) % 4}`,
      })),
    });
    const flat = flatten(part, K);
    for (let i = 0; i < 4; i++)
      expect(gapBetween(part, flat, `wall ${i}`, `wall ${(i + 1) % 4}`)).toBeCloseTo(0.5, 9);
    const long = flat.panels.find((p) => p.id === 'wall 0')?.region.map((v) => v.x) ?? [];
    expect([Math.min(...long), Math.max(...long)]).toEqual([
      expect.closeTo(0, 9),
      expect.closeTo(100, 9),
    ]);
  });
});
