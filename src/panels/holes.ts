import type { FieldReading } from '../forms/field.ts';
import type { HoleAxes } from '../forms/hole-axes.ts';
import { XY_AXES } from '../forms/hole-axes.ts';
import { readHoleSize } from '../forms/hole-shape.ts';
import { type HoleSpec, MOST_HOLES, readHoles } from '../forms/holes.ts';
import { type HoleFrame, placeHole } from '../forms/place-hole.ts';
import { entriesOf } from '../forms/split-entries.ts';
import { obround } from '../geometry/shapes.ts';
import { distance, middle, sub } from '../geometry/vec2.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Cutout } from '../model/part.ts';
import { parseLength } from '../text/units.ts';
import { readOutline } from '../forms/outline.ts';
import type { Figures } from './figures.ts';
import type { GivenHoles } from './given.ts';
import { outlineOf, putIntoOutline, type Shape, shapeHeight, shapeWidth } from './shape.ts';

/** What a panel has cut into it, as it is given. */
export interface GivenCuts {
  readonly holes?: GivenHoles | undefined;
  readonly cutouts?: string | readonly (string | readonly unknown[])[] | undefined;
  readonly slits?: string | undefined;
}

const FOOT_AXES: HoleAxes = [
  { from: 'foot', at: 'the outside corner of its fold', to: 'end' },
  { from: 'left', at: 'its left end', to: 'right' },
];
const OUTLINED_AXES: HoleAxes = [
  { from: 'foot', at: 'the line y = 0 of its outline' },
  { from: 'left', at: 'the line x = 0 of its outline' },
];
const SIDE_AXES: HoleAxes = [
  { from: 'left', at: 'its left side', to: 'right' },
  { from: 'bottom', at: 'its lower side', to: 'top' },
];

const MOST_SLITS = 1000;

/** What the holes of a panel are measured from, and how its figures run. */
export interface HolePlan {
  readonly axes: readonly HoleAxes[];
  readonly frame: HoleFrame;
}

export const holePlanOf = (shape: Shape, isBase: boolean, thicknessMm: number): HolePlan => {
  if (isBase)
    return {
      axes: shape.isPlain ? [XY_AXES, SIDE_AXES] : [XY_AXES],
      frame: {
        origin: [0, 0],
        across: [1, 0],
        along: [0, 1],
        thicknessMm,
        ...(shape.isPlain && { spanMm: [shapeWidth(shape), shapeHeight(shape)] }),
      },
    };
  return {
    axes: shape.isPlain ? [FOOT_AXES, XY_AXES] : [OUTLINED_AXES, XY_AXES],
    frame: {
      origin: [0, 0],
      across: [0, 1],
      along: [1, 0],
      thicknessMm,
      ...(shape.isPlain && { spanMm: [shapeHeight(shape), shapeWidth(shape)] }),
    },
  };
};

/** One entry of holes: those that it makes on its panel, or one whose place is elsewhere. */
export type HoleEntry =
  | { readonly kind: 'here'; readonly specs: readonly HoleSpec[] }
  | { readonly kind: 'shaped'; readonly cutout: Cutout }
  | { readonly kind: 'space'; readonly text: string; readonly number: number };

/** Reads the holes of a panel; nothing where that told a problem. */
export function holeEntries(
  figures: Figures,
  given: GivenHoles | undefined,
  plan: HolePlan,
  { at, id, input }: { readonly at: string; readonly id: string; readonly input: string },
): readonly HoleEntry[] | undefined {
  if (given === undefined) return [];
  const entries = typeof given === 'string' ? entriesOf(given, MOST_HOLES) : given;
  const path = `${at}.holes`;
  if (entries.length > MOST_HOLES)
    return figures.problem(path, 'more', `at most ${MOST_HOLES} holes in a panel`);
  const read = entries.map((entry, i): HoleEntry | undefined => {
    const number = i + 1;
    if (typeof entry === 'object' && 'outline' in entry)
      return shapedHole(figures, entry, `${path}[${i}]`, { from: `${id} holes ${number}`, input });
    const whole =
      typeof entry === 'string'
        ? figures.put(entry, path)
        : [entry.across, entry.along, entry.size].map((f) => String(f)).join(',');
    if (whole === undefined) return undefined;
    if (isInSpace(whole, plan.axes)) return { kind: 'space', text: whole, number };
    const specs = readHoles([whole], plan.axes);
    return specs.ok
      ? { kind: 'here', specs: specs.value.map((spec) => renumbered(spec, number)) }
      : wrongHole(figures, path, whole, specs);
  });
  return read.includes(undefined) ? undefined : (read as HoleEntry[]);
}

const wrongHole = (
  figures: Figures,
  path: string,
  given: string,
  refusal: Extract<FieldReading<unknown>, { ok: false }>,
): undefined =>
  figures.problem(path, refusal.given ?? given, refusal.allowed ?? 'holes', refusal.mend);

