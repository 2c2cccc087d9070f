import { expect } from 'vitest';
import { arcOf } from '../../src/geometry/arc.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { piecesOf } from '../../src/geometry/piece.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { DimensionedBlank } from '../../src/paper/draw/dimensioned-blank.ts';
import { keyedHoles } from '../../src/paper/sizes/hole-keys.ts';
import { sizeTables } from '../../src/paper/sizes/size-tables.ts';
import { piecesThrough, rebuiltBlank, type RebuiltPiece } from './rebuilt-blank.ts';

/** Figures are given to 0.1 mm, so that a place may be off by 0.07; a little more where edges meet at a sharp angle. */
const ROUNDING_MM = 0.1;

/** Points close together on a piece; its radius counts, and not where it should end. */
const pointsOn = ({ from, to, radiusMm, isLong, about }: RebuiltPiece): Vec2[] => {
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const straight = (t: number): Vec2 => [
    from[0] + t * (to[0] - from[0]),
    from[1] + t * (to[1] - from[1]),
  ];
  const shares = Array.from({ length: 9 }, (_, i) => i / 8);
  if (radiusMm === 0 || chord < 1e-6) return shares.map(straight);
  if (about !== undefined) {
    const [start, end] = [from, to].map((p) => Math.atan2(p[1] - about[1], p[0] - about[0])) as [
      number,
      number,
    ];
    const full = 2 * Math.PI;
    const turn =
      Math.sign(radiusMm) * (((((end - start) * Math.sign(radiusMm)) % full) + full) % full);
    return shares.map((t): Vec2 => [
      about[0] + Math.abs(radiusMm) * Math.cos(start + t * turn),
      about[1] + Math.abs(radiusMm) * Math.sin(start + t * turn),
    ]);
  }
  const r = Math.max(Math.abs(radiusMm), chord / 2);
  const half = Math.asin(chord / 2 / r);
  const sweep = 2 * (isLong ? Math.PI - half : half);
  const bulge = Math.sign(radiusMm) * Math.tan(sweep / 4);
  const { centre, startRad } = arcOf(from, to, bulge);
  return shares.map((t): Vec2 => [
    centre[0] + r * Math.cos(startRad + t * Math.sign(radiusMm) * sweep),
    centre[1] + r * Math.sin(startRad + t * Math.sign(radiusMm) * sweep),
  ]);
};

const loopPieces = (loop: Loop): RebuiltPiece[] =>
  piecesOf(loop).map(({ from, to, bulge }) => ({
    from,
    to,
    radiusMm: bulge === 0 ? 0 : Math.sign(bulge) * arcOf(from, to, bulge).radius,
    isLong: Math.abs(bulge) > 1,
  }));

