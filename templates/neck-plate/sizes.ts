import {
  cosDeg,
  type HatAsk,
  reachOf,
  setbackMm,
  sinDeg,
  type SlopedHat,
  slopedHat,
  slopesOf,
  tanDeg,
  tubeHole,
  type Vec2,
  widthOf,
} from '../../src/template.ts';
import type { NeckPlate } from './inputs.ts';

type Passage = ReturnType<typeof tubeHole>;

/** The hole of the plate: at an angle in a flat one, round in a face square to the neck. */
export const plateHole = (v: NeckPlate): Passage =>
  tubeHole({
    tubeMm: v.tube,
    leanDeg: v.mount === 'flat' ? v.lean : 0,
    turnDeg: 90,
    clearMm: v.clear,
    grommetMm: v.grommet,
  });

/** The hole that the neck itself needs in the panel. */
export const panelHole = (v: NeckPlate): Passage =>
  tubeHole({
    tubeMm: v.tube,
    leanDeg: v.lean,
    turnDeg: 90,
    clearMm: v.panelClear,
    grommetMm: 0,
  });

/** Half the length of the hole in the plate, the way the neck leans, and half its width. */
export const halfHole = (v: NeckPlate): Vec2 => {
  const { shape } = plateHole(v);
  return [reachOf(shape, v.thicknessMm), widthOf(shape) / 2];
};

/** Least metal beside a hole. */
export const webMm = (v: NeckPlate): number => Math.max(v.leastSlotMm, v.thicknessMm);

export const outerMm = (v: NeckPlate): number => v.outer ?? 2 * (halfHole(v)[0] + 30);

export const boltCircleMm = (v: NeckPlate): number =>
  v.boltCircle ?? halfHole(v)[0] + outerMm(v) / 2;

/** Middles of the bolt holes of a flat plate. */
export const boltsRound = (v: NeckPlate): readonly Vec2[] =>
  Array.from({ length: v.bolts }, (_, i) => {
    const deg = v.boltStart + (360 * i) / v.bolts;
    return [(boltCircleMm(v) / 2) * cosDeg(deg), (boltCircleMm(v) / 2) * sinDeg(deg)];
  });

/** How far the axis of the neck is shifted on its way from one level down to another. */
export const shiftMm = (v: NeckPlate, downMm: number): number => downMm * tanDeg(v.lean);

/** The box over its outside, mm. */
interface BoxSizes {
  readonly baseMm: number;
  readonly wideMm: number;
  /** To the line in which the outside faces of the low wall and of the face meet. */
  readonly lowMm: number;
  /** From the inside of a wall to the free edge of its flange. */
  readonly flangeMm: number;
}

const ifInside = (v: NeckPlate, mm: number): number => (v.measure === 'inside' ? mm : 0);

export const boxOf = (v: NeckPlate): BoxSizes => {
  const [half, across] = halfHole(v);
  const t = v.thicknessMm;
  const bends = v.insideRadiusMm + t;
  const [rise, , steep] = slopesOf({ riseDeg: v.lean, leanDeg: 0 });
  return {
    // The default leaves 20 mm on the face itself, less on the base that it leans over.
    baseMm:
      v.base === undefined ? 2 * (half + 20 + bends) * cosDeg(v.lean) : v.base + ifInside(v, 2 * t),
    wideMm: v.wide === undefined ? 2 * (across + 15 + bends) : v.wide + ifInside(v, 2 * t),
    lowMm: v.low + ifInside(v, t * (steep - rise)),
    flangeMm: v.flange + ifInside(v, t),
  };
};

/** The box as a hat: side A is the low wall, and the face rises to side B. */
export const hatAsk = (v: NeckPlate): HatAsk => {
  const { baseMm, wideMm, lowMm } = boxOf(v);
  const t = v.thicknessMm;
  const [rise, , steep] = slopesOf({ riseDeg: v.lean, leanDeg: 0 });
  return {
    insideMm: baseMm - 2 * t,
    widthMm: wideMm,
    heightMm: lowMm - t * (steep - rise),
    stepMm: 0,
    riseDeg: v.lean,
    leanDeg: 0,
    thicknessMm: t,
    insideRadiusMm: v.insideRadiusMm,
  };
};

export const hatOf = (v: NeckPlate): SlopedHat => slopedHat(hatAsk(v));

/** Where the hole lies on the face, from its fold at the low wall: in the middle of what is flat. */
export const holeOnFaceMm = (v: NeckPlate): number => {
  const { crownMm, turnDeg } = hatOf(v);
  const [a, b] = [turnDeg.A, turnDeg.B].map((turn) =>
    setbackMm(turn, v.insideRadiusMm, v.thicknessMm, 'outside'),
  ) as [number, number];
  return (a + crownMm - b) / 2;
};

/**
 * Where the axis of the neck meets the middle of the panel, from the outside of the low wall. The
 * middle of the hole lies half a thickness under the outside of the face; from there the axis goes
 * square to the face, down and away from the low wall. Of a sunk box the panel lies at its flanges
 * too, but the neck goes the other way.
 */
export const axisOnPanelMm = (v: NeckPlate): number => {
  const { lowMm } = boxOf(v);
  const [along, t] = [holeOnFaceMm(v), v.thicknessMm];
  const y = along * cosDeg(v.lean) + (t / 2) * sinDeg(v.lean);
  const z = lowMm + along * sinDeg(v.lean) - (t / 2) * cosDeg(v.lean);
  return y + shiftMm(v, z + v.panelThickness / 2);
};

/** Places of the bolts of a flange: along it, and from its free edge. */
export const flangeBolts = (
  v: NeckPlate,
): { readonly alongMm: readonly number[]; readonly edgeMm: number } => {
  const { wideMm, flangeMm } = boxOf(v);
  const edgeMm = (flangeMm - v.thicknessMm) / 2;
  const pitch = (wideMm - 2 * edgeMm) / (v.bolts - 1);
  return { edgeMm, alongMm: Array.from({ length: v.bolts }, (_, i) => edgeMm + i * pitch) };
};

/** What the patch has beside the box, so that the opening of a sunk one lies within it. */
export const besideBoxMm = (v: NeckPlate): number =>
  v.mount === 'sunk' ? v.panelClear + FRAME_MM : 0;

/** Sheet of a patch beside an opening, mm. */
const FRAME_MM = 15;
