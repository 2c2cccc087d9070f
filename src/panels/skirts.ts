import { tanDeg } from '../geometry/degrees.ts';
import type { CommonValues } from '../forms/common.ts';
import type { Direction } from '../model/part.ts';
import type { Figures } from './figures.ts';
import type { PieceMap } from './given-pieces.ts';

/** What is folded on at an edge of a base, as far as it says how large the base is. */
export interface Skirt {
  readonly edge: string;
  readonly at: string;
  readonly angleDeg: number;
  readonly direction: Direction;
  readonly radiusMm: number;
}

const ANGLE = { kind: 'angle', least: 0.5, most: 180 } as const;
const RADIUS = { kind: 'length', least: 0, most: 1000 } as const;

/** The skirts of a piece; nothing where a figure of one was told to be wrong. */
export const skirtsOf = (
  { base, flanges }: Pick<PieceMap, 'base' | 'flanges'>,
  at: string,
  figures: Figures,
  values: CommonValues,
): readonly Skirt[] | undefined => {
  const baseId = base.name ?? 'base';
  const skirts = flanges.map((flange, i): Skirt | undefined | null => {
    const words = flange.on.trim().split(/\s+/);
    const isOnBase = words.length === 1 || words.slice(0, -1).join(' ') === baseId;
    if (!isOnBase || flange.joggle !== undefined) return null;
    const path = `${at}flanges[${i}]`;
    const read = (key: 'angle' | 'radius', otherwise: number): number | undefined => {
      const given = flange[key];
      return given === undefined
        ? otherwise
        : figures.read(given, `${path}.${key}`, key === 'angle' ? ANGLE : RADIUS);
    };
    const [angleDeg, radiusMm] = [read('angle', 90), read('radius', values.insideRadiusMm)];
    return angleDeg === undefined || radiusMm === undefined
      ? undefined
      : {
          edge: words.at(-1) ?? '',
          at: path,
          angleDeg,
          radiusMm,
          direction: flange.direction ?? 'up',
        };
  });
  return skirts.includes(undefined)
    ? undefined
    : skirts.filter((s) => s !== null && s !== undefined);
};

/**
 * How far outside the inside faces of a base and a skirt meet its mould line lies: measured on the
 * outside, a thickness at a square fold and t tan(A/2) at any up to that.
 */
export const outsideOfInside = (
  { angleDeg }: Skirt,
  { measure, thicknessMm }: CommonValues,
): number => (measure === 'outside' ? facesApart(angleDeg, thicknessMm) : 0);

/** How far inside the outside faces of both the mould line lies: nothing, measured on the outside. */
export const insideOfOutside = (
  { angleDeg }: Skirt,
  { measure, thicknessMm }: CommonValues,
): number => (measure === 'inside' ? facesApart(angleDeg, thicknessMm) : 0);

/** Past square, legs are measured to the outermost, or innermost, tangents: a thickness apart. */
const facesApart = (angleDeg: number, thicknessMm: number): number =>
  angleDeg <= 90 ? thicknessMm * tanDeg(angleDeg / 2) : thicknessMm;
