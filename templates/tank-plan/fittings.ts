import {
  atMost,
  cosDeg,
  figure,
  isInside,
  NOISE_MM,
  placeHoles,
  pointGap,
  reachOf,
  refuse,
} from '../../src/template.ts';
import type { Cutout, Finding, HoleFrame, HoleSpec, Loop, Vec2 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { inPlane, type PlacedPanel } from './panels.ts';
import { type Shape, sideName } from './planes.ts';
import { meet, type Plane } from './solid.ts';
import { floorFacets, floorUnder } from './steps.ts';

/** Inputs of the holes in the top, in the order in which they are cut. */
export const TOP_HOLES = ['filler', 'breather', 'return', 'pickup', 'sender', 'holesTop'] as const;

/**
 * Metal that is left between the edges of two fittings, or of one and a wall or a baffle, so that a
 * bead goes round both and a torch gets between them, mm; common practice.
 */
export const FITTING_GAP_MM = 10;

type HoleInput = (typeof TOP_HOLES)[number] | 'drain' | 'link';

/** The holes of a panel by their inputs. */
export interface PanelHoles {
  readonly cutouts: readonly Cutout[];
  readonly findings: readonly Finding[];
}

const UP = [0, 0, 1] as const;

/**
 * The axes of the plan on a face that slopes: a place of the plan lies plumb above or below it, so
 * a millimetre of the plan is a little more on the face.
 */
export const plumbFrame = (
  v: Pick<TankPlan, 'thicknessMm'>,
  plane: Plane,
  { pose }: Pick<PlacedPanel, 'pose'>,
): HoleFrame => {
  const at = (x: number, y: number): Vec2 => inPlane(pose, meet(plane, [x, y, 0], UP));
  const origin = at(0, 0);
  const from = ([x, y]: Vec2): Vec2 => [x - origin[0], y - origin[1]];
  return {
    origin,
    across: from(at(1, 0)),
    along: from(at(0, 1)),
    thicknessMm: v.thicknessMm,
  };
};

/** The holes of the top or of the floor, and which of them a side is in the way of. */
export const plateHoles = (
  v: TankPlan,
  shape: Shape,
  panel: PlacedPanel,
  which: 'floor' | 'top',
  floor = 0,
): PanelHoles => {
  const isTop = which === 'top';
  const { planes } = shape;
  const frame = plumbFrame(v, isTop ? planes.top : (planes.floors[floor] as Plane), panel);
  const inside = insideLoop(isTop ? shape.high : (floorFacets(planes)[floor]?.points ?? []), panel);
  const inputs: readonly HoleInput[] = isTop ? TOP_HOLES : ['drain'];
  const holesOf = (input: HoleInput): readonly HoleSpec[] =>
    isTop
      ? v[input]
      : v[input].filter((hole) => floorUnder(planes, [hole.acrossMm, hole.alongMm]) === floor);
  return {
    cutouts: inputs.flatMap((input) => placeHoles(input, holesOf(input), frame)),
    findings: inputs.flatMap((input) =>
      holesOf(input).flatMap((hole) => metWall(input, hole, frame, inside, panel.name)),
    ),
  };
};

/** The link pipe's hole in its side, by level distance from its first corner and by height. */
export const sideHoles = (
  v: TankPlan,
  panel: PlacedPanel,
  side: number,
  corner: Vec2,
): PanelHoles => {
  if (v.link.length === 0 || v.linkOn !== side + 1) return { cutouts: [], findings: [] };
  const { pose, outline } = panel;
  const lean = pose.y[2];
  // Heights are those of the inside face, a thickness in from the frame of the panel.
  const insideZ = pose.o[2] + v.thicknessMm * pose.z[2];
  const [x] = inPlane(pose, [corner[0], corner[1], v.outlineAt]);
  const frame: HoleFrame = {
    origin: [x, -insideZ / lean],
    across: [-1, 0],
    along: [0, 1 / lean],
    thicknessMm: v.thicknessMm,
  };
  return {
    cutouts: placeHoles('link', v.link, frame),
    findings: v.link.flatMap((hole) => metWall('link', hole, frame, outline, sideName(side))),
  };
};

const insideLoop = (points: Shape['low'], { pose }: PlacedPanel): Loop =>
  points.map((p) => {
    const [x, y] = inPlane(pose, p);
    return { x, y, bulge: 0 };
  });

/** A hole that does not open into the tank with all of its edge. */
export const metWall = (
  input: string,
  { acrossMm, alongMm, shape, number }: HoleSpec,
  { origin, across, along, thicknessMm }: HoleFrame,
  inside: Loop,
  panel: string,
  elsewhere = 'give its place in the plan, by the axes of outline',
): Finding[] => {
  const at: Vec2 = [
    origin[0] + acrossMm * across[0] + alongMm * along[0],
    origin[1] + acrossMm * across[1] + alongMm * along[1],
  ];
  const gap = isInside(inside, at) ? pointGap(at, inside) : -pointGap(at, inside);
  const reach = reachOf(shape, thicknessMm);
  if (gap - reach >= -NOISE_MM) return [];
  return [
    refuse(
      'hole-meets-wall',
      [input],
      `hole ${number} of ${input} reaches ${figure(reach - gap)} over what is inside ${panel}`,
      [],
      gap > 0 ? `move it in by as much, or give it ${atMost(2 * gap)} at most` : elsewhere,
    ),
  ];
};

/** Height of the lower edge of the link pipe's holes; missing without one. */
export const linkLowMm = (v: TankPlan, shape: Shape): number | undefined => {
  const wall = shape.planes.walls[v.linkOn - 1];
  if (v.link.length === 0 || wall === undefined) return undefined;
  const upright = Math.sqrt(1 - wall.normal[2] ** 2);
  return Math.min(
    ...v.link.map((hole) => hole.alongMm - halfHeightMm(hole, v.thicknessMm) * upright),
  );
};

/** Half the height of a hole: a slot runs up its second axis, and by its turn away from that. */
export const halfHeightMm = ({ shape }: HoleSpec, thicknessMm: number): number =>
  shape.kind === 'slot'
    ? shape.widthMm / 2 + ((shape.lengthMm - shape.widthMm) / 2) * Math.abs(cosDeg(shape.turnDeg))
    : reachOf(shape, thicknessMm);

/** Places in plan of the holes of an input. */
export const placesOf = (holes: readonly HoleSpec[]): Vec2[] =>
  holes.map(({ acrossMm, alongMm }): Vec2 => [acrossMm, alongMm]);
