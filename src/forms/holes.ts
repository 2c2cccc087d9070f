import type { HoleUse } from '../model/hole-use.ts';
import { parseLength } from '../text/units.ts';
import type { Given, HOLES_INPUT } from './accepts.ts';
import { entriesOf } from './split-entries.ts';
import type { FieldReading } from './field.ts';
import { shown } from './given.ts';
import {
  axesExample,
  axesOrder,
  from,
  type HoleAxes,
  type HoleDatum,
  holesAllowed,
  type NamedPlace,
  namedPlace,
  XY_AXES,
} from './hole-axes.ts';
import { readPattern } from './hole-pattern.ts';
import { bad, good, type Reading, reasonsOf } from './hole-reading.ts';
import { type HoleShape, readHoleSize } from './hole-shape.ts';

/**
 * A hole as asked for. Lengths in mm, each from its datum and into the panel; from the middle,
 * towards the far side.
 */
export interface HoleSpec {
  readonly acrossMm: number;
  readonly alongMm: number;
  /** The places from which it is measured; the near ones where left out. */
  readonly datums?: readonly [across: HoleDatum, along: HoleDatum];
  /** What the two figures are measured from. */
  readonly axes: HoleAxes;
  readonly shape: HoleShape;
  readonly use?: HoleUse;
  /**
   * Whether it was written as two figures in the order of the axes, which may be mistaken for the
   * other order.
   */
  readonly isShort?: true;
  /** Which hole of its input, counted from 1: `2`, or `2.3` for the third of a pattern. */
  readonly number: string;
}

export type HolesInput = Given<typeof HOLES_INPUT>;

/** More holes than this in one panel are a slip, or an attack. */
export const MOST_HOLES = 20_000;

/** Positions may be negative: a hole beyond the corner of a fold reaches into the bend. */
const FARTHEST_MM = 10_000;

/**
 * Reads the holes of one panel, or of whichever of several panels has the axes that are named;
 * figures without names are in the order of the axes. The refusal names the first hole that cannot
 * be read, and all that is wrong with it.
 */
export function readHoles(
  given: HolesInput,
  axes: readonly HoleAxes[],
): FieldReading<readonly HoleSpec[]> {
  const entries = typeof given === 'string' ? entriesOf(given, MOST_HOLES) : given;
  const specs: HoleSpec[] = [];
  for (const [index, entry] of entries.entries()) {
    const reading = readEntry(
      typeof entry === 'string'
        ? entry.split(',')
        : [entry.across, entry.along, entry.size].map(String),
      index + 1,
      axes,
    );
    if (!reading.ok) return refusal(index, entry, reading.reasons, axes);
    specs.push(...reading.value);
    if (specs.length > MOST_HOLES)
      return {
        ok: false,
        allowed: `at most ${MOST_HOLES} holes in a panel`,
        given: `more, with ${nameOfHole(index)}`,
      };
  }
  return { ok: true, value: specs };
}

const ORDINALS = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
];

/** Name of a hole in messages: `the first hole`, `the second hole`, ... `hole 11`. */
const nameOfHole = (index: number): string => {
  const ordinal = ORDINALS[index];
  return ordinal === undefined ? `hole ${index + 1}` : `the ${ordinal} hole`;
};

function refusal(
  index: number,
  entry: HolesInput[number],
  reasons: readonly string[],
  axes: readonly HoleAxes[],
): FieldReading<never> {
  const text =
    typeof entry === 'string' ? entry.trim() : `${entry.across},${entry.along},${entry.size}`;
  return {
    ok: false,
    given: `${shown(text)} as ${nameOfHole(index)}`,
    allowed: holesAllowed(axes),
    mend: reasons.join('; '),
  };
}

/** Two places, or one that stands for both, and a size with the pattern it is repeated in. */
function readEntry(
  fields: readonly string[],
  number: number,
  axes: readonly HoleAxes[],
): Reading<readonly HoleSpec[]> {
  const words = fields.map((f) => f.trim());
  const places = readPlaces(words.slice(0, -1), axes);
  const pattern = readPattern(words.at(-1) ?? '');
  const sized = pattern.ok ? readHoleSize(pattern.value.size) : pattern;
  if (!places.ok || !pattern.ok || !sized.ok) return bad(...reasonsOf(places, sized));
  const { offsets } = pattern.value;
  const { mm, datums, axes: measuredFrom, isShort } = places.value;
  return good(
    offsets.map((offset, i): HoleSpec => ({
      acrossMm: moved(mm[0], datums[0], offset[0]),
      alongMm: moved(mm[1], datums[1], offset[1]),
      ...(datums.some((d) => d !== 'near') && { datums }),
      axes: measuredFrom,
      ...sized.value,
      ...(isShort && { isShort }),
      number: offsets.length === 1 ? `${number}` : `${number}.${i + 1}`,
    })),
  );
}