/** `2.1` of the second entry, not of the first one, which it was read as. */
const renumbered = (spec: HoleSpec, number: number): HoleSpec => ({
  ...spec,
  number: spec.number.replace(/^1/, String(number)),
});

/** A place that is measured from something that is not of the panel itself. */
const isInSpace = (text: string, axes: readonly HoleAxes[]): boolean => {
  const own = new Set(
    axes.flat().flatMap(({ from, to }) => [from, ...(to === undefined ? [] : [to])]),
  );
  return [...text.matchAll(/(?:^|,)\s*from\s+(?:the\s+)?(\S+)(?:\s+(\S+))?/giu)].some(
    ([, word = '', next = '']) =>
      word.toLowerCase() !== 'middle' && (!own.has(word.toLowerCase()) || /^[\p{L}_]/u.test(next)),
  );
};

function shapedHole(
  figures: Figures,
  entry: Extract<Exclude<GivenHoles, string>[number], { outline: unknown }>,
  at: string,
  { from, input }: { readonly from: string; readonly input: string },
): HoleEntry | undefined {
  const loop = outlineOf(figures, entry.outline, `${at}.outline`);
  if (loop === undefined) return undefined;
  const plain = loop.map(({ x, y, bulge }) => ({ x, y, bulge }));
  const facts = { kind: 'loop', from, inputs: [input], loop: plain } as const;
  if (entry.use === undefined) return { kind: 'shaped', cutout: facts };
  // What stands behind a size is read behind one that anything goes through; a tube is a size.
  const read = readHoleSize(/^t\s*\d/i.test(entry.use) ? entry.use : `3000 ${entry.use}`);
  if (!read.ok)
    return figures.problem(`${at}.use`, entry.use, 'for M8, to NAME', read.reasons.join('; '));
  return {
    kind: 'shaped',
    cutout: { ...facts, ...(read.value.use !== undefined && { use: read.value.use }) },
  };
}

/** What x and y of a panel run along. */
export const xyFrame = (thicknessMm: number): HoleFrame => ({
  origin: [0, 0],
  across: [1, 0],
  along: [0, 1],
  thicknessMm,
});

/** The holes of an entry as they are cut. */
export const cutoutsOf = (
  { specs }: Extract<HoleEntry, { kind: 'here' }>,
  { frame }: HolePlan,
  id: string,
  input: string,
): Cutout[] =>
  specs.map((spec) => {
    // Across and along of x and y are the other way about than of what stands on a foot.
    const own: HoleFrame = spec.axes === XY_AXES ? xyFrame(frame.thicknessMm) : frame;
    return { ...placeHole(spec, `${id} holes ${spec.number}`, own), inputs: [input] };
  });

/** Cut-outs and slits of a panel; nothing where that told a problem. */
export function freeCuts(
  figures: Figures,
  { cutouts, slits }: GivenCuts,
  at: string,
  leastSlotMm: number,
): readonly Loop[] | undefined {
  const entries =
    typeof cutouts === 'string'
      ? cutouts.split('|').filter((text) => text.trim() !== '')
      : (cutouts ?? []);
  const windows = entries.map((entry, i): Loop | undefined => {
    const path = `${at}.cutouts[${i}]`;
    const whole = putIntoOutline(figures, entry as string, path);
    if (whole === undefined) return undefined;
    const read = readOutline(whole);
    return read.ok
      ? read.value
      : figures.problem(path, read.given ?? entry, read.allowed ?? 'an outline', read.mend);
  });
  const cuts = [...windows, ...slitsOf(figures, slits, `${at}.slits`, leastSlotMm)];
  return cuts.includes(undefined) ? undefined : (cuts as Loop[]);
}

const slitsOf = (
  figures: Figures,
  given: string | undefined,
  at: string,
  widthMm: number,
): readonly (Loop | undefined)[] => {
  if (given === undefined) return [];
  const whole = figures.put(given, at);
  if (whole === undefined) return [undefined];
  const entries = entriesOf(whole, MOST_SLITS);
  if (entries.length > MOST_SLITS)
    return [figures.problem(at, 'more', `at most ${MOST_SLITS} slits in a panel`)];
  return entries.map((entry) => {
    const places = entry
      .trim()
      .split(/\s+/)
      .map((place) => place.split(',').map((text) => parseLength(text)));
    const [from, to] = places.map((place) => place.flatMap((f) => (f.ok ? [f.value] : [])));
    if (places.length !== 2 || from?.length !== 2 || to?.length !== 2)
      return figures.problem(
        at,
        entry,
        "two places with a space between them, such as 10,0 10,15; a ';' stands before the next slit",
      );
    const [p, q] = [from as [number, number], to as [number, number]];
    const long = distance(p, q);
    if (long < widthMm)
      return figures.problem(
        at,
        entry,
        `slits longer than the cutter's slot is wide, ${widthMm} mm`,
      );
    const [dx, dy] = sub(q, p);
    return obround(middle(p, q), widthMm, long + widthMm, (Math.atan2(dy, dx) * 180) / Math.PI);
  });
};
