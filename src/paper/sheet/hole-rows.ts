import { distance, type Vec2 } from '../../geometry/vec2.ts';
import { SAME_IN_FILE_MM } from '../../geometry/tolerance.ts';
import { grouped } from '../../text/grouped.ts';
import type { Printed } from '../../text/printed.ts';
import type { KeyedHole } from '../draw/hole-keys.ts';

/** As many holes as these are a pattern, and no longer told one by one. */
const LEAST_OF_PATTERN = 5;

/**
 * The rows of the table of holes: key, size, kind, x, y, panel. Holes of one size on one panel that
 * stand on a circle, or in rows at even steps, are one row.
 */
export const holeRows = (holes: readonly KeyedHole[], print: Printed): string[][] =>
  grouped(holes, ({ hole, size, kind }) => `${hole.panel} ${size} ${kind}`)
    .flatMap((group) => {
      const row = group.length < LEAST_OF_PATTERN ? undefined : patternRow(group, print);
      return row === undefined
        ? group.map((hole) => ({ first: hole, row: singleRow(hole, print) }))
        : [{ first: group[0] as KeyedHole, row }];
    })
    .toSorted((a, b) => holes.indexOf(a.first) - holes.indexOf(b.first))
    .map(({ row }) => row);

const singleRow = (
  { key, size, kind, centre: [x, y], hole }: KeyedHole,
  { tape }: Printed,
): string[] => [key, size, kind, tape(x, 1), tape(y, 1), hole.panel];

const patternRow = (group: readonly KeyedHole[], print: Printed): string[] | undefined => {
  const [first] = group as [KeyedHole];
  const centres = group.map((h) => h.centre);
  const place = onCircle(centres, print) ?? inRows(centres, print);
  return place === undefined
    ? undefined
    : [
        namesOf(group),
        `${group.length} x ${first.size}`,
        [first.kind, ...place.kind].join(', '),
        place.x,
        place.y,
        first.hole.panel,
      ];
};

interface PatternPlace {
  readonly kind: readonly string[];
  readonly x: string;
  readonly y: string;
}

/** `h3 - h41`; where others have names between, those are told one by one. */
const namesOf = (group: readonly KeyedHole[]): string =>
  `${group[0]?.key ?? ''} - ${group.at(-1)?.key ?? ''}`;

/** Around their middle, all as far from it and from the next. */
const onCircle = (centres: readonly Vec2[], { tape }: Printed): PatternPlace | undefined => {
  const [x, y] = ([0, 1] as const).map(
    (axis) => centres.reduce((sum, c) => sum + c[axis], 0) / centres.length,
  ) as [number, number];
  const radii = centres.map((c) => distance(c, [x, y]));
  const turns = centres.map((c) => Math.atan2(c[1] - y, c[0] - x)).toSorted((a, b) => a - b);
  const steps = turns.map((turn, i) =>
    i === 0 ? turn + 2 * Math.PI - (turns.at(-1) as number) : turn - (turns[i - 1] as number),
  );
  const radius = Math.max(...radii);
  const isEven =
    radius - Math.min(...radii) < SAME_IN_FILE_MM &&
    (Math.max(...steps) - Math.min(...steps)) * radius < SAME_IN_FILE_MM;
  return isEven
    ? { kind: [`on a circle of ${tape(2 * radius, 1)} about`], x: tape(x, 1), y: tape(y, 1) }
    : undefined;
};

const inRows = (centres: readonly Vec2[], { tape }: Printed): PatternPlace | undefined => {
  const ways = ([0, 1] as const).map((axis) => stepsOf(centres.map((c) => c[axis])));
  const [across, up] = ways;
  if (across === undefined || up === undefined) return undefined;
  const places = across.count * up.count;
  const isFull = places === centres.length;
  const isStaggered =
    Math.ceil(places / 2) === centres.length || Math.floor(places / 2) === centres.length;
  if (!isFull && !isStaggered) return undefined;
  const text = ({ from, to, count, step }: Steps): string =>
    count === 1 ? tape(from, 1) : `${tape(from, 1)} to ${tape(to, 1)} by ${tape(step, 1)}`;
  return {
    kind: isFull ? [] : ['every other place'],
    x: text(across),
    y: text(up),
  };
};

interface Steps {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly step: number;
}

/** Places at even steps along one way; nothing where the steps differ. */
const stepsOf = (values: readonly number[]): Steps | undefined => {
  const places: number[] = [];
  for (const value of values.toSorted((a, b) => a - b))
    if (places.length === 0 || value - (places.at(-1) as number) > SAME_IN_FILE_MM)
      places.push(value);
  const [from, to] = [places[0] as number, places.at(-1) as number];
  const step = places.length === 1 ? 0 : (to - from) / (places.length - 1);
  return places.every((p, i) => Math.abs(p - from - i * step) < SAME_IN_FILE_MM)
    ? { from, to, count: places.length, step }
    : undefined;
};