/**
 * A place moved by a pattern; a figure that is measured from the opposite side grows the other way.
 */
const moved = (mm: number, datum: HoleDatum, by: number): number =>
  datum === 'far' ? mm - by : mm + by;

interface Places {
  readonly mm: readonly [number, number];
  readonly datums: readonly [HoleDatum, HoleDatum];
  readonly axes: HoleAxes;
  readonly isShort: boolean;
}

function readPlaces(words: readonly string[], choices: readonly HoleAxes[]): Reading<Places> {
  const isNamed = words.map((word) => choices.some((axes) => namedPlace(word, axes) !== undefined));
  if (!isNamed.includes(true)) return readShort(words, choices);
  const stray = words.find((_, i) => !isNamed[i]);
  if (stray !== undefined) return bad(`${shown(stray)}: ${bothOrNone(choices)}`);
  const readings = choices.map((axes) =>
    readNamed(
      words.map((word) => namedPlace(word, axes)),
      axes,
      choices,
    ),
  );
  return readings.find((r) => r.ok) ?? (readings[0] as Reading<Places>);
}

const bothOrNone = (choices: readonly HoleAxes[]): string =>
  `write both figures with what they are measured from, such as ${choices.map(axesExample).join(' or ')}, or both without, in the order ${choices.map(axesOrder).join(' or ')}`;

function readShort(words: readonly string[], choices: readonly HoleAxes[]): Reading<Places> {
  const [across, along, ...more] = words;
  const wanted = `${choices.map(axesOrder).join(' or ')}, size`;
  if (across === undefined || along === undefined)
    return bad(`write three figures with commas between them: ${wanted}`);
  if (more.length > 0)
    return bad(
      `write three figures only (${wanted}), a ';' before the next hole, and a point as decimal mark`,
    );
  const [axes] = choices as readonly [HoleAxes];
  const mm = [readPlace(axes[0].from, across), readPlace(axes[1].from, along)] as const;
  if (!mm[0].ok || !mm[1].ok) return bad(...reasonsOf(...mm));
  return good({
    mm: [mm[0].value, mm[1].value],
    datums: ['near', 'near'],
    axes,
    isShort: !choices.includes(XY_AXES),
  });
}

function readNamed(
  places: readonly (NamedPlace | undefined)[],
  axes: HoleAxes,
  choices: readonly HoleAxes[],
): Reading<Places> {
  const mm: [number, number] = [0, 0];
  const datums: [HoleDatum | undefined, HoleDatum | undefined] = [undefined, undefined];
  for (const place of places) {
    if (place === undefined) return bad(`these two do not go together: ${bothOrNone(choices)}`);
    if (place.axis === undefined) continue;
    const read = readPlace(place.name, place.text);
    if (!read.ok) return read;
    if (datums[place.axis] !== undefined)
      return bad(`two figures are measured in the same direction; ${bothOrNone(choices)}`);
    [mm[place.axis], datums[place.axis]] = [read.value, place.datum];
  }
  const isMiddle = places.some((place) => place?.axis === undefined);
  if (!isMiddle && datums.includes(undefined))
    return bad(`a second figure is missing; ${bothOrNone(choices)}`);
  if (isMiddle && !datums.includes(undefined))
    return bad('leave out middle, or one of the two figures');
  const endless = axes.find(({ to }, i) => datums[i] === undefined && to === undefined);
  if (endless !== undefined)
    return bad(
      `there is no middle of what is measured from ${endless.from}; write ${from(endless)} and a figure`,
    );
  return good({ mm, datums: [datums[0] ?? 'middle', datums[1] ?? 'middle'], axes, isShort: false });
}

function readPlace(which: string, given: string): Reading<number> {
  const parsed = parseLength(given);
  if (!parsed.ok) return bad(`${which}: ${parsed.reason}`);
  if (Math.abs(parsed.value) <= FARTHEST_MM) return parsed;
  return bad(`${which}: must lie between -${FARTHEST_MM} and ${FARTHEST_MM} mm`);
}
