import { dot, type Vec2 } from '../../geometry/vec2.ts';
import { NEARLY_PARALLEL_SINE } from '../../geometry/tolerance.ts';
import { type Finding, warn } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import {
  type Datum,
  datumOf,
  type BlankSide,
  SIDES,
  sideOf,
  squareDatum,
  squareThrough,
  twoHoles,
  usualDatum,
} from './datum.ts';
import { type KeyedHole, keyedHoles } from './hole-keys.ts';
import { type StraightEdge, straightEdges } from './straight-edges.ts';

/**
 * The datum of a blank: the one that was asked for, where the blank has it, and the usual one with a
 * warning where it has not. `asked` are one or two names: a side of the blank as it is drawn, a panel
 * and its side, or a hole by its name on paper.
 */
export const datumFor = (
  flat: FlatPattern,
  asked: readonly string[],
): { readonly datum: Datum; readonly findings: readonly Finding[] } => {
  if (asked.length === 0) return { datum: usualDatum(flat), findings: [] };
  const found = askedDatum(flat, asked);
  if (typeof found !== 'string') return { datum: found, findings: [] };
  const datum = usualDatum(flat);
  const message = `Sizes were to be measured from ${asked.join(' and ')}, but ${found}. They are measured from ${datum.x.name} and ${datum.y.name} instead.`;
  return { datum, findings: [warn('datum-not-there', message)] };
};

type Named = StraightEdge | KeyedHole;

const isHole = (thing: Named): thing is KeyedHole => 'key' in thing;

/** The datum, or why there is none, in words that follow "but". */
const askedDatum = (flat: FlatPattern, asked: readonly string[]): Datum | string => {
  const edges = straightEdges(flat.outline);
  const holes = keyedHoles(flat);
  const things: Named[] = [];
  for (const name of asked) {
    const thing = thingCalled(name, edges, holes);
    if (thing === undefined)
      return `this blank has no straight edge or hole called ${name}: ${allowedOn(edges, holes)}`;
    things.push(thing);
  }
  const [one, other] = things as [Named, Named?];
  if (isHole(one)) {
    if (other === undefined) return `a hole needs an edge or a second hole beside it`;
    if (isHole(other)) return one === other ? 'that is one hole' : twoHoles(one, other);
    return squareThrough(other, one);
  }
  if (other === undefined) return squareDatum(one, flat.outline);
  if (isHole(other)) return squareThrough(one, other);
  return Math.abs(dot(one.way, other.way)) > NEARLY_PARALLEL_SINE
    ? 'these two edges are not at right angles'
    : datumOf(one, other);
};

const thingCalled = (
  name: string,
  edges: readonly StraightEdge[],
  holes: readonly KeyedHole[],
): Named | undefined => {
  const hole = holes.find((h) => h.key === name);
  if (hole !== undefined) return hole;
  const words = name.split(' ');
  const side = SIDES.find((s) => s === words.at(-1));
  if (side === undefined) return undefined;
  const panel = words.slice(0, -1).join(' ');
  return outermost(
    edges.filter((e) => panel === '' || e.panels.includes(panel)),
    side,
  );
};

/** Of the edges that face a side, the outermost; the longer of equal ones. */
const outermost = (edges: readonly StraightEdge[], side: BlankSide): StraightEdge | undefined => {
  const out = OUTWARDS[side];
  const reach = (e: StraightEdge): number => Math.max(dot(e.from, out), dot(e.to, out));
  return edges
    .filter((e) => sideOf(e.way, 0) === side)
    .toSorted((a, b) => reach(b) - reach(a) || b.metalMm - a.metalMm)[0];
};

const OUTWARDS: Readonly<Record<BlankSide, Vec2>> = {
  left: [-1, 0],
  right: [1, 0],
  bottom: [0, -1],
  top: [0, 1],
};

/** More names than these fill a screen. */
const MOST_NAMED = 8;

const allowedOn = (edges: readonly StraightEdge[], holes: readonly KeyedHole[]): string => {
  const sides = SIDES.filter((side) => edges.some((e) => sideOf(e.way, 0) === side));
  const named = edges
    .flatMap((e) => e.panels.map((panel) => `${panel} ${sideOf(e.way, 0)}`))
    .filter((n, i, all) => all.indexOf(n) === i);
  const all = [
    ...sides,
    ...named.slice(0, MOST_NAMED),
    ...(holes.length === 0 ? [] : [holes.length === 1 ? 'h1' : `h1 to h${holes.length}`]),
  ];
  return `it has ${all.join(', ')}`;
};
