import { dist, EYE_MM, readChains, type Reading, readOverall, readRows } from './size-rows.ts';
import type { Piece } from '../../src/geometry/piece.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { Picture, PictureItem } from '../../src/model/picture.ts';
import { type CornerRow, readHoles, type ReadTable, type RebuiltHole } from './read-holes.ts';

/**
 * A blank rebuilt from its drawing, as a person at the bench does it: shapes are looked at in the
 * picture, every size is read from a figure written there or in a table. No figure is measured in the
 * picture, and nothing here knows how the drawing was made.
 */

export interface RebuiltBlank {
  /** Corners and arcs of the outline in order, each size from the datum, mm. */
  readonly outline: readonly RebuiltPiece[];
  readonly diameterMm?: number;
  /** Of every drawn fold line: the value of an upright or a level one, or both ends. */
  readonly folds: readonly RebuiltFold[];
  readonly holes: readonly RebuiltHole[];
}

export interface RebuiltPiece {
  readonly from: Vec2;
  readonly to: Vec2;
  /** Signed: positive bulges out; 0 of a straight piece. */
  readonly radiusMm: number;
  readonly isLong: boolean;
  /** Its centre, where that is told. */
  readonly about?: Vec2;
}

export type RebuiltFold =
  { readonly axis: 0 | 1; readonly value: number } | { readonly ends: readonly [Vec2, Vec2] };

/** Sizes that differ by less than half of their last digit, mm of the blank, share a figure. */
const SAME_SIZE_MM = 0.05;

const cross = (a: Vec2, b: Vec2): number => a[0] * b[1] - a[1] * b[0];
const wayOf = (a: Vec2, b: Vec2): Vec2 => {
  const d = dist(a, b);
  return [(b[0] - a[0]) / d, (b[1] - a[1]) / d];
};

/** A text with the end of its leader: what it names. */
const ledTexts = (
  items: readonly PictureItem[],
  pattern: RegExp,
): { readonly text: string; readonly foot: Vec2 | undefined; readonly at: Vec2 }[] =>
  items.flatMap((item, i) => {
    if (item.kind !== 'label' || !pattern.test(item.text)) return [];
    const leader = items[i - 2];
    const foot =
      leader?.kind === 'curve' && leader.pieces.length === 1 && items[i - 1]?.kind === 'area'
        ? leader.pieces[0]?.from
        : undefined;
    return [{ text: item.text, foot, at: item.at }];
  });

const readCorners = (tables: readonly ReadTable[]): CornerRow[] => {
  const table = tables.find((t) => t.title.startsWith('Corners'));
  if (table === undefined) return [];
  const column = (name: string): number => table.columns.findIndex((c) => c.name === name);
  const text = (row: readonly string[], name: string): string => row[column(name)] ?? '';
  return table.rows.map((row) => {
    const arc = /^R([\d.]+) (OUT|IN)(?: about (-?[\d.]+), (-?[\d.]+))?(, the long way)?$/.exec(
      text(row, 'To the next'),
    );
    return {
      key: row[0] as string,
      at: [Number(text(row, 'x mm')), Number(text(row, 'y mm'))],
      roundMm: Number(/^R([\d.]+)$/.exec(text(row, 'Rounded'))?.[1] ?? 0),
      arcMm: arc === null ? 0 : Number(arc[1]) * (arc[2] === 'OUT' ? 1 : -1),
      isLong: arc?.[5] !== undefined,
      ...(arc?.[3] !== undefined && { about: [Number(arc[3]), Number(arc[4])] as const }),
    };
  });
};

/** A place of the drawn outline at which its direction changes. */
interface SeenCorner {
  readonly place: Vec2;
  /** An arc rounds it; its middle on paper. */
  readonly round?: Vec2;
  /** An arc leads from here to the next corner; its middle on paper, and its side. */
  readonly arc?: { readonly middle: Vec2; readonly side: 1 | -1; readonly isLong: boolean };
}

const middleOf = ({ from, to, bulge }: Piece): Vec2 => [
  (from[0] + to[0]) / 2 + (bulge * (to[1] - from[1])) / 2,
  (from[1] + to[1]) / 2 - (bulge * (to[0] - from[0])) / 2,
];

const turned = ([x, y]: Vec2, rad: number): Vec2 => [
  x * Math.cos(rad) - y * Math.sin(rad),
  x * Math.sin(rad) + y * Math.cos(rad),
];
const leaving = (p: Piece): Vec2 => turned(wayOf(p.from, p.to), -2 * Math.atan(p.bulge));
const arriving = (p: Piece): Vec2 => turned(wayOf(p.from, p.to), 2 * Math.atan(p.bulge));

