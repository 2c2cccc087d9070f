import {
  distance,
  dot3,
  figure,
  loopGap,
  refuse,
  sub,
  sub3,
  unit,
  without,
} from '../../src/template.ts';
import type { Finding, Loop, Pose, Vec2, Vec3 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { bendReachMm, type Sheet } from './panels.ts';
import { bodyOf, cornerTurnDeg, type Shape } from './planes.ts';
import type { BaffleLine } from './room.ts';
import { type Section, sectionsOf } from './section.ts';
import { type Body, meetOf, type Plane } from './solid.ts';
import { flangeMm, type Stations } from './stations.ts';
import { cornerOn, ridersOf, stepTurnDeg } from './steps.ts';

const UP: Vec3 = [0, 0, 1];

/** Where a baffle stands, and the sections of the tank that it fills. */
export interface BafflePlane {
  /** Plumb, the face its flanges grow from at z = 0, seen with its flanges towards one. */
  readonly frame: Pose;
  readonly sections: readonly Section[];
}

/** Frame of a baffle across an axis of the plan. */
const frameAt = (axis: 0 | 1, at: number): Pose =>
  axis === 0
    ? { o: [at, 0, 0], x: [0, 1, 0], y: UP, z: [1, 0, 0] }
    : { o: [0, at, 0], x: [-1, 0, 0], y: UP, z: [0, 1, 0] };

/** Frame of a baffle along a line, whose flanges are on the right of it. */
export const frameAlong = ([from, to]: BaffleLine): Pose => {
  const [dx, dy] = unit(sub(to, from));
  return { o: [from[0], from[1], 0], x: [dx, dy, 0], y: UP, z: [dy, -dx, 0] };
};

/** All baffles of a tank: those at the stations, or those along the lines that were given. */
export const bafflePlanes = (
  shape: Shape,
  { axis, atMm }: Stations,
  lines: readonly BaffleLine[],
): BafflePlane[] => {
  const body = bodyOf(shape);
  return [
    ...atMm.map((at) => {
      const frame = frameAt(axis, at);
      return { frame, sections: sectionsOf(body, frame) };
    }),
    ...lines.map((line) => alongLine(body, line)),
  ];
};

/** A line cuts what lies between its ends and what hangs together with that. */
const alongLine = (body: Body, line: BaffleLine): BafflePlane => {
  const frame = frameAlong(line);
  const long = distance(...line);
  return {
    frame,
    sections: sectionsOf(body, frame).filter((section) => {
      const [low, high] = reachOf(section);
      return low < long && high > 0;
    }),
  };
};

/** How far a section reaches along its line. */
const reachOf = (section: Section): readonly [number, number] => {
  const along = section.map(({ from }) => from[0]);
  return [Math.min(...along), Math.max(...along)];
};

/** How far a place of the plan lies from a baffle, on the side of its flanges. */
export const beyondBaffleMm = ({ o, z }: Pose, [x, y]: Vec2): number => dot3(z, sub3([x, y, 0], o));

/** Lines on which no baffle can stand. */
export const lineFindings = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  lines: readonly BaffleLine[],
): Finding[] => {
  const points = lines.findIndex(([from, to]) => distance(from, to) < LEAST_MM);
  if (points >= 0)
    return [
      refuse(
        'baffle-off-plan',
        ['baffleLines'],
        `line ${points + 1} of baffleLines has both places within ${LEAST_MM} mm, which say nothing of where it runs`,
        [],
        'give two places further apart',
      ),
    ];
  const body = bodyOf(shape);
  const planes = lines.map((line) => alongLine(body, line));
  const off = planes.findIndex(({ sections }) => sections.length === 0);
  if (off >= 0)
    return [
      refuse(
        'baffle-off-plan',
        ['baffleLines', 'outline'],
        `line ${off + 1} of baffleLines runs past the tank`,
        [],
        'give two places by the axes of outline',
      ),
    ];
  const near = planes.flatMap((plane, i) => nearCorner(v, shape, sheet, plane, i));
  return near.length > 0 ? near : meeting(v, planes);
};

/** Two places that are nearer make no line; a limit of this program. */
const LEAST_MM = 10;

/** Plumb edges inside the tank that a baffle keeps off, each by so much for bends and beads. */
interface Upright {
  readonly called: string;
  readonly points: readonly Vec3[];
  readonly offMm: number;
}

