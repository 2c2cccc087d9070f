import { type Printed, printedIn } from '../../text/printed.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import { type Datum, type DatumLine, roundCentre } from './datum.ts';
import { type DrawnBlank, drawnBlank } from './drawn-blank.ts';
import { keyedHoles } from './hole-keys.ts';
import { type HoleGroup, holeGroups } from './hole-patterns.ts';
import { type OutlineCorner, outlineCorners } from './outline-corners.ts';
import {
  apart,
  axisOf,
  OVER_METAL_MM,
  type Overall,
  SAME_TICK_MM,
  seenApart,
  SIDES_OF,
  type Teller,
  tellerOf,
  toldCorners,
} from './told-corners.ts';
import type { Side, Tick } from './ticks.ts';

/**
 * All sizes by which a blank is made by hand, once each: what is written beside its picture, and
 * what is told in tables because it would not be read there. Places are those of the drawn blank.
 */
export interface BlankSizes {
  readonly drawn: DrawnBlank;
  /** How its figures are written. */
  readonly print: Printed;
  readonly ticks: Readonly<Record<Side, readonly Tick[]>>;
  /** Width and height, and whether the running sizes tell them as well. */
  readonly overall: readonly [across: Overall, up: Overall];
  readonly groups: readonly HoleGroup[];
  /** Corners that running sizes tell. */
  readonly corners: readonly OutlineCorner[];
  readonly tabled: {
    readonly corners: readonly OutlineCorner[];
    readonly folds: readonly FlatBend[];
  };
}

/** What a picture has room for. */
export interface Room {
  /** So many running sizes on each side. */
  readonly count: Readonly<Record<Side, number>>;
  /** Corners whose sizes lie nearer to others than this, mm of the blank, crowd a row. */
  readonly closeMm: number;
  /** Lines nearer to each other than this, mm of the blank, are one line to the eye. */
  readonly oneLineMm: number;
}

/** More groups of holes than these are found by their names in the table. */
const MOST_HOLES = 4;

/**
 * Folds and corners from the datum, as far as lines from them reach the sides without running over
 * the metal and there is room for their figures; few holes too. Corners without such lines, those of
 * reliefs, and folds that run askew are told in tables.
 */
export const blankSizes = (
  flat: FlatPattern,
  datum: Datum,
  room: Room,
  print = printedIn(),
): BlankSizes => {
  const drawn = drawnBlank(flat, datum);
  const teller = tellerOf(drawn);
  const isRound = roundCentre(drawn.flat.outline) !== undefined;
  const origin: Vec2 = [drawn.datum.x.at[0], drawn.datum.y.at[1]];
  const corners = isRound ? [] : outlineCorners(drawn.flat.outline, origin);
  const groups = holeGroups(keyedHoles(drawn.flat, print));
  const straight = seenApart(drawn.flat.bends, teller, room.oneLineMm);
  const told = apart(toldCorners(corners, teller), straight, teller, room);
  const plain = told.filter((c) => ([0, 1] as const).every((axis) => teller.isPlain(c.at, axis)));
  const holes = groups.length <= MOST_HOLES ? groups : [];
  const tries = [
    { corners: told, holes, folds: straight },
    { corners: told, holes: [], folds: straight },
    { corners: plain, holes, folds: straight },
    { corners: plain, holes: [], folds: straight },
  ];
  const ticksOf = (shown: Shown): BlankSizes['ticks'] => ticksFor(shown, teller, drawn, print);
  const fits = (ticks: BlankSizes['ticks']): boolean =>
    (Object.keys(room.count) as Side[]).every((side) => ticks[side].length <= room.count[side]);
  const shown = tries.find((t) => fits(ticksOf(t))) ?? fewFolds(plain, straight, ticksOf, fits);
  return {
    drawn,
    print,
    ticks: ticksOf(shown),
    overall: [teller.overall(0), teller.overall(1)],
    groups,
    corners: shown.corners,
    tabled: {
      corners: corners.filter((c) => !shown.corners.includes(c)),
      folds: drawn.flat.bends.filter((bend) => !shown.folds.includes(bend)),
    },
  };
};

/** What is told by running sizes. */
interface Shown {
  readonly corners: readonly OutlineCorner[];
  readonly holes: readonly HoleGroup[];
  readonly folds: readonly FlatBend[];
}

/** So many of the folds, in their order, that there is room for them. */
const fewFolds = (
  corners: readonly OutlineCorner[],
  folds: readonly FlatBend[],
  ticksOf: (shown: Shown) => BlankSizes['ticks'],
  fits: (ticks: BlankSizes['ticks']) => boolean,
): Shown => {
  for (let count = folds.length; count > 0; count--) {
    const shown = { corners, holes: [], folds: folds.slice(0, count) };
    if (fits(ticksOf(shown))) return shown;
  }
  return { corners, holes: [], folds: [] };
};

