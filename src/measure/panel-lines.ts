import { BoxGrid, spot } from '../geometry/box-grid.ts';
import { boxedLoop, boxOfTwo } from '../geometry/boxed-loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { type Motion2, movePoint } from '../geometry/motion2.ts';
import {
  along,
  cross,
  distance,
  dot,
  middle,
  scale,
  sub,
  unit,
  type Vec2,
} from '../geometry/vec2.ts';
import type { FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Panel, Part } from '../model/part.ts';
import type { AskedMeasure, Place } from '../contract/asked.ts';
import { fromLine } from './ideal.ts';
import { PARALLEL_SINE } from '../geometry/tolerance.ts';

/**
 * A straight line that lengths on a panel are measured from: where the panel has it, and how it is
 * found in a file.
 */
export interface PanelLine {
  readonly at: Vec2;
  readonly dir: Vec2;
  readonly fold: string | undefined;
  readonly place: Place;
  /** Middle of the stretch that is there to measure from. */
  readonly middle: Vec2;
  readonly long: number;
}

/**
 * A line can be extended by this many times its own length before the rounding of its ends shows.
 */
const STEADY = 20;

/**
 * Whether a place lies near enough to a line, along it, for its distance from the line to be
 * meaningful.
 */
export const isSteady = ({ dir, middle: at, long }: PanelLine, p: Vec2): boolean =>
  Math.abs(dot(dir, sub(p, at))) <= STEADY * long;

/** A shorter edge, mm, is no base to measure from. */
const LEAST_BASE_MM = 1;

/** The mould lines of a panel, and those of its straight edges that are left on the blank. */
export const linesOf = (part: Part, flat: FlatPattern, panel: Panel): PanelLine[] => {
  const placement = placementOf(flat, panel);
  return panel.outline.flatMap((v, edge) => {
    if (v.bulge !== 0) return [];
    const piece = pieceOf(panel.outline, edge);
    const line = { at: piece.from, dir: unit(sub(piece.to, piece.from)) };
    const folds = part.folds.flatMap((f) =>
      [f.parent, f.child]
        .filter((s) => s.panel === panel.id && s.edge === edge)
        .map((side) => ({ id: f.id, ...side })),
    );
    if (folds.length > 0) {
      return folds.map(({ id, from = 0, to = distance(piece.from, piece.to) }): PanelLine => ({
        ...line,
        middle: along(piece.from, line.dir, (from + to) / 2),
        long: to - from,
        fold: id,
        place: { kind: 'mould', panel: panel.id, fold: id },
      }));
    }
    const cut = leftOfEdge(flat, movePoint(placement, piece.from), movePoint(placement, piece.to));
    return cut === undefined
      ? []
      : [
          {
            ...line,
            middle: middle(piece.from, piece.to),
            long: distance(...cut),
            fold: undefined,
            place: { kind: 'edge' as const, panel: panel.id, of: -1, from: cut[0], to: cut[1] },
          },
        ];
  });
};

/** A straight edge of a panel, and its place on the blank, if anything of it is left there. */
export interface FreeLine {
  readonly panel: string;
  readonly dir: Vec2;
  readonly middle: Vec2;
  readonly place: Place | undefined;
}

/**
 * Straight edges of a panel, including those at which it is folded: what is left of such an edge
 * beside a fold is free.
 */
export const freeLinesOf = (flat: FlatPattern, panel: Panel | undefined): FreeLine[] => {
  if (panel === undefined) return [];
  const placement = placementOf(flat, panel);
  return panel.outline.flatMap((v, edge): FreeLine[] => {
    if (v.bulge !== 0) return [];
    const piece = pieceOf(panel.outline, edge);
    const cut = leftOfEdge(
      flat,
      movePoint(placement, piece.from),
      movePoint(placement, piece.to),
      LEAST_STRETCH_MM,
    );
    const place: Place | undefined =
      cut === undefined
        ? undefined
        : { kind: 'edge', panel: panel.id, of: -1, from: cut[0], to: cut[1] };
    return [
      {
        panel: panel.id,
        dir: unit(sub(piece.to, piece.from)),
        middle: middle(piece.from, piece.to),
        place,
      },
    ];
  });
};

/** A shorter stretch, mm, has no direction after it was rounded to the step of a file. */
const LEAST_STRETCH_MM = 0.1;

export const placementOf = (flat: FlatPattern, { id }: Panel): Motion2 =>
  (flat.panels.find((p) => p.id === id) as FlatPanel).placement;

/** Two points nearer to each other than this, mm, are the same place on the blank. */
export const SAME_BLANK_POINT_MM = 1e-5;

