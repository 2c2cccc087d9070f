import { beadSection, leastRampMm, setbackMm, wholeUp } from '../../src/template.ts';
import type { Direction } from '../../src/template.ts';
import type { Vent } from './inputs.ts';

export type Side = 'bottom' | 'right' | 'top' | 'left';

/** Sides in counter-clockwise order, as the edges of the face run. */
export const SIDES: readonly Side[] = ['bottom', 'right', 'top', 'left'];

/** Lengths of a panel to which `measure` applies. */
type VentLength = 'width' | 'height' | 'flange' | 'louvresAcross' | 'louvresUp' | 'beadsAt';

/** A panel whose lengths are all outside ones, and what was added to the given ones, mm. */
export interface OutsideVent extends Vent {
  readonly measure: 'outside';
  readonly added: Readonly<Record<VentLength, number>>;
}

/** Which way the edge of a side is folded; none where it stays flat. */
export const foldOf = (v: Vent, side: Side): Direction | undefined => {
  const way = { bottom: v.foldBottom, right: v.foldRight, top: v.foldTop, left: v.foldLeft }[side];
  return way === 'none' ? undefined : way;
};

/** The same panel by its outside lengths; inside ones are measured from the insides of flanges. */
export const outsideVent = (v: Vent): OutsideVent => {
  const t = v.measure === 'inside' ? v.thicknessMm : 0;
  const [bottom, right, top, left] = SIDES.map((side) =>
    foldOf(v, side) === undefined ? 0 : t,
  ) as [number, number, number, number];
  const added = {
    width: left + right,
    height: bottom + top,
    flange: t,
    louvresAcross: left,
    louvresUp: bottom,
    beadsAt: v.beadRun === 'level' ? bottom : left,
  };
  return {
    ...v,
    measure: 'outside',
    added,
    width: v.width + added.width,
    height: v.height + added.height,
    flange: v.flange + added.flange,
    louvresAcross: v.louvresAcross === undefined ? undefined : v.louvresAcross + left,
    louvresUp: v.louvresUp === undefined ? undefined : v.louvresUp + bottom,
    beadsAt: v.beadsAt === undefined ? undefined : v.beadsAt + added.beadsAt,
  };
};

export const setback90Mm = (v: Vent): number =>
  setbackMm(90, v.insideRadiusMm, v.thicknessMm, 'outside');

export const slitMm = (v: Vent): number => v.slit ?? v.leastSlotMm;

/** Diameter of the round ends of a lance. */
export const stopHoleMm = (v: Vent): number =>
  Math.max(slitMm(v), v.stopHole ?? 2 * Math.max(v.thicknessMm, slitMm(v)));

/** Length of a ramp: as given, or the shortest at which the sheet should not tear. */
export const rampMm = (v: Vent): number =>
  v.louvreRamp ?? wholeUp(leastRampMm(v.louvreHeight, v.material.elongationPct.value / 100));

/**
 * Flat sheet that has to be left beside what is formed, in thicknesses: for the former to bear on,
 * and so that two of them do not draw on the same metal (common practice; no published rule was
 * found).
 */
const CLEAR = 3;

export const clearMm = (v: Vent): number => CLEAR * v.thicknessMm;

/** Room beside a louvre: the ends of its lance are as wide as their holes. */
export const louvreClearMm = (v: Vent): number => clearMm(v) + stopHoleMm(v) / 2;

/** How far a side takes sheet that is not flat or not there, from the outside of the panel. */
export const takenMm = (v: Vent, side: Side): number =>
  foldOf(v, side) === undefined ? 0 : setback90Mm(v);

/** The most that all beads together can draw the edges in, mm: their arcs less their chords. */
export const mostDrawnMm = (v: Vent): number =>
  v.beads * beadSection(v.beadWidth, v.beadDepth).extraMm;

/** The margin that is cut on at either edge along the beads, in whole mm unless it was given. */
export const trimMm = (v: Vent): number =>
  v.beads === 0 ? 0 : (v.trim ?? wholeUp(mostDrawnMm(v) / 2));

/** The same at one side: beads draw in the edges that run along them. */
export const trimAtMm = (v: Vent, side: Side): number =>
  (v.beadRun === 'level') === (side === 'bottom' || side === 'top') ? trimMm(v) : 0;

/** How far the margin makes the face larger at a side: where a flange carries it, it does not. */
export const grownMm = (v: Vent, side: Side): number =>
  foldOf(v, side) === undefined ? trimAtMm(v, side) : 0;

/** A level rectangle in the coordinates of the face, mm. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

export const boxAbout = (x: number, y: number, width: number, height: number): Box => ({
  minX: x - width / 2,
  minY: y - height / 2,
  maxX: x + width / 2,
  maxY: y + height / 2,
});

/** The least gap between two boxes along x or y; less than 0 where they lie over each other. */
export const boxGapMm = (a: Box, b: Box): number =>
  Math.max(a.minX - b.maxX, b.minX - a.maxX, a.minY - b.maxY, b.minY - a.maxY);

/** How near a box comes to the flat sheet's end at a side; less than 0 where it lies beyond. */
export const roomAtMm = (v: Vent, box: Box, side: Side): number =>
  ({
    bottom: box.minY,
    left: box.minX,
    right: v.width - box.maxX,
    top: v.height - box.maxY,
  })[side] - takenMm(v, side);
