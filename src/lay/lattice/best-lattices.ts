import { cosDeg, sinDeg, turnedDeg } from '../../geometry/degrees.ts';
import { cross, sub, type Vec2 } from '../../geometry/vec2.ts';
import { EDGE, type NoFit } from '../no-fit.ts';
import type { NoFits, Shape } from '../shapes.ts';
import { type Barred, barredFor, type Cell, heightAt, APART_MM, stepAlong } from './apart.ts';
import type { Lattice } from './lattice.ts';

/** So many places of a second shape beside the first one are tried, those in the least box first. */
const MOST_PAIRS = 40;
/** Lattices that are refined, of those that look best. */
const REFINED = 120;
/** An edge this long, as a share of the longer side of the box, gives a direction for rows. */
const LONG_EDGE = 0.3;
const MOST_DIRECTIONS = 8;
/** Of an outline with no more corners than this rows run along its diagonals too. */
const FEW_CORNERS = 5;
/** Directions nearer than this, degrees, are one. */
const SAME_WAY_DEG = 0.1;

/**
 * The densest lattices of a shape that may lie in some ways, the densest first: of the shape alone
 * and of pairs, the second one touching the first at a corner of their no-fit polygon, as a shop
 * turns every other part end for end. Rows run along x, along y or along a long edge of the shape;
 * the shift from row to row is the one that brings them closest. Twice the same gives the same.
 */
export const bestLattices = (
  noFits: NoFits,
  shapes: readonly Shape[],
  choices: readonly number[],
  most: number,
): readonly Lattice[] => {
  const rows: Rows[] = [];
  let least = Infinity;
  for (const cell of cellsOf(noFits, shapes, choices))
    for (const way of directionsOf(shapes[cell.shapes[0] as number] as Shape)) {
      const found = rowsOf(noFits, cell, way, least * WORTH_A_LOOK);
      if (!Number.isFinite(found.area)) continue;
      least = Math.min(least, found.area);
      rows.push(found);
    }
  return unlike(
    rows
      .toSorted((a, b) => a.area - b.area)
      .slice(0, REFINED)
      .map(refined)
      .toSorted((a, b) => a.areaEach - b.areaEach),
  )
    .slice(0, most)
    .flatMap((lattice) => [lattice, ...quarterTurned(lattice, shapes, choices)]);
};

/** One of each kind: of the same shapes, as dense, with rows and steps that run the same way. */
const unlike = (lattices: readonly Lattice[]): readonly Lattice[] => {
  const seen = new Set<string>();
  return lattices.filter(({ shapes, areaEach, along, across }) => {
    const key = [...shapes, areaEach, ...along, ...across.map(Math.abs)]
      .map((figure) => figure.toFixed(2))
      .join(' ');
    return seen.size < seen.add(key).size;
  });
};

/** The same lattice turned by a quarter, where its shapes may lie so. */
const quarterTurned = (
  lattice: Lattice,
  shapes: readonly Shape[],
  choices: readonly number[],
): Lattice[] => {
  const turned = lattice.shapes.map((n) => {
    const { form, turnDeg } = shapes[n] as Shape;
    return choices.find((k) => {
      const other = shapes[k] as Shape;
      return other.form === form && other.turnDeg === (turnDeg + 90) % 360;
    });
  });
  if (turned.includes(undefined)) return [];
  const turn = (v: Vec2): Vec2 => turnedDeg(v, 90);
  return [
    {
      ...lattice,
      shapes: turned as number[],
      offsets: lattice.offsets.map(turn),
      along: turn(lattice.along),
      across: turn(lattice.across),
    },
  ];
};

/** One that takes so many times the area of the densest known fits no sheet better. */
const WORTH_A_LOOK = 1.15;

/** The shape by itself, and in pairs: those turned end for end first, which are dense most often. */
const cellsOf = (noFits: NoFits, shapes: readonly Shape[], choices: readonly number[]): Cell[] => {
  const a = choices[0] as number;
  const from = (b: number): number => (shapes[b] as Shape).turnDeg - (shapes[a] as Shape).turnDeg;
  const halfTurns = (b: number): number => Math.abs((((from(b) % 360) + 360) % 360) - 180);
  const others = choices.filter((b) => b !== a && from(b) % 90 === 0);
  return [
    { shapes: [a], offsets: [[0, 0]] },
    ...others
      .toSorted((b, c) => halfTurns(b) - halfTurns(c))
      .flatMap((b) =>
        placesBeside(noFits, shapes, a, b).map((at): Cell => ({
          shapes: [a, b],
          offsets: [[0, 0], at],
        })),
      ),
  ];
};

const placesBeside = (
  noFits: NoFits,
  shapes: readonly Shape[],
  a: number,
  b: number,
): readonly Vec2[] => {
  const [stays, moves] = [shapes[a], shapes[b]] as [Shape, Shape];
  const noFit = noFits.of(a, b);
  const places = [...cornersOf(noFit), ...cornersMeeting(noFit, stays, moves)];
  const boxArea = ([x, y]: Vec2): number =>
    (Math.max(stays.maxX, x + moves.maxX) - Math.min(stays.minX, x + moves.minX)) *
    (Math.max(stays.maxY, y + moves.maxY) - Math.min(stays.minY, y + moves.minY));
  return places.toSorted((p, q) => boxArea(p) - boxArea(q)).slice(0, MOST_PAIRS);
};

