import { cross, cosDeg, cross3, dot3, sinDeg, sub, unit, unit3 } from '../../src/template.ts';
import type { GivenStep, Vec2, Vec3 } from '../../src/template.ts';
import { type Body, meetOf, type Plane, turnOfDeg } from './solid.ts';
import { cornerOn, floorFacets, floorOf, sideSteps } from './steps.ts';

/** A height that was measured over, or a depth under, a place of the plan, mm. */
export interface Sounding {
  readonly at: Vec2;
  readonly heightMm: number;
  /** How the user called the place. */
  readonly called: string;
}

/** Slopes and height of a plane: z = height + slope x + slope y. */
export interface Fall {
  readonly heightMm: number;
  readonly alongX: number;
  readonly alongY: number;
}

/** A plane through soundings, and by how much each differs from it: the plane less the sounding. */
export interface Fitted {
  readonly fall: Fall;
  readonly offMm: readonly number[];
}

/** Soundings whose triangle is thinner than this share of a square over their spread fix no slope. */
const THIN = 1e-3;

/**
 * The plane through heights at named places, by least squares where there are more than three;
 * missing where there are fewer than three or all lie in a line, which says nothing about the slope
 * across it. The sums are taken about the middle of the places, so that slopes and height are found
 * apart from each other (normal equations of two slopes).
 */
