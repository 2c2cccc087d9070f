import { hullOf, overlap } from '../../geometry/convex-polygon.ts';
import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Machine } from '../../model/machine.ts';
import { brakeBodies, type BrakeBodies, tipMm } from '../machines/brake.ts';
import { folderBodies } from '../machines/folder.ts';
import type { Placement } from '../machines/placed-part.ts';
import type { FoldNet } from '../machines/net.ts';
import { bentFold } from '../machines/pre-fold.ts';
import { bodiesOf } from '../machines/bodies.ts';
import { sheetOf } from '../machines/section.ts';
import type { Stroke } from '../search/stroke.ts';

/** The way a part goes into an open machine before a stroke, or comes out after it. */
export type TakeOff = 'to the front' | 'along the machine' | 'not at all';

/** How far the tools open, mm; `undefined` where the machine's description does not say. */
export const openingMm = (machine: Machine): number | undefined =>
  (machine.kind === 'folder' ? machine.clampOpeningMm : machine.daylightMm)?.value;

/** Further than anything reaches to the front, mm. */
const FAR_MM = 5000;

/**
 * The number of heights at which the part is tried, from where it lies to as high as the tools
 * open.
 */
const HEIGHTS = 8;

interface Body {
  readonly outline: readonly Vec2[];
  /** Heights along the machine. */
  readonly low: number;
  readonly high: number;
}

/**
 * How the part comes out when the clamp, or the ram with its punch, is opened after a stroke: it is
 * pulled out level to the front at any height where there is room, or else pushed off the end of
 * the machine, past its tools. The tools stand along the fold, except where it is kept free of
 * them; a beam or ram runs all along. `undefined` where it is not known how far the machine opens.
 * Turning the part on its way out is not tried.
 *
 * @param made the folds made before the stroke, as bits
 */
export function takeOff(
  net: FoldNet,
  machine: Machine,
  stroke: Stroke,
  placement: Placement,
  made: number,
): TakeOff | undefined {
  return wayOf(net, machine, stroke, { placement, made, isSwung: true });
}

/** How the part goes in before a stroke: the ways out of the open machine, the other way about. */
export function bringIn(
  net: FoldNet,
  machine: Machine,
  stroke: Stroke,
  placement: Placement,
  made: number,
): TakeOff | undefined {
  return wayOf(net, machine, stroke, { placement, made, isSwung: false });
}

interface Lying {
  readonly placement: Placement;
  readonly made: number;
  /** Whether the stroke has been made. */
  readonly isSwung: boolean;
}

function wayOf(
  net: FoldNet,
  machine: Machine,
  stroke: Stroke,
  { placement, made, isSwung }: Lying,
): TakeOff | undefined {
  const most = openingMm(machine);
  if (most === undefined) return undefined;
  const part = partAt(net, stroke, { placement, made, isSwung });
  const tools = toolsOf(net, machine, stroke, placement, made);
  const heights = Array.from({ length: HEIGHTS + 1 }, (_, i) => (i * most) / HEIGHTS);
  // A panel that reaches over the tools keeps them from opening all the way.
  const opening =
    heights.findLast((height) =>
      part.every((body) =>
        isClear(
          body,
          tools.map((tool) => swept(tool, [0, height])),
        ),
      ),
    ) ?? 0;
  const opened = tools.map((tool) => moved(tool, [0, opening]));
  const ways = heights
    .filter((height) => height <= opening)
    .map((height) => part.map((body) => moved(body, [0, height])));
  const goes = (way: (body: Body) => Body): boolean =>
    ways.some((lifted) => lifted.every((body) => isClear(way(body), opened)));
  if (goes((body) => swept(body, [FAR_MM, 0]))) return 'to the front';
  if (
    goes((body) => ({ ...body, low: -Infinity })) ||
    goes((body) => ({ ...body, high: Infinity }))
  )
    return 'along the machine';
  return 'not at all';
}

const moved = (body: Body, [dx, dy]: Vec2): Body => ({
  ...body,
  outline: body.outline.map(([x, y]): Vec2 => [x + dx, y + dy]),
});

/** The body together with all the places it takes on a straight way. */
const swept = (body: Body, by: Vec2): Body => ({
  ...body,
  outline: hullOf([...body.outline, ...moved(body, by).outline]),
});

const isClear = (body: Body, tools: readonly Body[]): boolean =>
  tools.every(
    (tool) =>
      body.high <= tool.low || tool.high <= body.low || !overlap(body.outline, tool.outline),
  );

const partAt = (
  net: FoldNet,
  { rules, placedParts }: Stroke,
  { placement, made, isSwung }: Lying,
): Body[] => {
  const placedPart = placedParts[placement];
  const turns = rules.turns
    .map((turn) => (isSwung ? turn * (rules.swingDeg - rules.startDeg) : 0))
    .map((deg) => [cosDeg(deg), sinDeg(deg)] as const);
  return net.panels.flatMap((_, panel) => {
    const [c, s] = turns[placedPart.sides[panel] as number] as readonly [number, number];
    return placedPart.panel(panel, made).lessGap.map((solid): Body => ({
      outline: solid.shadow.map(([x, y]): Vec2 => [c * x - s * y, s * x + c * y]),
      low: solid.ring.low,
      high: solid.ring.high,
    }));
  });
};

/**
 * The parts of the machine that open: the clamp or punch along the fold, and what it hangs from all
 * along.
 */
const toolsOf = (
  net: FoldNet,
  machine: Machine,
  stroke: Stroke,
  placement: Placement,
  made: number,
): Body[] => {
  const fold = bentFold(net, stroke);
  const sheet = sheetOf(net, fold);
  const { clamp: inPlace, beam: allAlong } =
    machine.kind === 'folder'
      ? folderBodies(machine, sheet)
      : punchAndRam(brakeBodies(machine, tipMm(sheet, fold.angleDeg)));
  const [inPlaceLess, allAlongLess] = [inPlace, allAlong].map((pieces) =>
    bodiesOf(pieces).map((b) => b.lessGap),
  ) as [Vec2[][], Vec2[][]];
  const lines = stroke.placedParts[placement].lines(made) ?? [];
  const blocks = (stroke.tools(made, placement, stroke.taken(made, placement)) ?? []).flatMap(
    ({ room }) =>
      lines
        .map(({ from, to }) => [Math.max(from, room.from), Math.min(to, room.to)] as const)
        .filter(([from, to]) => from < to),
  );
  return [
    ...inPlaceLess.flatMap((outline) =>
      blocks.map(([low, high]): Body => ({ outline, low, high })),
    ),
    ...allAlongLess.map((outline): Body => ({ outline, low: -Infinity, high: Infinity })),
  ];
};

/** The parts of a brake that correspond to the clamp and its beam. */
const punchAndRam = ({ punch, ram }: BrakeBodies) => ({ clamp: punch, beam: ram });
