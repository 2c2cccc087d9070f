import type { Vec2 } from '../geometry/vec2.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { Measure } from './part.ts';

/**
 * What an input means on the finished part: a length or an angle between features that can be
 * touched there. The family states it beside the part that it builds, so that a part built wrongly
 * can be told from the one that was wanted.
 */
export type Wish = LengthWish | DiameterWish | AngleWish | RolledWish;

/**
 * What an input means on a rolled wall: how far apart two corners of its outline are when it is
 * rolled up, or, with a plane, how far the stretch of the outline between them is off that plane.
 * All but the plane is given in the coordinates of the panel; shapes and space are those of
 * `contract/asked.ts`.
 */
export interface RolledWish {
  readonly kind: 'rolled';
  readonly input: string;
  readonly mm: number;
  readonly panel: string;
  readonly frame: { readonly at: Vec2; readonly round: Vec2; readonly axis: Vec2 };
  readonly shape: RolledMiddle;
  readonly from: Vec2;
  readonly to: Vec2;
  readonly plane?: { readonly at: Vec3; readonly normal: Vec3 };
}

/**
 * The middle of the sheet when it is rolled. In space a cylinder stands on z with its line of 0
 * degrees at x. A cone stands on a circle round the origin at z = 0, with its apex over x =
 * offset; its first line is that of `startDeg`.
 */
export type RolledMiddle =
  | { readonly kind: 'cylinder'; readonly radiusMm: number }
  | {
      readonly kind: 'cone';
      readonly radiusMm: number;
      readonly heightMm: number;
      readonly offsetMm: number;
      readonly startDeg: number;
    };

export interface LengthWish {
  readonly kind: 'length';
  /**
   * Name of the input, or the sum of inputs that the length is: `legA`, `height + rubber - pullUp`.
   */
  readonly input: string;
  readonly mm: number;
  readonly between: readonly [Feature, Feature];
}

/** Diameter of a round hole, known by the input that it came from, or of a round blank. */
export interface DiameterWish {
  readonly kind: 'diameter';
  readonly input: string;
  readonly mm: number;
  readonly panel: string;
  /** The hole; `null` for the blank itself. */
  readonly from: string | null;
}

export interface AngleWish {
  readonly kind: 'angle';
  readonly input: string;
  /** How far one panel is turned against the other: 0 for faces that look the same way. */
  readonly deg: number;
  readonly panels: readonly [string, string];
}

/** A feature that a length is measured from. */
export type Feature =
  /**
   * The straight free edge of a panel that faces a direction given in the panel's own coordinates;
   * the farthest if there are several.
   */
  | { readonly kind: 'edge'; readonly panel: string; readonly facing: Facing }
  /** A face of a panel: the lower one at z = 0 of the panel, or the upper one. */
  | { readonly kind: 'face'; readonly panel: string; readonly face: 'lower' | 'upper' }
  /**
   * The line where the outside (inside) faces on both sides of a fold meet; past square, the
   * outermost (innermost) tangent of the bend.
   */
  | {
      readonly kind: 'fold';
      readonly panel: string;
      readonly fold: string;
      readonly measure: Measure;
    }
  /** The middle of a hole, by the input that it came from; on the lower face unless it says so. */
  | {
      readonly kind: 'hole';
      readonly panel: string;
      readonly from: string;
      readonly face?: 'upper';
    };

export type Facing = 'left' | 'right' | 'up' | 'down';

/** The same wishes of the mirror image of a part, in the plane x = 0 of every panel. */
export const mirrorWish = (wish: Wish): Wish => {
  if (wish.kind === 'rolled') return mirrorRolled(wish);
  return wish.kind !== 'length'
    ? wish
    : { ...wish, between: [mirrorFeature(wish.between[0]), mirrorFeature(wish.between[1])] };
};

/** What runs counter-clockwise from one corner to another runs back in the mirror. */
const mirrorRolled = (wish: RolledWish): RolledWish => ({
  ...wish,
  frame: {
    at: mirrorPoint(wish.frame.at),
    round: mirrorPoint(wish.frame.round),
    axis: mirrorPoint(wish.frame.axis),
  },
  from: mirrorPoint(wish.to),
  to: mirrorPoint(wish.from),
});

const mirrorPoint = ([x, y]: Vec2): Vec2 => [x === 0 ? 0 : -x, y];

const OTHER_SIDE: Readonly<Record<Facing, Facing>> = {
  left: 'right',
  right: 'left',
  up: 'up',
  down: 'down',
};

const mirrorFeature = (feature: Feature): Feature =>
  feature.kind === 'edge' ? { ...feature, facing: OTHER_SIDE[feature.facing] } : feature;