const gapTo = (p: Vec2, line: readonly Vec2[]): number =>
  Math.min(
    ...line.slice(1).map((b, i) => {
      const a = line[i] as Vec2;
      const d: Vec2 = [b[0] - a[0], b[1] - a[1]];
      const t = Math.max(
        0,
        Math.min(
          1,
          ((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / Math.max(d[0] ** 2 + d[1] ** 2, 1e-12),
        ),
      );
      return Math.hypot(p[0] - a[0] - t * d[0], p[1] - a[1] - t * d[1]);
    }),
  );

/** The farthest that either of two outlines lies off the other. */
const farthest = (one: readonly RebuiltPiece[], other: readonly RebuiltPiece[]): number => {
  const [a, b] = [one, other].map((pieces) => pieces.map(pointsOn));
  const off = (points: readonly Vec2[][], lines: readonly Vec2[][]): number =>
    Math.max(...points.flat().map((p) => Math.min(...lines.map((l) => gapTo(p, l)))));
  return Math.max(off(a ?? [], b ?? []), off(b ?? [], a ?? []));
};

interface Size {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Fields under the view of a sheet, beside it, and of an archive. */
const UNDER: Size = { widthMm: 190, heightMm: 130 };
const BESIDE: Size = { widthMm: 98, heightMm: 160 };
const ARCHIVE: Size = { widthMm: 370, heightMm: 190 };

/** About what rows of sizes on two sides take of a field, mm. */
const ROWS_MM = { across: 60, up: 50 };

/**
 * A field in which a blank is drawn, another for each number. It stands beside the view only where it is
 * drawn larger there, as on sheets.
 */
export const fieldFor = (blank: Size, number: number): Size => {
  const scaleIn = ({ widthMm, heightMm }: Size): number =>
    Math.min((widthMm - ROWS_MM.across) / blank.widthMm, (heightMm - ROWS_MM.up) / blank.heightMm);
  const larger = scaleIn(BESIDE) > scaleIn(UNDER) ? BESIDE : UNDER;
  return [UNDER, larger, ARCHIVE][number % 3] as Size;
};

/**
 * The outline, the folds and the holes of a blank, rebuilt from the figures of its drawing, are those
 * of its flat pattern.
 */
export const expectRebuilt = ({ picture, sizes, scale }: DimensionedBlank): void => {
  const { drawn } = sizes;
  const [x0, y0] = [drawn.datum.x.at[0], drawn.datum.y.at[1]];
  const moved = ([x, y]: Vec2): Vec2 => [x - x0, y - y0];
  const movedLoop = (loop: Loop): Loop => loop.map((v) => ({ ...v, x: v.x - x0, y: v.y - y0 }));
  const onPaper = picture.items[0];
  if (onPaper?.kind !== 'area') throw new Error('no outline');
  const [first, corner] = [
    onPaper.rims[0]?.[0]?.from as Vec2,
    drawn.flat.outline[0] as { x: number; y: number },
  ];
  const at = ([x, y]: Vec2): Vec2 => [
    first[0] + (x - corner.x) * scale,
    first[1] + (y - corner.y) * scale,
  ];
  const folds = drawn.flat.bends.map(({ id, centreLine: [p, q] }) => ({
    id,
    ends: [at(p), at(q)] as const,
  }));
  const towards: Vec2 = [Math.sign(drawn.datum.x.towards[0]), Math.sign(drawn.datum.y.towards[1])];
  const rebuilt = rebuiltBlank(picture, sizeTables(sizes), folds, towards, scale);
  const outline = loopPieces(movedLoop(drawn.flat.outline));
  if (rebuilt.diameterMm === undefined)
    expect(farthest(rebuilt.outline, outline)).toBeLessThan(ROUNDING_MM);
  else expect(rebuilt.diameterMm).toBeCloseTo(2 * Math.abs(outline[0]?.radiusMm ?? 0), 1);
  for (const [i, fold] of rebuilt.folds.entries()) {
    const ends = (drawn.flat.bends[i]?.centreLine ?? []).map(moved);
    for (const [k, end] of ends.entries()) {
      if ('value' in fold) expect(Math.abs(end[fold.axis] - fold.value)).toBeLessThan(ROUNDING_MM);
      else
        expect(
          Math.hypot(end[0] - (fold.ends[k] as Vec2)[0], end[1] - (fold.ends[k] as Vec2)[1]),
        ).toBeLessThan(ROUNDING_MM);
    }
  }
  const holes = keyedHoles(drawn.flat);
  expect(rebuilt.holes.length).toBe(holes.length);
  for (const { hole, centre, size, leanDeg } of holes) {
    const own = moved(centre);
    const found = rebuilt.holes.find(
      (h) =>
        Math.hypot(h.centre[0] - own[0], h.centre[1] - own[1]) < ROUNDING_MM && h.size === size,
    );
    expect([size, own, found?.size]).toEqual([size, own, size]);
    if (leanDeg !== undefined) expect(found?.kind).toMatch(/level|upright|at [\d.]+°/);
    if (hole.kind === 'loop' && found !== undefined && found.corners.length > 0)
      expect(farthest(piecesThrough(found.corners), loopPieces(movedLoop(hole.loop)))).toBeLessThan(
        ROUNDING_MM,
      );
    if (hole.kind === 'loop')
      expect(leanDeg !== undefined || (found?.corners.length ?? 0) > 0).toBe(true);
  }
};
