import type { Printed } from '../../text/printed.ts';
import { NO_DIRECTION } from '../../geometry/tolerance.ts';
import { distance, dot, leftOf, scale, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { KeyedHole } from './hole-keys.ts';

/** Holes of one size that one dimension tells, or a hole by itself. */
export interface HoleGroup {
  readonly holes: readonly KeyedHole[];
  /** `h1`, or `h1-h6`. */
  readonly key: string;
  /** What of it is measured from the datum: the middle of a hole or of a pitch circle. */
  readonly at: Vec2;
  readonly pattern?: PitchCircle | Grid;
}

/** Holes at equal steps round a circle. */
export interface PitchCircle {
  readonly kind: 'circle';
  readonly diameterMm: number;
  /** Where the first hole lies, seen from the middle; the others follow counter-clockwise. */
  readonly firstDeg: number;
}

/** Rows of holes at equal steps; the first hole is the one that is measured from the datum. */
export interface Grid {
  readonly kind: 'grid';
  /** From hole to hole in a row, and from row to row; as many of each. */
  readonly step: Vec2;
  readonly count: number;
  readonly rowStep: Vec2;
  readonly rows: number;
}

/** Places that differ by less than this, mm, are the same for a pattern. */
const SAME_PITCH_MM = 0.02;
const SAME_PITCH_DEG = 0.02;
/** Fewer holes than these are no row, and no circle. */
const LEAST = 3;

/**
 * All holes, those of a pattern together: at equal steps round a circle or in rows, of one size, on
 * one panel and out of one input, in the order of the blank.
 */
export const holeGroups = (holes: readonly KeyedHole[]): HoleGroup[] => {
  const families = new Map<string, KeyedHole[]>();
  for (const hole of holes) {
    const base = hole.hole.from.replace(/[.\s]?\d+$/, '');
    const key = [hole.kind, hole.size, hole.hole.panel, base].join('\n');
    families.set(key, [...(families.get(key) ?? []), hole]);
  }
  return [...families.values()]
    .flatMap((family) => patternsOf(family, holes))
    .toSorted((a, b) => orderOf(a, holes) - orderOf(b, holes));
};

const orderOf = ({ holes: [first] }: HoleGroup, all: readonly KeyedHole[]): number =>
  all.indexOf(first as KeyedHole);

const patternsOf = (family: readonly KeyedHole[], all: readonly KeyedHole[]): HoleGroup[] => {
  if (family.length < LEAST) return family.map(alone);
  const circle = pitchCircle(family, all);
  if (circle !== undefined) return [circle];
  const grid = gridOf(family);
  if (grid !== undefined) return [grid];
  const halves = staggered(family);
  return halves ?? family.map(alone);
};

const alone = (hole: KeyedHole): HoleGroup => ({
  holes: [hole],
  key: hole.key,
  at: hole.centre,
});

const keyOf = (holes: readonly KeyedHole[]): string => {
  const numbers = holes.map((h) => Number(h.key.slice(1))).toSorted((a, b) => a - b);
  const [low, high] = [numbers[0] as number, numbers.at(-1) as number];
  return high - low === numbers.length - 1
    ? `h${low}-h${high}`
    : numbers.length <= 4
      ? numbers.map((n) => `h${n}`).join(' ')
      : `h${low}..h${high}`;
};

/** Four holes on a circle are two rows of two, unless something else lies in their middle. */
const pitchCircle = (
  family: readonly KeyedHole[],
  all: readonly KeyedHole[],
): HoleGroup | undefined => {
  const n = family.length;
  const centre = scale(
    family.reduce<Vec2>((sum, h) => [sum[0] + h.centre[0], sum[1] + h.centre[1]], [0, 0]),
    1 / n,
  );
  const reach = family.map((h) => distance(h.centre, centre));
  const radius = reach[0] as number;
  if (radius < 1 || reach.some((r) => Math.abs(r - radius) > SAME_PITCH_MM)) return undefined;
  const turned = family
    .map((hole) => ({ hole, deg: degOf(sub(hole.centre, centre)) }))
    .toSorted((a, b) => a.deg - b.deg);
  const steps = turned.map(
    ({ deg }, i) => (turned[i + 1]?.deg ?? (turned[0]?.deg ?? 0) + 360) - deg,
  );
  if (steps.some((s) => Math.abs(s - 360 / n) > SAME_PITCH_DEG)) return undefined;
  const isRound = family.every((h) => h.hole.kind === 'round');
  const hasMiddle = all.some((h) => distance(h.centre, centre) < SAME_PITCH_MM);
  if (!isRound || (n === 4 && !hasMiddle)) return undefined;
  return {
    holes: turned.map((t) => t.hole),
    key: keyOf(family),
    at: centre,
    pattern: { kind: 'circle', diameterMm: 2 * radius, firstDeg: turned[0]?.deg ?? 0 },
  };
};

const degOf = ([x, y]: Vec2): number => {
  const deg = (Math.atan2(y, x) * 180) / Math.PI;
  return deg < -SAME_PITCH_DEG ? deg + 360 : Math.max(0, deg);
};

/** Rows of holes; every place of the grid has its hole. */
const gridOf = (family: readonly KeyedHole[]): HoleGroup | undefined => {
  if (family.length < LEAST) return undefined;
  const ways: readonly Vec2[] = [[1, 0], ...nearestWay(family)];
  for (const way of ways) {
    const grid = gridAlong(family, way);
    if (grid !== undefined) return grid;
  }
  return undefined;
};

/** The direction from one of the holes to the one nearest to it. */
const nearestWay = (family: readonly KeyedHole[]): Vec2[] => {
  const [first, ...rest] = family;
  const near = rest.toSorted(
    (a, b) =>
      distance(a.centre, (first as KeyedHole).centre) -
      distance(b.centre, (first as KeyedHole).centre),
  )[0];
  if (near === undefined) return [];
  const [x, y] = unit(sub(near.centre, (first as KeyedHole).centre));
  return [x < -NO_DIRECTION || (x < NO_DIRECTION && y < 0) ? [-x, -y] : [x, y]];
};

const gridAlong = (family: readonly KeyedHole[], way: Vec2): HoleGroup | undefined => {
  const up = leftOf(way);
  const columns = levels(family.map((h) => dot(h.centre, way)));
  const rows = levels(family.map((h) => dot(h.centre, up)));
  if (columns.length * rows.length !== family.length) return undefined;
  const [step, rowStep] = [evenStep(columns), evenStep(rows)];
  if (step === undefined || rowStep === undefined) return undefined;
  const slot = (h: KeyedHole): number =>
    rows.findIndex((v) => Math.abs(v - dot(h.centre, up)) < SAME_PITCH_MM) * columns.length +
    columns.findIndex((v) => Math.abs(v - dot(h.centre, way)) < SAME_PITCH_MM);
  const holes = family.toSorted((a, b) => slot(a) - slot(b));
  if (new Set(holes.map(slot)).size !== holes.length) return undefined;
  return {
    holes,
    key: keyOf(family),
    at: (holes[0] as KeyedHole).centre,
    pattern: {
      kind: 'grid',
      step: scale(way, step),
      count: columns.length,
      rowStep: scale(up, rowStep),
      rows: rows.length,
    },
  };
};

/** Different values, rising. */
const levels = (values: readonly number[]): number[] =>
  values
    .toSorted((a, b) => a - b)
    .filter((v, i, all) => i === 0 || v - (all[i - 1] as number) > SAME_PITCH_MM);

/** The step between values, 0 of one value; undefined where steps differ. */
const evenStep = (values: readonly number[]): number | undefined => {
  if (values.length === 1) return 0;
  const [low, high] = [values[0] as number, values.at(-1) as number];
  const step = (high - low) / (values.length - 1);
  return values.every((v, i) => Math.abs(v - low - i * step) < SAME_PITCH_MM) ? step : undefined;
};

/** Rows set off against each other by half a step are two grids, one between the other. */
const staggered = (family: readonly KeyedHole[]): HoleGroup[] | undefined => {
  for (const axis of [1, 0] as const) {
    const rows = levels(family.map((h) => h.centre[axis]));
    if (rows.length < 2) continue;
    const halves = [0, 1].map((odd) =>
      family.filter(
        (h) => rows.findIndex((v) => Math.abs(v - h.centre[axis]) < SAME_PITCH_MM) % 2 === odd,
      ),
    );
    const grids = halves.map(gridOf);
    if (grids.every((g) => g !== undefined)) return grids;
  }
  return undefined;
};

/** `6 x Ø5.5 on PC 95`, `12 x Ø6.6, 3 rows of 4, pitch 20`. */
export const groupText = ({ holes, key, pattern }: HoleGroup, print: Printed): string => {
  const { size } = holes[0] as KeyedHole;
  if (pattern === undefined) return `${key} ${size}`;
  if (pattern.kind === 'circle')
    return `${holes.length} x ${size} on PC ${print.tape(pattern.diameterMm, 1)}`;
  return `${holes.length} x ${size}, ${gridText(pattern, print)}`;
};

/** `3 rows of 4, pitch 20 x 25`; `pitch 30` of a single row. */
const gridText = ({ count, rows, step, rowStep }: Grid, { tape }: Printed): string => {
  const [across, up] = [step, rowStep].map((v) => tape(Math.hypot(...v), 1));
  if (rows === 1) return `pitch ${across}`;
  if (count === 1) return `pitch ${up}`;
  return `${rows} rows of ${count}, pitch ${across === up ? across : `${across} x ${up}`}`;
};
