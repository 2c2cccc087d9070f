import {
  advise,
  atMost,
  figure,
  isOver,
  just,
  length3,
  orLess,
  refuse,
  selfCrossing,
  sub3,
} from '../../src/template.ts';
import type { Finding, Mend, Vec3 } from '../../src/template.ts';
import { STEEPEST_DEG, type TankPlan } from './inputs.ts';
import { bendReachMm, type Folded, type Sheet, sheetOf } from './panels.ts';
import {
  cornerTurnDeg,
  crossedSides,
  inwardCorners,
  planesOf,
  type Room,
  type Shape,
  shapeOf,
  sideName,
  steepestDeg,
} from './planes.ts';
import type { MeasuredRoom } from './room.ts';
import { stepFindings } from './step-limits.ts';

/** The least turn of a corner that is a corner, and the most that leaves room for a torch. */
const LEAST_TURN_DEG = 2;
const MOST_TURN_DEG = 150;

/** Heights that differ by more from a plane than a tape may be off; common practice. */
const HEIGHT_OFF_MM = 3;

/** The least depth of a tank and length of a side, over what walls and gaps take; a limit of this program. */
const LEAST_MM = 10;

/** Findings on measures that make no tank, each with the figure that would. */
export const impossibleRoom = (v: TankPlan, measured: MeasuredRoom, shape: Shape): Finding[] => {
  const { room, off } = measured;
  const steep = (['floor', 'top'] as const).filter((face) =>
    isOver(steepestDeg(room[face]), STEEPEST_DEG),
  );
  if (steep.length > 0)
    return steep.map((face) =>
      refuse(
        'face-too-steep',
        [face],
        `${face} falls by ${figure(steepestDeg(room[face]))} degrees, and ${STEEPEST_DEG} is the most that is made`,
        [],
        'check its heights: all count upwards from one level',
      ),
    );
  const flat = shape.low.flatMap((_, corner) => {
    const turn = Math.abs(cornerTurnDeg(shape.planes, corner));
    return turn < LEAST_TURN_DEG || turn > MOST_TURN_DEG ? [badCorner(corner, turn)] : [];
  });
  if (flat.length > 0) return flat;
  const crossed = [...floorsAboveTops(v, shape), ...wallsCross(v, measured, shape)];
  if (crossed.length === 0) crossed.push(...stepFindings(v, shape, sheetOf(v), leastDepthMm(v)));
  return [...crossed, ...heightsOff(off)];
};

const badCorner = (corner: number, turnDeg: number): Finding =>
  refuse(
    'plan-corner',
    ['outline'],
    turnDeg < LEAST_TURN_DEG
      ? `corner ${corner + 1} of outline turns by ${figure(turnDeg)} degrees, which is no corner`
      : `corner ${corner + 1} of outline turns by ${figure(turnDeg)} degrees, and no torch gets into it`,
    [],
    turnDeg < LEAST_TURN_DEG
      ? 'leave the point out'
      : `turn it by ${MOST_TURN_DEG} at most, or cut it off with c`,
  );

/** The least depth that leaves a side between floor and top. */
const leastDepthMm = (v: TankPlan): number => LEAST_MM + 2 * v.thicknessMm + 2 * v.cornerGapMm;

/** Corners at which the floor lies above the top, or leaves nothing between. */
const floorsAboveTops = (v: TankPlan, { low, high }: Shape): Finding[] => {
  const least = leastDepthMm(v);
  return low.flatMap((at, corner) => {
    const depth = (high[corner] as Vec3)[2] - at[2];
    if (depth >= least) return [];
    const lacking = least - depth;
    const where = `at corner ${corner + 1} of the plan`;
    return [
      refuse(
        'floor-above-top',
        ['floor', 'top'],
        depth < 0
          ? `floor lies ${figure(-depth)} above top ${where}, inside the sheet`
          : `floor and top leave ${figure(depth)} between them ${where}, inside the sheet, and ${figure(least)} is the least`,
        [],
        `give a top that is ${figure(lacking + 0.005)} or more higher there, or a floor as much lower`,
      ),
    ];
  });
};

/** Sides that have crossed at floor or top: by leaning, or by sheet and clearance in a narrow place. */
const wallsCross = (v: TankPlan, { room }: MeasuredRoom, shape: Shape): Finding[] => {
  const isLeaning = room.leanDeg.some((deg) => deg !== 0);
  const inputs = [
    'outline',
    ...(isLeaning ? ['lean'] : []),
    ...(v.clearance > 0 ? ['clearance'] : []),
  ];
  const [crossed] = crossedSides(shape, LEAST_MM);
  if (crossed !== undefined)
    return [
      refuse(
        'walls-cross',
        inputs,
        `${sideName(crossed.side)} of outline comes to less than ${LEAST_MM} mm at the ${crossed.where}, where the sides beside it meet`,
        lessClearance(v, room),
        ...lessLean(v, room),
        `leave out corner ${crossed.side + 1}, or give a longer side`,
      ),
    ];
  const meeting = (['low', 'high'] as const).flatMap((end) => {
    const found = selfCrossing(shape[end].map(([x, y]) => ({ x, y, bulge: 0 })));
    return found === undefined ? [] : [{ ...found, where: end === 'low' ? 'floor' : 'top' }];
  });
  return meeting
    .slice(0, 1)
    .map(({ first, second, at, where }) =>
      refuse(
        'walls-cross',
        inputs,
        `sides ${first + 1} and ${second + 1} of outline meet at the ${where}, near ${at.map((c) => figure(c)).join(',')}`,
        lessClearance(v, room),
        ...lessLean(v, room),
        'leave more room between them',
      ),
    );
};

