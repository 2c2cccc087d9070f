import {
  assemble,
  diameterWish,
  edge,
  figure,
  mitredOffset,
  orTry,
  piecesOf,
  refuse,
  sub,
  unit,
  wish,
} from '../../src/template.ts';
import type { Cutout, Finding, Loop, Part, Vec2, Wish } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';
import type { DuctEnd, DuctEnds } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import { facingOf, holesAlong, holesTooClose, holeTooWide, round } from './lip-holes.ts';
import { endStanding } from './standing.ts';
import { type Lips, LIPS, stripsOf } from './strips.ts';

/** The lips of both openings: flat rings, or strips along chosen sides, on the ends of the walls. */
export const lipPieces = (v: DuctBetween, ends: DuctEnds, ring: readonly Facet[]): Lips => {
  const made = (['near', 'far'] as const).flatMap((name) =>
    v[LIPS[name]] === 0 ? [] : [lipsOf(v, ends[name], ring)],
  );
  return {
    pieces: made.flatMap(({ pieces }) => pieces),
    findings: made.flatMap(({ findings }) => findings),
  };
};

const lipsOf = (v: DuctBetween, end: DuctEnd, ring: readonly Facet[]): Lips => {
  const input = LIPS[end.name];
  const [out, half] = [v.lipTo === 'out', v.thicknessMm / 2];
  // On the ends of the walls: as wide as asked beyond their outside, or within their inside.
  const [outerMm, innerMm] = out ? [half + v[input], -half] : [half, -half - v[input]];
  const outer = mitredOffset(end.loop, outerMm);
  const inner = mitredOffset(end.loop, innerMm);
  const middle = mitredOffset(end.loop, out ? half + v[input] / 2 : -half - v[input] / 2);
  if (outer === undefined || inner === undefined || middle === undefined)
    return { pieces: [], findings: [noLip(v, end)] };
  const tooWide = holeTooWide(v, input);
  if (tooWide !== undefined) return { pieces: [], findings: [tooWide] };
  const standing = endStanding(v, end, ring);
  if (v.lipSides === 'all') {
    const holes = holesAlong(v, middle);
    const crowded = holesTooClose(v, holes);
    return crowded === undefined
      ? {
          pieces: [
            { id: `${end.name}-lip`, part: ringPart(v, end, { outer, inner, holes }), standing },
          ],
          findings: [],
        }
      : { pieces: [], findings: [crowded] };
  }
  return stripsOf(v, end, ring, out);
};

const noLip = (v: DuctBetween, { name }: DuctEnd): Finding => {
  const input = LIPS[name];
  return orTry(
    refuse(
      'lip-without-room',
      [input, name],
      `${input} ${figure(v[input])} has no room ${v.lipTo === 'in' ? `within the opening ${name}` : `between the sides of ${name}`}`,
      [],
      'give a narrower lip',
    ),
    { less: input },
  );
};

interface Ring {
  readonly outer: Loop;
  readonly inner: Loop;
  readonly holes: readonly Vec2[];
}

const ringPart = (v: DuctBetween, end: DuctEnd, { outer, inner, holes }: Ring): Part => {
  const { name } = end;
  const id = `${name} lip`;
  const cutouts: Cutout[] = [
    { kind: 'loop', from: name, inputs: [name], loop: inner },
    ...round(v, holes),
  ];
  return assemble(v, {
    root: id,
    panels: [{ id, outline: outer, cutouts }],
    folds: [],
    wishes: holes.length === 0 ? [] : holeWishes(v, end, id),
  });
};

/**
 * What holes say of a ring: their size, and where the first stands on a level or upright side, how
 * far from the edge of the ring.
 */
const holeWishes = (v: DuctBetween, { name, loop }: DuctEnd, id: string): Wish[] => {
  const side = piecesOf(loop).find(({ bulge }) => bulge === 0);
  const facing = side === undefined ? undefined : facingOf(unit(sub(side.to, side.from)));
  const half = v[LIPS[name]] / 2;
  return [
    diameterWish('lipHole', v.lipHole ?? 0, id, 'lipHole 1'),
    ...(facing === undefined
      ? []
      : [
          wish(
            `${LIPS[name]}, half of it to lipHole 1`,
            v.lipTo === 'out' ? half : half + v.thicknessMm,
            { kind: 'hole', panel: id, from: 'lipHole 1' },
            edge(id, facing),
          ),
        ]),
  ];
};
