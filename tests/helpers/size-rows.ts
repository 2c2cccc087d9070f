import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { Label, PictureItem } from '../../src/model/picture.ts';

/** Things on paper nearer than this, mm, are at one place to the eye that follows a line. */
export const EYE_MM = 0.05;

export const dist = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

const segments = (items: readonly PictureItem[]): { readonly from: Vec2; readonly to: Vec2 }[] =>
  items.flatMap((item) =>
    item.kind === 'curve' && item.pieces.length === 1 && item.pieces[0]?.bulge === 0
      ? [{ from: item.pieces[0].from, to: item.pieces[0].to }]
      : [],
  );

const numberAtEnd = (text: string): number | undefined => {
  const found = /^(?:.*\s)?(-?\d+(?:\.\d+)?)$/.exec(text);
  return found === null ? undefined : Number(found[1]);
};

/** A figure of a row, and the place along the axis to which its lines lead. */
export interface Reading {
  readonly axis: 0 | 1;
  readonly paper: number;
  readonly value: number;
  /** Where the line to it bends, across the axis; none of an overall size. */
  readonly level: number;
}

/**
 * Follows the lines of running sizes: a figure stands behind the end of a short line, that begins at
 * the knee of one that runs straight to what is measured.
 */
export const readRows = (items: readonly PictureItem[]): Reading[] => {
  const lines = segments(items);
  const labels = items.filter((item): item is Label => item.kind === 'label');
  return lines.flatMap((jog): Reading[] => {
    const stem = lines.find(
      (l) =>
        l !== jog &&
        dist(l.to, jog.from) < EYE_MM &&
        (Math.abs(l.from[0] - l.to[0]) < 1e-9 || Math.abs(l.from[1] - l.to[1]) < 1e-9),
    );
    if (stem === undefined) return [];
    const axis = Math.abs(stem.from[0] - stem.to[0]) < 1e-9 ? 0 : 1;
    const label = labels.find((l) => isBehind(l, jog.to, axis));
    const value = label === undefined ? undefined : numberAtEnd(label.text);
    return value === undefined
      ? []
      : [{ axis, paper: stem.to[axis], value, level: stem.to[axis === 0 ? 1 : 0] }];
  });
};

/** Whether a figure of a row stands at the end of its line: its middle level with it, 1 mm behind. */
const isBehind = (
  { at, sizeMm, angleDeg = 0, align = 'left' }: Label,
  end: Vec2,
  axis: 0 | 1,
): boolean => {
  const [dx, dy] = [at[0] - end[0], at[1] - end[1]];
  if (axis === 1) return Math.abs(dy + 0.36 * sizeMm) < 0.05 && Math.abs(Math.abs(dx) - 1) < 0.05;
  if (align === 'middle')
    return (
      Math.abs(dx) < 0.05 && (Math.abs(dy - 1) < 0.05 || Math.abs(dy + 1 + 0.74 * sizeMm) < 0.05)
    );
  return (
    angleDeg === 90 && Math.abs(dx - 0.36 * sizeMm) < 0.05 && Math.abs(Math.abs(dy) - 1) < 0.05
  );
};

/** Half of the oblique stroke of a chain, and how far its line goes on beyond the last, mm. */
const STROKE_MM = 0.9;
const BEYOND_MM = 0.8;

/**
 * What chains tell: the place of each oblique stroke, by adding up the figures between it and the one
 * that is told from the datum. A figure stands in the middle between two strokes beyond their line, or
 * at the end of a line that leads there.
 */
export const readChains = (
  items: readonly PictureItem[],
  told: readonly Reading[],
  towards: Vec2,
): Reading[] => {
  const lines = segments(items);
  const labels = items.filter((item): item is Label => item.kind === 'label');
  const isNear = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
  const strokes = lines
    .filter(({ from, to }) =>
      ([0, 1] as const).every((k) => isNear(to[k] - from[k], 2 * STROKE_MM)),
    )
    .map(({ from: [x, y] }): Vec2 => [x + STROKE_MM, y + STROKE_MM]);
  return ([0, 1] as const).flatMap((axis) => {
    const other = axis === 0 ? 1 : 0;
    const shafts = lines.filter(
      ({ from, to }) =>
        isNear(from[other], to[other]) &&
        strokes.some(
          (p) => isNear(p[other], from[other]) && isNear(p[axis], from[axis] + BEYOND_MM),
        ),
    );
    return shafts.flatMap(({ from: { [other]: level } }): Reading[] => {
      const places = strokes
        .filter((p) => isNear(p[other], level))
        .map((p) => p[axis])
        .toSorted((a, b) => a - b);
      const between = places.slice(1).map((place, i): number => {
        const middle: [number, number] = [level, level];
        middle[axis] = (place + (places[i] as number)) / 2;
        const end = lines.find((l) => dist(l.from, middle) < 1e-6)?.to ?? middle;
        const value = numberAtEnd(labels.find((l) => isBehind(l, end, axis))?.text ?? '');
        if (value === undefined) throw new Error(`no figure between ${places[i]} and ${place}`);
        return value;
      });
      const base = told.find(
        (r) => r.axis === axis && isNear(r.level, level) && places.some((p) => isNear(p, r.paper)),
      );
      if (base === undefined) throw new Error('a chain has no beginning');
      const first = places.findIndex((p) => isNear(p, base.paper));
      const upTo = (i: number): number =>
        between.slice(0, i).reduce((total, value) => total + value, 0);
      return places.map((paper, i) => ({
        axis,
        paper,
        level,
        value: base.value + towards[axis] * (upTo(i) - upTo(first)),
      }));
    });
  });
};

/** The overall sizes: the figures on the lines with arrows, below the blank and left of it. */
export const readOverall = (items: readonly PictureItem[]): readonly [number, number] => {
  const heads = items.flatMap((item, i) =>
    item.kind === 'area' && item.fill === 0 && item.rims[0]?.length === 3
      ? [{ i, tip: item.rims[0][0]?.from as Vec2 }]
      : [],
  );
  const found: [number?, number?] = [];
  heads.forEach(({ i, tip }, k) => {
    const other = heads[k + 1];
    const label = items[i + 2];
    if (other?.i !== i + 1 || label?.kind !== 'label') return;
    const value = Number(label.text.replace(/[()]/g, ''));
    found[Math.abs(tip[1] - other.tip[1]) < 1e-9 ? 0 : 1] = value;
  });
  if (found[0] === undefined || found[1] === undefined) throw new Error('no overall size');
  return [found[0], found[1]];
};