/** Whether the sides of a room stay clear of each other, drawn in by so much. */
const areClear = (room: Room, inMm: number): boolean => {
  const shape = shapeOf(planesOf(room, inMm));
  return (
    crossedSides(shape, LEAST_MM).length === 0 &&
    [shape.low, shape.high].every(
      (loop) => selfCrossing(loop.map(([x, y]) => ({ x, y, bulge: 0 }))) === undefined,
    )
  );
};

/** The most of something, from 0 to 1, at which the sides are clear; missing where 0 is too much. */
const mostClear = (isClear: (share: number) => boolean): number | undefined => {
  if (!isClear(0)) return undefined;
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (isClear(middle)) low = middle;
    else high = middle;
  }
  return low;
};

/** Halvings of a share after which it is known to a ten-thousandth and better. */
const HALVINGS = 16;

const lessClearance = (v: TankPlan, room: Room): Mend[] => {
  const share = mostClear((s) => areClear(room, inwardsMm(v) - v.clearance * (1 - s)));
  return v.clearance === 0 || share === undefined ? [] : [orLess('clearance', share * v.clearance)];
};

const lessLean = (v: TankPlan, room: Room): string[] => {
  const share = mostClear((s) =>
    areClear({ ...room, leanDeg: room.leanDeg.map((deg) => deg * s) }, inwardsMm(v)),
  );
  return share === undefined || room.leanDeg.every((deg) => deg === 0)
    ? []
    : [`lean the sides ${atMost(100 * share, 0)} % of that, or less`];
};

/** How far the inside of the tank lies within what was measured. */
export const inwardsMm = (v: TankPlan): number =>
  v.clearance + (v.measure === 'outside' ? v.thicknessMm : 0);

const heightsOff = (off: MeasuredRoom['off']): Finding[] =>
  off
    .filter(({ mm }) => Math.abs(mm) > HEIGHT_OFF_MM)
    .map(({ input, called, mm }) =>
      advise(
        'height-off-plane',
        [input],
        input === 'outlineOver'
          ? `${called} lies ${figure(Math.abs(mm))} mm ${mm < 0 ? 'outside' : 'inside'} the plane of that side`
          : `${called} lies ${figure(Math.abs(mm))} mm ${mm < 0 ? 'above' : 'below'} the plane through all heights of that face`,
        [],
        `measure it again: up to ${HEIGHT_OFF_MM} mm passes`,
      ),
    );

/** Sides that their bends use up. */
export const sidesAllBend = (
  v: TankPlan,
  shape: Shape,
  isFolded: Folded,
  sheet: Sheet,
): Finding[] =>
  shape.low.flatMap((at, side) => {
    const next = (side + 1) % shape.low.length;
    const reach = (corner: number): number =>
      isFolded(corner) ? bendReachMm(cornerTurnDeg(shape.planes, corner), sheet) : sheet.gapMm;
    const length = Math.min(
      length3(sub3(shape.low[next] as Vec3, at)),
      length3(sub3(shape.high[next] as Vec3, shape.high[side] as Vec3)),
    );
    const room = length - v.thicknessMm;
    const used = reach(side) + reach(next);
    if (used <= room) return [];
    const ends = v.insideRadiusMm * (room / used) - v.thicknessMm;
    return [
      refuse(
        'side-all-bend',
        ['outline', 'radius'],
        `${sideName(side)} of outline is ${figure(length)} long inside, and its bends of radius ${figure(v.insideRadiusMm)} take ${figure(used)} of it`,
        ends > 0 ? [orLess('radius', ends)] : [],
        'give blanks plates, or a longer side',
      ),
    ];
  });

/** Plans whose sides cannot be folded up from the floor: those with a corner that points inwards. */
export const noPan = (shape: Shape): Finding[] => {
  const inwards = inwardCorners(shape).map((corner) => corner + 1);
  return inwards.length === 0
    ? []
    : [
        refuse(
          'pan-corner-inwards',
          ['blanks', 'outline'],
          `blanks pan folds all sides up from the floor, and those beside corner ${inwards.join(' and ')} of outline would take the same sheet`,
          [just('blanks', 'wrap')],
        ),
      ];
};