/**
 * The longest stretch of the blank's outline that lies on an edge, if it is long enough to measure
 * from.
 */
const leftOfEdge = (
  flat: FlatPattern,
  from: Vec2,
  to: Vec2,
  leastMm = LEAST_BASE_MM,
): [Vec2, Vec2] | undefined => {
  const dir = unit(sub(to, from));
  let best: { readonly ends: [Vec2, Vec2]; readonly long: number } | undefined;
  for (const p of boxedLoop(flat.outline).near(boxOfTwo(from, to), 2 * SAME_BLANK_POINT_MM)) {
    if (
      p.bulge !== 0 ||
      Math.abs(cross(dir, sub(p.from, from))) > SAME_BLANK_POINT_MM ||
      Math.abs(cross(dir, sub(p.to, from))) > SAME_BLANK_POINT_MM
    )
      continue;
    const start = Math.max(0, dot(dir, sub(p.from, from)));
    const end = Math.min(distance(from, to), dot(dir, sub(p.to, from)));
    if (end - start >= leastMm && end - start > (best?.long ?? 0))
      best = { ends: [along(from, dir, start), along(from, dir, end)], long: end - start };
  }
  return best?.ends;
};

/** Corners of a panel's outline that are left on the blank. */
export const cornersOf = (
  flat: FlatPattern,
  panel: Panel,
): { readonly own: Vec2; readonly at: Vec2 }[] => {
  const placement = placementOf(flat, panel);
  const blank = boxedLoop(flat.outline);
  return panel.outline.flatMap((v) => {
    const at = movePoint(placement, [v.x, v.y]);
    return blank
      .near(spot(at), SAME_BLANK_POINT_MM)
      .some(({ from }) => distance(from, at) < SAME_BLANK_POINT_MM)
      ? [{ own: [v.x, v.y] as const, at }]
      : [];
  });
};

/** Lengths of legs, webs and widths, between opposite edges that are parallel. */
export const widthsOf = (panel: Panel, lines: readonly PanelLine[]): AskedMeasure[] => {
  const measures: AskedMeasure[] = [];
  const taken = new Set<PanelLine>();
  const pair = (a: PanelLine, b: PanelLine): void => {
    taken.add(a).add(b);
    measures.push({
      name: widthName(panel, a, b, measures),
      askedMm: fromLine(b.at, a),
      between: [a.place, b.place],
    });
  };
  // Directions are places on a circle: those that run the other way lie in one spot of it.
  const byWay = new BoxGrid(lines.map(({ dir }) => spot(dir)));
  const opposite = (a: PanelLine): PanelLine[] =>
    byWay.near(spot(scale(a.dir, -1)), 2 * PARALLEL_SINE).flatMap((i) => {
      const b = lines[i] as PanelLine;
      return Math.abs(cross(a.dir, b.dir)) < PARALLEL_SINE &&
        a.dir[0] * b.dir[0] + a.dir[1] * b.dir[1] < 0 &&
        cross(a.dir, sub(b.at, a.at)) > 0.1 &&
        (a.long > b.long ? isSteady(a, b.middle) : isSteady(b, a.middle))
        ? [b]
        : [];
    });
  const farthest = (a: PanelLine, of: readonly PanelLine[]): PanelLine | undefined =>
    of.reduce<PanelLine | undefined>(
      (best, b) => (best === undefined || fromLine(b.at, a) > fromLine(best.at, a) ? b : best),
      undefined,
    );
  const moulds = lines.filter((l) => l.fold !== undefined);
  moulds.forEach((a, i) => {
    for (const b of opposite(a)) if (b.fold !== undefined && moulds.indexOf(b) > i) pair(a, b);
    const b = farthest(
      a,
      opposite(a).filter((o) => o.fold === undefined),
    );
    if (b !== undefined) pair(a, b);
  });
  for (const a of lines) {
    const b = taken.has(a) ? undefined : farthest(a, opposite(a));
    if (b !== undefined) pair(a, b);
  }
  return measures;
};

const widthName = (
  { id }: Panel,
  a: PanelLine,
  b: PanelLine,
  before: readonly AskedMeasure[],
): string => {
  const folds = [a.fold, b.fold].filter((f) => f !== undefined);
  const plain = folds.length === 0 ? `width of ${id}` : id;
  const isTaken = (name: string): boolean => before.some((m) => m.name === name);
  if (!isTaken(plain)) return plain;
  const told = folds.length === 0 ? plain : `${id} at fold ${folds.join(' and ')}`;
  for (let n = 2; ; n++) {
    const name = n === 2 && !isTaken(told) ? told : `${told} (${n})`;
    if (!isTaken(name)) return name;
  }
};