/** What the eye sees of the outline: corners, roundings that run into straight edges, arcs. */
const seenCorners = (pieces: readonly Piece[], scale: number): SeenCorner[] => {
  const joined: Piece[] = [];
  for (const piece of pieces) {
    const last = joined.at(-1);
    if (last !== undefined && isOneLine(last, piece, scale))
      joined[joined.length - 1] = { from: last.from, to: piece.to, bulge: 0 };
    else joined.push(piece);
  }
  const [first, last] = [joined[0] as Piece, joined.at(-1) as Piece];
  if (joined.length > 1 && isOneLine(last, first, scale)) {
    joined.shift();
    joined[joined.length - 1] = { from: last.from, to: first.to, bulge: 0 };
  }
  const n = joined.length;
  const at = (i: number): Piece => joined[(i + n) % n] as Piece;
  const isRounding = (i: number): boolean => {
    const [before, arc, after] = [at(i - 1), at(i), at(i + 1)];
    return (
      arc.bulge !== 0 &&
      before.bulge === 0 &&
      after.bulge === 0 &&
      4 * Math.atan(Math.abs(arc.bulge)) < (150 * Math.PI) / 180 + 1e-9 &&
      Math.abs(cross(arriving(before), leaving(arc))) < 2e-3 &&
      Math.abs(cross(arriving(arc), leaving(after))) < 2e-3
    );
  };
  return joined.flatMap((piece, i): SeenCorner[] => {
    if (isRounding(i)) {
      const half = 2 * Math.atan(Math.abs(piece.bulge));
      const reach = dist(piece.from, piece.to) / 2 / Math.cos(half);
      const into = arriving(at(i - 1));
      return [
        {
          place: [piece.from[0] + reach * into[0], piece.from[1] + reach * into[1]],
          round: middleOf(piece),
        },
      ];
    }
    if (isRounding(i - 1)) return [];
    return [
      {
        place: piece.from,
        ...(piece.bulge !== 0 && {
          arc: {
            middle: middleOf(piece),
            side: piece.bulge > 0 ? 1 : -1,
            isLong: Math.abs(piece.bulge) > 1 + 1e-6,
          },
        }),
      },
    ];
  });
};

/** No farther off a line than 0.005 mm of the blank. */
const isOneLine = (a: Piece, b: Piece, scale: number): boolean =>
  a.bulge === 0 &&
  b.bulge === 0 &&
  Math.abs(cross(wayOf(a.from, b.to), [a.to[0] - a.from[0], a.to[1] - a.from[1]])) <
    0.005 * scale &&
  (a.to[0] - a.from[0]) * (b.to[0] - b.from[0]) + (a.to[1] - a.from[1]) * (b.to[1] - b.from[1]) > 0;

/** Values along both axes of a place on paper, as far as figures tell them: by the nearest line. */
const valuesBy =
  (rows: readonly Reading[], scale: number) =>
  (place: Vec2, axis: 0 | 1): number | undefined =>
    rows
      .map((r) => ({ ...r, off: r.axis === axis ? Math.abs(r.paper - place[axis]) : Infinity }))
      .filter((r) => r.off < EYE_MM / 2 + SAME_SIZE_MM * scale)
      .toSorted((a, b) => a.off - b.off)[0]?.value;

/**
 * Rebuilds the blank from its picture and tables; `foldLines` are the lines of the picture that folds
 * are named at. Sizes grow to the right and upwards, or the other way where `towards` is -1, as the key
 * of the paper says. Throws where a size is missing.
 */
export const rebuiltBlank = (
  { items }: Picture,
  tables: readonly ReadTable[],
  foldLines: readonly { readonly id: string; readonly ends: readonly [Vec2, Vec2] }[],
  towards: Vec2,
  scale: number,
): RebuiltBlank => {
  const outline = items.find((item) => item.kind === 'area') as PictureItem & { kind: 'area' };
  const pieces = outline.rims[0] as readonly Piece[];
  const signed = ([x, y]: Vec2): Vec2 => [towards[0] * x, towards[1] * y];
  const corners = readCorners(tables).map((c) => ({
    ...c,
    at: signed(c.at),
    ...(c.about !== undefined && { about: signed(c.about) }),
  }));
  const holes = readHoles(tables, towards).map((hole) => ({
    ...hole,
    corners: corners.filter((c) => c.key.startsWith(`${hole.key}.`)),
  }));
  const round = ledTexts(items, /^Ø[\d.]+$/)[0];
  const running = readRows(items);
  const rows = withOverall(
    [...running, ...readChains(items, running, towards)],
    readOverall(items),
    pieces,
  );
  const told = valuesBy(rows, scale);
  const value = (place: Vec2, axis: 0 | 1): number | undefined => {
    const found = told(place, axis);
    return found === undefined ? undefined : towards[axis] * found;
  };
  const folds = foldLines.map(({ id, ends: [a, b] }): RebuiltFold => {
    const row = tables
      .find((t) => t.title.startsWith('Ends of the fold lines'))
      ?.rows.find((r) => r[0] === id);
    if (row === undefined) {
      for (const axis of [0, 1] as const) {
        const told = value(a, axis);
        if (Math.abs(a[axis] - b[axis]) < 0.05 && told !== undefined) return { axis, value: told };
      }
      throw new Error(`fold ${id} has no place`);
    }
    const [x, y, u, v] = row.slice(1).map(Number) as [number, number, number, number];
    return { ends: [signed([x, y]), signed([u, v])] };
  });
  if (round !== undefined && pieces.every((p) => p.bulge !== 0))
    return { outline: [], diameterMm: Number(round.text.slice(1)), folds, holes };
  return {
    outline: rebuiltOutline(items, seenCorners(pieces, scale), corners, value),
    folds,
    holes,
  };
};