const cornersOf = ({ edges }: NoFit): Vec2[] =>
  Array.from({ length: edges.length / EDGE }, (_, k): Vec2 => [
    edges[k * EDGE] as number,
    edges[k * EDGE + 1] as number,
  ]);

/** Where corner comes to corner along an edge of the no-fit polygon: two edges lie flush there. */
const cornersMeeting = (
  { edges }: NoFit,
  { outline: { outer: stays } }: Shape,
  { outline: { outer: moves } }: Shape,
): Vec2[] =>
  stays.flatMap((p) =>
    moves.flatMap((q): Vec2[] => {
      const [x, y] = sub(p, q);
      for (let k = 0; k < edges.length; k += EDGE) {
        const [fromX, fromY, dx, dy, per] = edges.subarray(k, k + 5) as unknown as EdgeFigures;
        const along = ((x - fromX) * dx + (y - fromY) * dy) * per;
        const aside = ((x - fromX) * dy - (y - fromY) * dx) * Math.sqrt(per);
        if (along < 0 || along > 1 || Math.abs(aside) > ON_EDGE) continue;
        // Just outside, for the corners of the no-fit polygon are rounded.
        const out = APART_MM * Math.sqrt(per);
        return [[fromX + along * dx + dy * out, fromY + along * dy - dx * out]];
      }
      return [];
    }),
  );

type EdgeFigures = readonly [x: number, y: number, dx: number, dy: number, perSquare: number];

/** A place that is nearer to an edge than this, mm, lies on it. */
const ON_EDGE = 1e-5;

/** Ways that rows run: along x, along y, along the longest edges of the outline and across it. */
const directionsOf = ({ outline: { outer }, minX, maxX, minY, maxY }: Shape): readonly Vec2[] => {
  const side = Math.max(maxX - minX, maxY - minY);
  const edges = outer.map((from, i) => sub(outer[(i + 1) % outer.length] as Vec2, from));
  const diagonals =
    outer.length > FEW_CORNERS
      ? []
      : outer.flatMap((from, i) => outer.slice(i + 2).map((to) => sub(to, from)));
  const longest = (ways: readonly Vec2[]): number[] =>
    ways
      .filter((way) => Math.hypot(...way) > LONG_EDGE * side)
      .toSorted((a, b) => Math.hypot(...b) - Math.hypot(...a))
      .map(([x, y]) => (Math.atan2(y, x) * 180) / Math.PI);
  const found: number[] = [];
  for (const deg of [0, 90, ...longest(edges), ...longest(diagonals)]) {
    const isNew = found.every(
      (other) => Math.abs(((deg - other + 450) % 180) - 90) < 90 - SAME_WAY_DEG,
    );
    if (isNew && found.length < MOST_DIRECTIONS) found.push(deg);
  }
  return found.map((deg) => [cosDeg(deg), sinDeg(deg)]);
};

interface Rows {
  readonly cell: Cell;
  readonly way: Vec2;
  readonly barred: Barred;
  readonly step: number;
  readonly shift: number;
  /** Area that one part takes. */
  readonly area: number;
}

const EVEN_SHIFTS = 24;

/** Rows as close as they come by shifts that are worth a look; no area where it is over a limit. */
const rowsOf = (noFits: NoFits, cell: Cell, way: Vec2, mostArea: number): Rows => {
  const barred = barredFor(noFits, cell, way);
  const step = stepAlong(barred);
  const parts = cell.shapes.length;
  let [shift, height] = [0, (mostArea * parts) / step];
  let isFound = false;
  if (Number.isFinite(step))
    for (const s of shiftsFor(barred, step)) {
      const h = heightAt(barred, step, s, height);
      // Rows straight above each other come first: they lose least at the ends of a sheet.
      if (h < height - 2 * APART_MM) [shift, height, isFound] = [s, h, true];
    }
  return { cell, way, barred, step, shift, area: isFound ? (step * height) / parts : Infinity };
};

/** Just beside corners, where shapes fit into each other, and evenly between. */
const shiftsFor = (barred: Barred, step: number): readonly number[] => {
  const shifts = new Set<number>([0]);
  for (const region of barred.regions)
    for (let k = 0; k < region.length; k += 4)
      for (const beside of [-1, 1]) {
        const x = (region[k] as number) + beside * APART_MM;
        shifts.add(Math.round((x - step * Math.floor(x / step)) * 1e7) / 1e7);
      }
  for (let k = 0; k < EVEN_SHIFTS; k++) shifts.add((k * step) / EVEN_SHIFTS);
  return [...shifts];
};

const ROUNDS = 40;

/** The shift is bettered by ever shorter steps to both sides. */
const refined = ({ cell, way: [c, s], barred, step, shift: first }: Rows): Lattice => {
  let shift = first;
  let height = heightAt(barred, step, shift);
  for (let by = step / EVEN_SHIFTS, n = 0; n < ROUNDS; n++) {
    const [low, high] = [-by, by].map((d) => heightAt(barred, step, shift + d)) as [number, number];
    if (Math.min(low, high) < height - APART_MM / ROUNDS) {
      shift += low < high ? -by : by;
      height = Math.min(low, high);
    } else by /= 2;
  }
  const along: Vec2 = [c * step, s * step];
  const across: Vec2 = [c * shift - s * height, s * shift + c * height];
  return {
    ...cell,
    along,
    across,
    areaEach: Math.abs(cross(along, across)) / cell.shapes.length,
  };
};