/** A place that a tick tells. */
interface Source {
  readonly mm: number;
  readonly from: number;
  readonly side: Side;
  readonly name: string;
  readonly value: number;
  readonly isCentre: boolean;
}

const ticksFor = (
  shown: Shown,
  teller: Teller,
  drawn: DrawnBlank,
  print: Printed,
): BlankSizes['ticks'] => {
  const sources = ([0, 1] as const).flatMap((axis) => sourcesOf(shown, teller, drawn, axis));
  const side = (s: Side): Tick[] =>
    merged(
      sources.filter((source) => source.side === s),
      print,
    );
  return { below: side('below'), left: side('left'), above: side('above'), right: side('right') };
};

const sourcesOf = (
  { corners, holes, folds }: Shown,
  teller: Teller,
  drawn: DrawnBlank,
  axis: 0 | 1,
): Source[] => {
  const other = axis === 0 ? 1 : 0;
  const best = (points: readonly Vec2[], home: 0 | 1): { side: Side; p: Vec2 } => {
    const sides = home === 0 ? SIDES_OF[axis] : SIDES_OF[axis].toReversed();
    const all = sides.flatMap((side) =>
      points.map((p) => ({ side, p, metal: teller.metal(p, side) })),
    );
    return all.reduce((a, b) => (b.metal < a.metal - OVER_METAL_MM ? b : a));
  };
  const source = (
    points: readonly Vec2[],
    name: string,
    home: 0 | 1,
    isCentre: boolean,
  ): Source => {
    const { side, p } = best(points, home);
    return { mm: p[axis], from: p[other], side, name, value: teller.value(p, axis), isCentre };
  };
  const foldTicks = folds
    .filter((bend) => axisOf(bend) === axis)
    .map(({ id, centreLine }) => source(centreLine, id, 0, false));
  const cornerTicks = bySame(
    corners.map((c) => c.at).filter((p) => !teller.isPlain(p, axis)),
    axis,
  ).map((points) => source(points, '', 0, false));
  const holeTicks = bySame(
    holes.map((h) => h.at),
    axis,
  ).map((points) => {
    const names = holes.filter((h) => points.includes(h.at)).map((h) => h.key);
    return source(points, namesText(names), 1, true);
  });
  const line = axis === 0 ? drawn.datum.x : drawn.datum.y;
  const zero = source(pointsOf(line), '', 0, line.kind === 'hole');
  return [zero, ...foldTicks, ...cornerTicks, ...holeTicks];
};

const pointsOf = (line: DatumLine): readonly Vec2[] => line.ends ?? [line.at];

/** Points that lie level with each other. */
const bySame = (points: readonly Vec2[], axis: 0 | 1): Vec2[][] => {
  const found: Vec2[][] = [];
  for (const p of points.toSorted((a, b) => a[axis] - b[axis])) {
    const last = found.at(-1);
    if (last !== undefined && p[axis] - (last[0] as Vec2)[axis] < SAME_TICK_MM) last.push(p);
    else found.push([p]);
  }
  return found;
};

/** Sizes that are the same are written once, with all names. */
const merged = (sources: readonly Source[], { tape, rounded }: Printed): Tick[] => {
  const found: (Omit<Source, 'name'> & { names: string[] })[] = [];
  for (const { name, ...source } of sources.toSorted((a, b) => a.mm - b.mm)) {
    const last = found.at(-1);
    const names = name === '' ? [] : [name];
    if (last === undefined || source.mm - last.mm >= SAME_TICK_MM) found.push({ ...source, names });
    else {
      const out = source.side === 'below' || source.side === 'left' ? -1 : 1;
      const isNearer = out * (source.from - last.from) > 0;
      found[found.length - 1] = {
        ...(isNearer ? source : last),
        isCentre: source.isCentre && last.isCentre,
        names: [...last.names, ...names],
      };
    }
  }
  return found.map(({ mm, from, names, value, isCentre }, i): Tick => {
    const [own, size] = [rounded(value), tape(value, 1)];
    const before = found[i - 1];
    return {
      mm,
      from,
      text: [namesText(names), size].filter((t) => t !== '').join('  '),
      names: namesText(names),
      figure: size,
      value: own,
      fromBefore: tape(before === undefined ? own : Math.abs(own - rounded(before.value)), 1),
      ...(isCentre && { isCentre }),
    };
  });
};

const namesText = (names: readonly string[]): string =>
  names.length > 3 ? `${names.slice(0, 2).join(' ')} ... ${names.at(-1)}` : names.join(' ');