/** The far side of the blank, where the overall size tells its place. */
const withOverall = (
  rows: readonly Reading[],
  overall: readonly [number, number],
  pieces: readonly Piece[],
): Reading[] => {
  const points = pieces.flatMap((p) => [p.from, p.to]);
  return [
    ...rows,
    ...([0, 1] as const).flatMap((axis): Reading[] => {
      const all = points.map((p) => p[axis]);
      const [low, high] = [Math.min(...all), Math.max(...all)];
      const zero = rows.find((r) => r.axis === axis && r.value === 0)?.paper;
      if (zero === undefined) throw new Error('no zero');
      if (Math.abs(zero - low) < EYE_MM)
        return [{ axis, paper: high, value: overall[axis], level: NaN }];
      return Math.abs(zero - high) < EYE_MM
        ? [{ axis, paper: low, value: overall[axis], level: NaN }]
        : [];
    }),
  ];
};

const rebuiltOutline = (
  items: readonly PictureItem[],
  seen: readonly SeenCorner[],
  table: readonly CornerRow[],
  value: (place: Vec2, axis: 0 | 1) => number | undefined,
): RebuiltPiece[] => {
  const own = table.filter((row) => row.key.startsWith('c'));
  const first = own.length === 0 ? 0 : firstCorner(items, seen, own.length);
  const radii = ledTexts(items, /^(?:\d+ x )?R[\d.]+$/);
  const radiusAt = (middle: Vec2): number => {
    const texts = new Set(radii.map((r) => r.text.replace(/^\d+ x /, '')));
    const own =
      texts.size === 1
        ? radii[0]
        : radii.find((r) => r.foot !== undefined && dist(r.foot, middle) < 0.1);
    if (own === undefined) throw new Error('an arc has no radius');
    return Number(own.text.replace(/^\d+ x R|^R/, ''));
  };
  const n = seen.length;
  const corners = seen.map((corner, i): CornerRow => {
    const number = ((i - first + n) % n) + 1;
    const row = own.find((r) => r.key === `c${number}`);
    if (row !== undefined) {
      if (row.roundMm > 0 !== (corner.round !== undefined))
        throw new Error(`c${number} is not what it looks like`);
      return row;
    }
    const at = [value(corner.place, 0), value(corner.place, 1)];
    if (at.includes(undefined)) throw new Error(`corner c${number} has no place: ${at.join(', ')}`);
    return {
      key: `c${number}`,
      at: at as unknown as Vec2,
      roundMm: corner.round === undefined ? 0 : radiusAt(corner.round),
      arcMm: corner.arc === undefined ? 0 : corner.arc.side * radiusAt(corner.arc.middle),
      isLong: corner.arc?.isLong === true,
    };
  });
  return piecesThrough(corners);
};

/** Which of the seen corners is c1: by a corner whose name is led to it. */
const firstCorner = (
  items: readonly PictureItem[],
  seen: readonly SeenCorner[],
  count: number,
): number => {
  const named = ledTexts(items, /^c\d+$/);
  for (const { text, foot } of named) {
    const i = foot === undefined ? -1 : seen.findIndex((c) => dist(c.place, foot) < EYE_MM);
    if (i >= 0) return (i - (Number(text.slice(1)) - 1) + 2 * seen.length) % seen.length;
  }
  throw new Error(`none of ${count} corners of the table is named in the picture`);
};

/** Straight edges and arcs through corners, rounded ones joined by arcs that touch both edges. */
export const piecesThrough = (corners: readonly CornerRow[]): RebuiltPiece[] => {
  const n = corners.length;
  const at = (i: number): CornerRow => corners[(i + n) % n] as CornerRow;
  const tangents = corners.map((corner, i): readonly [Vec2, Vec2, number] => {
    if (corner.roundMm === 0) return [corner.at, corner.at, 0];
    const [into, out] = [wayOf(at(i - 1).at, corner.at), wayOf(corner.at, at(i + 1).at)];
    const turn = Math.atan2(cross(into, out), into[0] * out[0] + into[1] * out[1]);
    const reach = corner.roundMm * Math.tan(Math.abs(turn) / 2);
    return [
      [corner.at[0] - reach * into[0], corner.at[1] - reach * into[1]],
      [corner.at[0] + reach * out[0], corner.at[1] + reach * out[1]],
      Math.sign(turn),
    ];
  });
  return corners.flatMap((corner, i): RebuiltPiece[] => {
    const [from, to, turn] = tangents[i] as readonly [Vec2, Vec2, number];
    const next = tangents[(i + 1) % n] as readonly [Vec2, Vec2, number];
    return [
      ...(corner.roundMm === 0
        ? []
        : [{ from, to, radiusMm: turn * corner.roundMm, isLong: false }]),
      {
        from: to,
        to: next[0],
        radiusMm: corner.arcMm,
        isLong: corner.isLong,
        ...(corner.about !== undefined && { about: corner.about }),
      },
    ];
  });
};