/** The corners of the plan, and the ends of the steps of the floor on the sides. */
const uprights = (v: TankPlan, { planes, high }: Shape, sheet: Sheet): Upright[] => {
  const off = (turnDeg: number): number =>
    bendReachMm(turnDeg, sheet) + 2 * v.thicknessMm + v.baffleGap;
  return [
    ...high.map((head, corner): Upright => ({
      called: `corner ${corner + 1} of the plan`,
      points: [...planes.floors.map((floor) => cornerOn(planes, corner, floor)), head],
      offMm: off(cornerTurnDeg(planes, corner)),
    })),
    ...planes.risers.flatMap((riser, step) =>
      ridersOf(planes, step).map((side): Upright => ({
        called: `step ${step + 1} of floorStep`,
        points: [step, step + 1].map((floor) =>
          meetOf(planes.walls[side] as Plane, riser, planes.floors[floor] as Plane),
        ),
        offMm: off(-stepTurnDeg(planes, step)),
      })),
    ),
  ];
};

/** What a baffle, its flanges or its beads would run into. */
const nearCorner = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  { frame, sections }: BafflePlane,
  line: number,
): Finding[] => {
  const wide = Math.max(flangeMm(v), v.thicknessMm);
  const all = uprights(v, shape, sheet).map(({ called, points, offMm }) => {
    const beyond = points.map((p) => beyondBaffleMm(frame, [p[0], p[1]]));
    const isBeside = sections.some((section) => {
      const [low, high] = reachOf(section);
      return points.some((p) => {
        const along = dot3(frame.x, sub3(p, frame.o));
        return along > low - offMm && along < high + offMm;
      });
    });
    // It may stand so far before the corner, or as far behind it as its flanges leave free.
    const stretch = [Math.min(...beyond) - offMm - wide, Math.max(...beyond) + offMm] as const;
    return { called, isBeside, stretch };
  });
  const met = all.find(({ isBeside, stretch: [from, to] }) => isBeside && from < 0 && to > 0);
  if (met === undefined) return [];
  const ends = all.flatMap(({ stretch }) => stretch);
  const isFree = (mm: number): boolean =>
    mm > Math.min(...ends) &&
    mm < Math.max(...ends) &&
    all.every(({ stretch: [from, to] }) => mm <= from || mm >= to);
  const [move] = ends.filter(isFree).toSorted((a, b) => Math.abs(a) - Math.abs(b));
  return [
    refuse(
      'baffle-at-corner',
      ['baffleLines'],
      `line ${line + 1} of baffleLines runs so near to ${met.called} that the baffle, its flanges and its beads have no room there`,
      [],
      ...(move === undefined
        ? []
        : [
            `move it ${figure(Math.ceil(Math.abs(move) * 100) / 100)} to its ${move < 0 ? 'left' : 'right'}`,
          ]),
      'let it run elsewhere',
    ),
  ];
};

/** Baffles that cross, or stand so near to each other that no torch gets between. */
const meeting = (v: TankPlan, planes: readonly BafflePlane[]): Finding[] => {
  const least = Math.max(flangeMm(v), v.thicknessMm) + v.thicknessMm + BETWEEN_MM;
  const spans = planes.map(({ frame, sections }) =>
    sections.map((section): BaffleLine => {
      const [low, high] = reachOf(section);
      const at = (along: number): Vec2 => [
        frame.o[0] + along * frame.x[0],
        frame.o[1] + along * frame.x[1],
      ];
      return [at(low), at(high)];
    }),
  );
  return spans.flatMap((own, i) =>
    spans.slice(i + 1).flatMap((others, k) => {
      const apart = Math.min(
        ...own.flatMap((a) => others.map((b) => loopGap(asLoop(a), asLoop(b)))),
      );
      return apart >= least
        ? []
        : [
            refuse(
              'baffles-meet',
              ['baffleLines'],
              apart === 0
                ? `lines ${i + 1} and ${i + k + 2} of baffleLines cross inside the tank`
                : `lines ${i + 1} and ${i + k + 2} of baffleLines come within ${figure(apart)} of each other, and a flange, a sheet and a torch take ${figure(least)}`,
              [without('baffleLines')],
              'move them apart, or leave one out',
            ),
          ];
    }),
  );
};

/** Between two baffles a torch takes so much; common practice. */
const BETWEEN_MM = 40;

/** A stretch of line as an outline there and back. */
const asLoop = (line: BaffleLine): Loop => line.map(([x, y]) => ({ x, y, bulge: 0 }));
