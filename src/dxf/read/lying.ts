import type { Vec2 } from '../../geometry/vec2.ts';
import { type Affine, scaling } from './affine.ts';
import { mapped, type Primitive } from './primitive.ts';
import { type DxfRecord, numberAt } from './records.ts';

/** What one entity means to a cutter. */
export type Drawn =
  | {
      readonly kind: 'lines';
      readonly primitives: readonly Primitive[];
      readonly doubts: readonly Doubt[];
    }
  /** Known not to be a line: text, hatch, dimension, body. */
  | { readonly kind: 'none' }
  /** A line that the data in the file does not define. */
  | { readonly kind: 'bad'; readonly why: string };

/**
 * What an entity loses when it is laid flat; or that it is drawn by points, between which programs
 * run differently.
 */
export type Doubt = 'not flat' | 'above the sheet' | 'wide' | 'by points';

/** Reported of a line that would have to be turned in space first. */
export const OTHER_PLANE = 'lies in a plane that is not that of the sheet';

/** Lines in space are flat when they rise by less than this, in units of the file. */
export const RISE = 1e-6;

/**
 * How an entity in a plane of its own lies, by the direction of its z axis. Only two directions lie
 * flat (DXF Reference, arbitrary axis algorithm).
 */
export const planeOf = (r: DxfRecord): Affine | undefined => {
  const [x, y, z] = [numberAt(r, 210), numberAt(r, 220), numberAt(r, 230, 1)];
  if (!(Math.abs(x) < RISE * Math.abs(z) && Math.abs(y) < RISE * Math.abs(z))) return undefined;
  return scaling(z < 0 ? -1 : 1, 1);
};

/** Lines that are drawn, with the doubts that apply. */
export const lines = (
  primitives: readonly Primitive[],
  ...doubts: readonly (Doubt | false)[]
): Drawn => ({
  kind: 'lines',
  primitives,
  doubts: doubts.filter((d) => d !== false),
});

/** Lines of an entity in a plane of its own, laid flat. */
export const lying = (
  r: DxfRecord,
  primitives: readonly Primitive[],
  height: number,
  isWide = false,
): Drawn => {
  const plane = planeOf(r);
  if (plane === undefined) return { kind: 'bad', why: OTHER_PLANE };
  return lines(
    primitives.map((p) => mapped(plane, p)),
    Math.abs(height) > RISE && 'above the sheet',
    isWide && 'wide',
  );
};

/** A straight line or an arc as a primitive. */
export const piece = (from: Vec2, to: Vec2, bulge = 0): Primitive => ({
  kind: 'piece',
  piece: { from, to, bulge },
});

/**
 * The least and the largest value. A spline may have more points than one call takes, so they are
 * compared one by one.
 */
export const spread = (values: readonly number[]): [number, number] => [
  values.reduce((a, b) => Math.min(a, b)),
  values.reduce((a, b) => Math.max(a, b)),
];
