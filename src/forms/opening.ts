import { roundCorners } from '../geometry/fillet.ts';
import { type Loop, polygon } from '../geometry/loop.ts';
import { circle, obround } from '../geometry/shapes.ts';
import { atMost, figure } from '../text/figures.ts';
import { parseLength } from '../text/units.ts';
import { type Given, OUTLINE_INPUT } from './accepts.ts';
import { type Field, type FieldReading, makeField, type Said, saidOf } from './field.ts';
import { shown } from './given.ts';
import { type GivenOutline, readGivenOutline } from './outline.ts';

/**
 * An opening in its own plane, mm. A stated shape has the origin in its middle; an outline lies
 * where its coordinates, or the points that it names, put it.
 */
export type GivenOpening =
  | { readonly kind: 'round' | 'oval' | 'straight'; readonly loop: Loop }
  | { readonly kind: 'outline'; readonly outline: GivenOutline };

export const OPENING_ALLOWED =
  "round 100; oval 120 x 60; 240 x 160 r20, width by height with the radius of its corners; 240 to 200 x 160 r20, wider at the bottom than at the top; or an outline, points in order round it as x,y or by name with ';' between them and r8 behind a corner that is rounded";

const LEAST_MM = 1;
const MOST_MM = 5000;

/** A field for an opening. */
export const opening = (options: Said & { readonly example: string }): Field<GivenOpening> =>
  makeField(
    {
      kind: 'text',
      ...saidOf(options),
      allowed: OPENING_ALLOWED,
      example: options.example,
    },
    OUTLINE_INPUT,
    readOpening,
  );

/** Reads a stated shape or an outline. */
export function readOpening(given: Given<typeof OUTLINE_INPUT>): FieldReading<GivenOpening> {
  if (typeof given !== 'string' || /[;\n]/.test(given.trim())) {
    const read = readGivenOutline(given);
    return read.ok ? { ok: true, value: { kind: 'outline', outline: read.value } } : read;
  }
  return readShape(given.trim());
}

/** `240 x 160`, with the words before and the radius behind. */
const SHAPE = /^(?:(round|oval)\s+)?(.+?)(?:\s*(?<![a-z])r\s*(\d.*))?$/i;

function readShape(text: string): FieldReading<GivenOpening> {
  const [, word = '', sizes = '', radius] = SHAPE.exec(text) ?? [];
  const kind = word.toLowerCase();
  const figures = sizes.split(/\s*(?:\bto\b|x)\s*/i);
  const lengths: number[] = [];
  for (const one of radius === undefined ? figures : [...figures, radius]) {
    const read = parseLength(one);
    if (!read.ok) return { ok: false, given: shown(one), mend: `${read.reason}; ${HINT}` };
    const least = lengths.length === figures.length ? 0 : LEAST_MM;
    if (read.value < least || read.value > MOST_MM)
      return { ok: false, given: shown(one), mend: `write ${least} to ${MOST_MM} mm` };
    lengths.push(read.value);
  }
  const [a = 0, b = 0, c = 0] = lengths;
  const r = radius === undefined ? 0 : (lengths.at(-1) as number);
  const isTapered = /\bto\b/i.test(sizes);
  if (kind === 'round' && figures.length === 1 && radius === undefined)
    return { ok: true, value: { kind: 'round', loop: circle([0, 0], a / 2) } };
  if (kind === 'oval' && figures.length === 2 && !isTapered && radius === undefined)
    return oval(a, b);
  if (kind === '' && figures.length === (isTapered ? 3 : 2))
    return isTapered ? straight(a, b, c, r) : straight(a, a, b, r);
  return { ok: false, mend: HINT };
}

const HINT =
  "write round 100, oval 120 x 60, 240 x 160 r20 or 240 to 200 x 160, or points with ';'";

function oval(a: number, b: number): FieldReading<GivenOpening> {
  if (a === b) return { ok: false, mend: `write round ${figure(a)}` };
  const loop = obround([0, 0], Math.min(a, b), Math.max(a, b), a > b ? 0 : 90);
  return { ok: true, value: { kind: 'oval', loop } };
}

/** A rectangle or a trapezoid with level bottom and top. */
function straight(
  bottom: number,
  top: number,
  height: number,
  radiusMm: number,
): FieldReading<GivenOpening> {
  const sharp = polygon(
    [-bottom / 2, -height / 2],
    [bottom / 2, -height / 2],
    [top / 2, height / 2],
    [-top / 2, height / 2],
  );
  const rounded = roundCorners(sharp, [0, 1, 2, 3], radiusMm);
  return rounded.ok
    ? { ok: true, value: { kind: 'straight', loop: rounded.loop } }
    : {
        ok: false,
        given: `r${figure(radiusMm)}`,
        mend: `the corners run into each other: give at most r${atMost(rounded.largestMm)}`,
      };
}
