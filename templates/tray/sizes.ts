import { leastRadiusMm, setbackMm } from '../../src/template.ts';
import type { Tray } from './inputs.ts';

export type Lip = Tray['lipFront'];
/** Form of a hem: parallel to its side, or with its edge down on it. */
export type HemShape = Tray['hemShape'];
export type Side = 'front' | 'right' | 'back' | 'left';

/** Sides in counter-clockwise order, as the edges of the base run. */
export const SIDES: readonly Side[] = ['front', 'right', 'back', 'left'];

/**
 * A tray whose lengths are all outside ones, and what was added to the given ones to make them so,
 * mm.
 */
export interface OutsideTray extends Tray {
  readonly measure: 'outside';
  readonly added: Readonly<Record<TrayLength, number>>;
}

/** Lengths of a tray to which `measure` applies. */
export type TrayLength = 'length' | 'depth' | 'height' | 'lap' | 'lipDepth' | 'cableAt';

/**
 * The same tray by its outside lengths. Inside lengths are measured between the inside faces of the
 * sides, from the inside of the base to the rim, which is level with and without lips, and from the
 * inside of a bend to a free edge.
 */
export const outsideTray = (v: Tray): OutsideTray => {
  const t = v.measure === 'inside' ? v.thicknessMm : 0;
  return {
    ...v,
    measure: 'outside',
    added: { length: 2 * t, depth: 2 * t, height: t, lap: t, lipDepth: t, cableAt: t },
    length: v.length + 2 * t,
    depth: v.depth + 2 * t,
    height: v.height + t,
    lap: v.lap + t,
    lipDepth: v.lipDepth + t,
    cableAt: v.cableAt === undefined ? undefined : v.cableAt + t,
  };
};

export const lipOf = (v: Tray, side: Side): Lip =>
  ({ front: v.lipFront, right: v.lipRight, back: v.lipBack, left: v.lipLeft })[side];
export const isHem = (lip: Lip): boolean => lip.startsWith('hem');
export const isInward = (lip: Lip): boolean => lip === 'in' || lip === 'hem-in';

/**
 * Whether a side runs on at the corners: left and right do where they are butt or lapped; front and
 * back end before them.
 */
export const runsOn = (side: Side): boolean => side === 'left' || side === 'right';

/** Length of the tray along that side, between its mould lines. */
export const spanMm = (v: Tray, side: Side): number => (runsOn(side) ? v.depth : v.length);

/**
 * How far the front and the back of a lapped tray stand in from the mould lines of left and right.
 */
export const insetMm = (v: Tray, side: Side): number =>
  v.corner === 'lapped' && !runsOn(side) ? v.thicknessMm + v.cornerGapMm : 0;

export const setback90Mm = (v: Tray): number =>
  setbackMm(90, v.insideRadiusMm, v.thicknessMm, 'outside');

/** Radius of a hem: a fold right over needs a larger radius than a square one. */
export const hemRadiusMm = (v: Tray): number =>
  v.hemRadius ?? Math.max(leastRadiusMm(v.material, v.thicknessMm, 180), v.insideRadiusMm);

/** Setback of a lip's bend, which it takes off its side and off the lip itself. */
export const lipSetbackMm = (v: Tray, lip: Lip): number => {
  if (lip === 'none') return 0;
  return isHem(lip) ? setbackMm(180, hemRadiusMm(v), v.thicknessMm, 'outside') : setback90Mm(v);
};

/** Room for a relief beside the end of a fold, as wide as `assemble` makes it. */
export const notchMm = (v: Tray): number => Math.max(v.thicknessMm, v.leastSlotMm);

/** How far a side and the lip on it reach into the tray from its outside. */
export const reachMm = (v: Tray, lip: Lip): number => {
  if (lip === 'in') return Math.max(v.lipDepth, v.thicknessMm);
  return v.thicknessMm + (lip === 'hem-in' ? 2 * hemRadiusMm(v) + v.thicknessMm : 0);
};

/** How far down from the top a lip that is turned into the tray covers the inside of its side. */
export const takenFromTopMm = (v: Tray, lip: Lip): number => {
  if (lip === 'in') return setback90Mm(v);
  return lip === 'hem-in' ? v.lipDepth : 0;
};

/**
 * The stretch of a side's end from which a tab of a lapped tray is folded, as heights over the
 * base. It leaves an ear and a notch above the bend of the base, and, where there is a lip on its
 * side or over it, as much below the top.
 */
export const tabStretch = (v: Tray, side: Side, neighbour: Side): readonly [number, number] => {
  const [own, other] = [lipOf(v, side), lipOf(v, neighbour)];
  const ear = 2 * notchMm(v);
  const under = isInward(other) ? takenFromTopMm(v, other) + v.cornerGapMm : 0;
  const hem = own === 'hem-in' ? v.lipDepth + v.cornerGapMm : 0;
  const beside = own === 'none' && under === 0 ? 0 : lipSetbackMm(v, own) + ear;
  return [setback90Mm(v) + ear, v.height - Math.max(under, beside, hem)];
};
