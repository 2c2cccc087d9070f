import {
  cosDeg,
  type Cutout,
  type HoleFrame,
  placeHole,
  reachOf,
  sinDeg,
  tanDeg,
  tubeHole,
  type Vec2,
  widthOf,
} from '../../src/template.ts';
import type { TubeHolePatch } from './inputs.ts';

/** Where the tube passes, its lean along y: upwards on the patch, towards its point. */
export const passageOf = (v: TubeHolePatch): ReturnType<typeof tubeHole> =>
  tubeHole({
    tubeMm: v.tube,
    leanDeg: v.lean,
    turnDeg: 90,
    clearMm: v.clear,
    grommetMm: v.grommet,
  });

export const panelMm = (v: TubeHolePatch): number => v.panelThickness ?? v.thicknessMm;

/** Half the width and half the length of the hole; its middle is the origin. */
export const halfHole = (v: TubeHolePatch): Vec2 => {
  const { shape } = passageOf(v);
  return [widthOf(shape) / 2, reachOf(shape, panelMm(v))];
};

/** How far over the middle of the hole the axis of the tube meets the face that the patch lies on. */
export const axisMm = (v: TubeHolePatch): number => (panelMm(v) / 2) * tanDeg(v.lean);

/** The hole as it is cut in the panel: straight through, whatever the thickness of the patch. */
export const openHole = (v: TubeHolePatch): Cutout => {
  const frame: HoleFrame = {
    origin: [0, 0],
    across: [0, 1],
    along: [1, 0],
    thicknessMm: panelMm(v),
  };
  return {
    ...placeHole({ acrossMm: 0, alongMm: 0, ...passageOf(v) }, 'tube 1', frame),
    inputs: ['tube'],
  };
};

/**
 * Points on the line of the hole, so many degrees round the tube from the way in which it leans,
 * clockwise as a clock is read.
 */
export const pointsRound = (
  v: TubeHolePatch,
  count: number,
): readonly (readonly [number, Vec2])[] =>
  Array.from({ length: count }, (_, i) => {
    const deg = (360 * i) / count;
    return [deg, pointAt(v, deg)] as const;
  });

/**
 * Where a line from the middle of an end's ellipse, turned with the tube, meets the hole. The rubber
 * lies on the edge of the sheet, so that it is added square to that edge.
 */
const pointAt = (v: TubeHolePatch, deg: number): Vec2 => {
  const r = v.tube / 2 + v.clear;
  const [x, y] = [r * sinDeg(deg), (r / cosDeg(v.lean)) * cosDeg(deg)];
  const end = axisMm(v) * Math.sign(Math.round(cosDeg(deg) * 1e9));
  const [nx, ny] = [sinDeg(deg), cosDeg(v.lean) * cosDeg(deg)];
  const long = Math.hypot(nx, ny);
  return [x + (v.grommet * nx) / long, y + end + (v.grommet * ny) / long];
};
