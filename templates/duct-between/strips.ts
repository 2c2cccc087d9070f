import {
  assemble,
  diameterWish,
  edge,
  just,
  NOISE_MM,
  piecesOf,
  polygon,
  refuse,
  sub,
  unit,
  wish,
} from '../../src/template.ts';
import type { Facing, Finding, OutlinePiece, Part, Piece, Vec2 } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';
import type { DuctEnd } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import { facingOf, holesTooClose, onSide, round } from './lip-holes.ts';
import { endStanding } from './standing.ts';

export const LIPS = { near: 'nearLip', far: 'farLip' } as const;

/** Lips with what is wrong with them. */
export interface Lips {
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
}

const OPPOSITE: Readonly<Record<Facing, Facing>> = {
  down: 'up',
  up: 'down',
  left: 'right',
  right: 'left',
};

const FACING: Readonly<Record<Exclude<DuctBetween['lipSides'], 'all'>, readonly Vec2[]>> = {
  top: [[0, 1]],
  right: [[1, 0]],
  bottom: [[0, -1]],
  left: [[-1, 0]],
  'top-bottom': [
    [0, 1],
    [0, -1],
  ],
  'left-right': [
    [-1, 0],
    [1, 0],
  ],
};

/** Strips along the straight sides that face the chosen ways, as long as the sides. */
export const stripsOf = (
  v: DuctBetween,
  end: DuctEnd,
  ring: readonly Facet[],
  out: boolean,
): Lips => {
  const ways = v.lipSides === 'all' ? [] : FACING[v.lipSides];
  const wide = v[LIPS[end.name]];
  const sides = piecesOf(end.loop).filter(({ from, to, bulge }) => {
    const [u, w] = unit(sub(to, from));
    return bulge === 0 && ways.some(([x, y]) => w * x - u * y > Math.SQRT1_2 - NOISE_MM);
  });
  if (sides.length === 0)
    return {
      pieces: [],
      findings: [
        refuse(
          'lip-without-side',
          ['lipSides', end.name],
          `${end.name} has no straight side that faces as lipSides ${v.lipSides} says`,
          [just('lipSides', 'all')],
        ),
      ],
    };
  const strips = sides.map((side, i) => stripPart(v, end, side, i, out ? wide : -wide));
  const crowded = strips.flatMap(({ holes }) => holesTooClose(v, holes) ?? []);
  return {
    pieces: strips.map(({ part, id }) => ({ id, part, standing: endStanding(v, end, ring) })),
    findings: crowded.slice(0, 1),
  };
};

const stripPart = (
  v: DuctBetween,
  { name }: DuctEnd,
  { from, to }: OutlinePiece,
  i: number,
  wide: number,
): { readonly id: string; readonly part: Part; readonly holes: readonly Vec2[] } => {
  const [u, w] = unit(sub(to, from));
  const half = (Math.sign(wide) * v.thicknessMm) / 2;
  const at = ([x, y]: Vec2, out: number): Vec2 => [x + w * out, y - u * out];
  // Its one long edge lies on the far face of the wall, so that the strip covers the wall's end.
  const [near, far] = [-half, half + wide];
  const corners = [at(from, near), at(to, near), at(to, far), at(from, far)];
  const turned = wide > 0 ? corners.toReversed() : corners;
  const middle = half + wide / 2;
  const id = `${name} lip ${i + 1}`;
  const facing = facingOf([u, w]);
  const holes =
    v.lipHole === undefined
      ? []
      : onSide(v, { from: at(from, middle), to: at(to, middle), bulge: 0 });
  const part = assemble(v, {
    root: id,
    panels: [{ id, outline: polygon(...turned), cutouts: round(v, holes) }],
    folds: [],
    wishes: [
      ...(holes.length === 0 ? [] : [diameterWish('lipHole', v.lipHole ?? 0, id, 'lipHole 1')]),
      ...(facing === undefined
        ? []
        : [
            wish(
              `${LIPS[name]}, and the thickness`,
              Math.abs(wide) + v.thicknessMm,
              edge(id, facing),
              edge(id, OPPOSITE[facing]),
            ),
          ]),
    ],
  });
  return { id: id.replaceAll(' ', '-'), part, holes };
};
