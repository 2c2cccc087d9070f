import type { CornerCut } from '../geometry/fillet.ts';
import { parseLength } from '../text/units.ts';
import type { Given, NAMED_OUTLINE_INPUT, OUTLINE_INPUT } from './accepts.ts';
import { isNameAmongFigures } from './distances.ts';
import type { FieldReading } from './field.ts';
import { shown } from './given.ts';
import type { Place } from './places.ts';
import { entriesOf } from './split-entries.ts';

export type OutlineInput = Given<typeof OUTLINE_INPUT>;
export type NamedOutlineInput = Given<typeof NAMED_OUTLINE_INPUT>;

export const OUTLINE_ALLOWED =
  "points in order round the outline as x,y, or by the name of a point given elsewhere, with ';' between them; r8 after a point rounds its corner, c8 cuts 8 off both its edges, arc makes it the point an arc passes through";

const EDGE_ALLOWED = '; edge rear behind all that names the edge from there to the next point';

/** How a corner is taken off, and what is known of the edge behind it. */
export interface Corner {
  /** Of its point, counted from 1 as they are written. */
  readonly number: number;
  readonly cut: CornerCut;
  /** Radius, or what a chamfer takes off either edge, mm. */
  readonly sizeMm: number;
  readonly arc: boolean;
  /** Bulge of the edge from here to the next point, where that is given; see `Vertex`. */
  readonly bulge?: number;
  /** What that edge is called. */
  readonly edge?: string;
}

/** An outline some of whose points may be known by their names only. */
export interface GivenOutline {
  readonly corners: readonly (Corner & { readonly place: Place })[];
}

const MOST_POINTS = 1000;
const FARTHEST_MM = 10_000;

/** Reads the points of an outline, and with `named` the names of its edges too. */
export function readCorners(
  given: OutlineInput | NamedOutlineInput,
  named: boolean,
): FieldReading<GivenOutline> {
  const entries = typeof given === 'string' ? entriesOf(given, MOST_POINTS) : given;
  if (entries.length > MOST_POINTS)
    return { ok: false, given: `${entries.length} points`, mend: `give at most ${MOST_POINTS}` };
  const corners: GivenOutline['corners'][number][] = [];
  for (const [index, entry] of entries.entries()) {
    const read =
      typeof entry === 'string'
        ? readText(entry, index + 1, named)
        : readPoint({ ...entry, place: { x: entry.x, y: entry.y } }, index + 1);
    if (typeof read === 'string') {
      return {
        ok: false,
        given: `${shown(typeof entry === 'string' ? entry.trim() : entry)} as point ${index + 1}`,
        allowed: named ? `${OUTLINE_ALLOWED}${EDGE_ALLOWED}` : OUTLINE_ALLOWED,
        mend: read,
      };
    }
    corners.push(read);
  }
  return { ok: true, value: { corners } };
}

interface Fields {
  readonly place: string | { readonly x: number | string; readonly y: number | string };
  readonly r?: number | string | undefined;
  readonly c?: number | string | undefined;
  readonly arc?: boolean | undefined;
  readonly bulge?: number | undefined;
  readonly edge?: string | undefined;
}

/** A name of letters, figures, `_` and hyphens that is no number. */
const EDGE_NAME = /^(?=.*\p{L})[\p{L}\p{N}_-]{1,24}$/u;

/** `x,y` or a name, then `r8`, `c8` or `arc`; behind these `edge rear`, where edges are named. */
function readText(
  entry: string,
  number: number,
  named: boolean,
): GivenOutline['corners'][number] | string {
  const [, point = '', edge] = (named && /^(.*?)\s+edge\s+(\S.*)$/i.exec(entry.trim())) || [
    '',
    entry.trim(),
  ];
  const [, place = '', letter, size = '', arc] =
    /^(.+?)(?:\s+(?:([rc])\s*(\(.+\)|[^\s,].*?)|(arc)))?$/i.exec(point) ?? [];
  const parts = place.split(',');
  if (parts.length > 2 || (parts.length === 1 && !isNameAmongFigures(place)))
    return "write x,y or the name of a point, with r and a radius, c and a chamfer, or arc behind it, a ';' before the next point, and a point as decimal mark";
  const [x = '', y] = parts;
  return readPoint(
    {
      place: y === undefined ? place : { x, y },
      ...(letter?.toLowerCase() === 'c' ? { c: size } : letter !== undefined && { r: size }),
      arc: arc !== undefined,
      edge,
    },
    number,
  );
}

function readPoint(
  { place, r = 0, c = 0, arc = false, bulge, edge }: Fields,
  number: number,
): GivenOutline['corners'][number] | string {
  const at = typeof place === 'string' ? { name: place } : readPair(place);
  const [radius, chamfer] = [readFigure('r', r, 0), readFigure('c', c, 0)];
  if (typeof at === 'string' || typeof radius === 'string' || typeof chamfer === 'string')
    return [at, radius, chamfer].filter((value) => typeof value === 'string').join('; ');
  if (radius > 0 && chamfer > 0) return 'give the corner r or c, not both';
  const sizeMm = Math.max(radius, chamfer);
  if (arc && sizeMm > 0)
    return 'leave out the radius or the chamfer: an arc passes through this point, it is no corner';
  if (arc && (edge !== undefined || bulge !== undefined))
    return 'an arc passes through this point: name its edge, and give its bulge, at the point where it begins';
  if (edge !== undefined && !EDGE_NAME.test(edge))
    return 'name an edge with up to 24 letters, figures, _ and hyphens, one letter at least';
  return {
    number,
    place: at,
    cut: chamfer > 0 ? 'chamfer' : 'round',
    sizeMm,
    arc,
    ...(bulge !== undefined && bulge !== 0 && { bulge }),
    ...(edge !== undefined && { edge }),
  };
}

function readPair(place: {
  readonly x: number | string;
  readonly y: number | string;
}): Place | string {
  const [x, y] = [readFigure('x', place.x, -FARTHEST_MM), readFigure('y', place.y, -FARTHEST_MM)];
  return typeof x === 'number' && typeof y === 'number'
    ? { at: [x, y] }
    : [x, y].filter((value) => typeof value === 'string').join('; ');
}

function readFigure(which: string, given: number | string, least: number): number | string {
  const parsed =
    typeof given === 'number' ? ({ ok: true, value: given } as const) : parseLength(given);
  if (!parsed.ok) return `${which}: ${parsed.reason}`;
  if (parsed.value >= least && parsed.value <= FARTHEST_MM) return parsed.value;
  return `${which}: must lie between ${least} and ${FARTHEST_MM} mm`;
}