export const planeThrough = (soundings: readonly Sounding[]): Fitted | undefined => {
  const n = soundings.length;
  const mean = (of: (s: Sounding) => number): number =>
    soundings.reduce((sum, s) => sum + of(s), 0) / n;
  const [mx, my, mz] = [mean((s) => s.at[0]), mean((s) => s.at[1]), mean((s) => s.heightMm)];
  const sum = (of: (x: number, y: number, z: number) => number): number =>
    soundings.reduce((t, s) => t + of(s.at[0] - mx, s.at[1] - my, s.heightMm - mz), 0);
  const [xx, yy, xy] = [sum((x) => x * x), sum((_, y) => y * y), sum((x, y) => x * y)];
  const [xz, yz] = [sum((x, _, z) => x * z), sum((_, y, z) => y * z)];
  const det = xx * yy - xy * xy;
  if (n < 3 || det <= (THIN * (xx + yy)) ** 2) return undefined;
  const [alongX, alongY] = [(xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det];
  const fall = { heightMm: mz - alongX * mx - alongY * my, alongX, alongY };
  return { fall, offMm: soundings.map(({ at, heightMm }) => heightOf(fall, at) - heightMm) };
};

/** Height of a sloping plane over a place. */
const heightOf = ({ heightMm, alongX, alongY }: Fall, [x, y]: Vec2): number =>
  heightMm + alongX * x + alongY * y;

/** How steep a plane is at its steepest, degrees. */
export const steepestDeg = ({ alongX, alongY }: Fall): number =>
  (Math.atan(Math.hypot(alongX, alongY)) * 180) / Math.PI;

/** A room that was measured: its outline at a level, its sides leaning, its floor and its top. */
export interface Room {
  /** Corners of the outline, counter-clockwise, mm. */
  readonly corners: readonly Vec2[];
  /** The height at which the outline was measured. */
  readonly outlineAtMm: number;
  /** How far each side, from its corner to the next, leans outwards on its way up, degrees. */
  readonly leanDeg: readonly number[];
  /** The floor before its first step. */
  readonly floor: Fall;
  readonly top: Fall;
  /** Steps in the floor, all along one axis, in the order of their places. */
  readonly steps: readonly GivenStep[];
  /** What seams take of the room beside the thickness of the walls. */
  readonly seams?: SeamRoom;
}

/** How far seams stand out over the outside of the sheet that has the liquid behind it, mm. */
export interface SeamRoom {
  readonly walls: number;
  readonly floor: number;
  readonly top: number;
}

const NO_SEAMS: SeamRoom = { walls: 0, floor: 0, top: 0 };

/** The planes of a room, their normals pointing into it, so that inside is beyond each of them. */
export interface Planes {
  readonly walls: readonly Plane[];
  /** The floor before its first step. */
  readonly floor: Plane;
  /** All floors from step to step, parallel, the first of them `floor`. */
  readonly floors: readonly Plane[];
  /** The plumb faces of the steps between them. */
  readonly risers: readonly Plane[];
  readonly top: Plane;
}

/**
 * The planes of a room, moved into it by so much: the thickness of its walls, and the air that is
 * left round them.
 */
export const planesOf = (room: Room, inMm: number): Planes => {
  const { walls, floor, top } = room.seams ?? NO_SEAMS;
  return planesIn(room, { walls: inMm + walls, floor: inMm + floor, top: inMm + top });
};

const planesIn = (room: Room, inMm: SeamRoom): Planes => ({
  walls: room.corners.map((from, i) => {
    const to = room.corners[(i + 1) % room.corners.length] as Vec2;
    const [dx, dy] = unit(sub(to, from));
    const lean = room.leanDeg[i] ?? 0;
    const [c, s] = [cosDeg(lean), sinDeg(lean)];
    // The inside lies left of the way round; a side that leans outwards looks up a little.
    const normal: Vec3 = [-dy * c, dx * c, s];
    return { normal, atMm: dot3(normal, [from[0], from[1], room.outlineAtMm]) + inMm.walls };
  }),
  floor: slopingPlane(room.floor, 1, inMm.floor),
  floors: [0, ...room.steps.map((_, i) => i + 1)].map((count) =>
    slopingPlane(raised(room.floor, room.steps.slice(0, count)), 1, inMm.floor),
  ),
  risers: room.steps.map(({ axis, atMm, upMm }): Plane => {
    // Where the floor goes up, the inside lies before the step, and else beyond it.
    const way = upMm > 0 ? -1 : 1;
    return { normal: axis === 'x' ? [way, 0, 0] : [0, way, 0], atMm: way * atMm + inMm.floor };
  }),
  top: slopingPlane(room.top, -1, inMm.top),
});

const raised = (fall: Fall, steps: readonly GivenStep[]): Fall => ({
  ...fall,
  heightMm: steps.reduce((height, { upMm }) => height + upMm, fall.heightMm),
});

const slopingPlane = ({ heightMm, alongX, alongY }: Fall, up: 1 | -1, inMm: number): Plane => {
  const normal = unit3([-alongX * up, -alongY * up, up]);
  return { normal, atMm: dot3(normal, [0, 0, heightMm]) + inMm };
};

/** The inside of a tank between its planes, corner by corner in the order of the outline. */
export interface Shape {
  readonly planes: Planes;
  /** Where the line in which a side and the one before it meet enters at the floor. */
  readonly low: readonly Vec3[];
  /** Where it ends at the top. */
  readonly high: readonly Vec3[];
}

/** The corners of a room between its planes. */
export const shapeOf = (planes: Planes): Shape => {
  const { walls, top } = planes;
  const before = (i: number): Plane => walls.at(i - 1) as Plane;
  return {
    planes,
    low: walls.map((_, corner) => cornerOn(planes, corner, floorOf(planes, corner))),
    high: walls.map((wall, i) => meetOf(before(i), wall, top)),
  };
};

export const sideName = (i: number): string => `side ${i + 1}`;

/** The body of a shape: its floor with its steps, its top and its sides. */
export const bodyOf = ({ planes, low, high }: Shape): Body => [
  ...floorFacets(planes),
  { name: 'top', points: high.toReversed() },
  ...low.map((at, i) => ({ name: sideName(i), points: sidePoints({ planes, low, high }, i, at) })),
];

const sidePoints = ({ planes, low, high }: Shape, i: number, at: Vec3): Vec3[] => {
  const next = (i + 1) % low.length;
  const steps = sideSteps(planes, i).toReversed();
  return [low[next] as Vec3, ...steps, at, high[i] as Vec3, high[next] as Vec3];
};

/** Two edges of one side that run against the way round: the sides beside it have crossed. */
export interface Crossed {
  readonly side: number;
  readonly where: 'floor' | 'top';
}

/** Sides that leave nothing of themselves at the floor or at the top, or run the other way there. */
export const crossedSides = ({ planes, low, high }: Shape, leastMm: number): Crossed[] =>
  planes.walls.flatMap(({ normal }, side) => {
    // Level and to the right as seen from outside is the way round.
    const way = unit3([normal[1], -normal[0], 0]);
    const runs = (points: readonly Vec3[]): boolean => {
      const [a, b] = [points[side] as Vec3, points[(side + 1) % points.length] as Vec3];
      return dot3(way, [b[0] - a[0], b[1] - a[1], 0]) >= leastMm;
    };
    return [
      ...(runs(low) ? [] : [{ side, where: 'floor' as const }]),
      ...(runs(high) ? [] : [{ side, where: 'top' as const }]),
    ];
  });

/** How much two sides turn at the corner between them, degrees; below 0 where it points inwards. */
export const cornerTurnDeg = ({ walls }: Planes, corner: number): number => {
  const [a, b] = [walls.at(corner - 1) as Plane, walls[corner] as Plane];
  const size = turnOfDeg(a, b);
  return cross([a.normal[0], a.normal[1]], [b.normal[0], b.normal[1]]) < 0 ? -size : size;
};

/** The direction in which a corner runs up, length 1. */
export const cornerWay = ({ walls }: Planes, corner: number): Vec3 => {
  const way = unit3(
    cross3((walls.at(corner - 1) as Plane).normal, (walls[corner] as Plane).normal),
  );
  return way[2] < 0 ? [-way[0], -way[1], -way[2]] : way;
};

/** Corners that point into the plan: what is folded at the sides beside one would take the same sheet. */
export const inwardCorners = ({ planes, low }: Shape): number[] =>
  low.flatMap((_, corner) => (cornerTurnDeg(planes, corner) < 0 ? [corner] : []));
