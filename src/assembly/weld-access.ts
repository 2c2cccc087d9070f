import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { along3, dot3, type Vec3 } from '../geometry/vec3.ts';
import {
  type Access,
  accessTo,
  shareOf,
  type Tool,
  toolOf,
  type Torch,
  type TorchSurroundings,
} from '../welds/seam-access.ts';
import { type Obstacle, obstaclesOf } from '../welds/torch-room.ts';
import { posePoint } from '../geometry/pose.ts';
import type { Assembly, PlacedPiece } from './assembly.ts';
import type { JoinedBody } from './joined-body.ts';
import { runInWhole, type WeldRun } from './weld-run.ts';
import type { Weld } from './weld-seams.ts';

/** From where a torch gets to a weld while those pieces stand that are joined before it or with it. */
export interface WeldAccess {
  /** The sides that it is welded from, the open one first; none where it is reached from nowhere. */
  readonly from: readonly Side[];
  /** What is in the way where a third of a stretch or more is not reached from any side. */
  readonly blocker?: string;
  /** Length that is not reached from any side, mm. */
  readonly unreachedMm: number;
}

/** `outside`: nothing of the whole lies before it. `inside`: other metal does. */
export type Side = 'outside' | 'inside';

/**
 * Access to every weld. Each stretch is asked by itself: a side counts for the weld when a torch
 * reaches all its stretches there.
 */
export const accessOf = (
  { pieces }: Assembly,
  joined: JoinedBody,
  welds: readonly Weld[],
  torch: Torch,
): WeldAccess[] => {
  const tool = toolOf(torch);
  const all = obstaclesOf(joined.part, joined.flat, joined.body);
  const rooms = new Map<string, TorchSurroundings>();
  return welds.map((weld) => {
    const [own] = weld.pieces;
    // Corners of a piece are welded before it is joined, with nothing else in the way.
    const stands = ({ id, turn }: PlacedPiece): boolean =>
      weld.turn === 0 ? id === own : turn <= weld.turn;
    const key = weld.turn === 0 ? own : String(weld.turn);
    const room = rooms.get(key) ?? roomWith(joined, (i) => stands(pieces[i] as PlacedPiece));
    rooms.set(key, room);
    return accessToWeld(joined, weld, { room, tool, all });
  });
};

interface Around {
  readonly room: TorchSurroundings;
  readonly tool: Tool;
  /** All metal of the whole. */
  readonly all: readonly Obstacle[];
}

/** What a torch meets of the pieces that stand. */
const roomWith = (
  { part, flat, body, pieceOf }: JoinedBody,
  stands: (piece: number) => boolean,
): TorchSurroundings => ({
  poses: body.poses,
  obstacles: obstaclesOf(
    { ...part, panels: part.panels.filter(({ id }) => stands(pieceOf(id))) },
    flat,
    { ...body, joints: body.joints.filter(({ fold }) => stands(pieceOf(fold.id))) },
  ),
});

const accessToWeld = (joined: JoinedBody, weld: Weld, around: Around): WeldAccess => {
  const { room, tool } = around;
  const reached = weld.runs.map((run) =>
    run.seam.sides.flatMap((own, k): Way[] => {
      const side = sideOf(joined, run, k, weld.turn === 0 ? room.obstacles : around.all);
      if (side === 'inside' && !isOpen(joined, run, k, room.obstacles)) return [];
      const access = accessTo({ ...run.seam, sides: [own] }, room, tool);
      return [{ side, ...(access !== undefined && { access }) }];
    }),
  );
  const from = SIDES.filter((side) =>
    reached.every((ways) => ways.some((way) => way.side === side && way.access === undefined)),
  );
  const lost = weld.runs.flatMap((run, i) => {
    const ways = reached[i] as readonly Way[];
    if (ways.some(({ access }) => access === undefined)) return [];
    const [best] = ways.toSorted((a, b) => lostShare(a) - lostShare(b));
    return [
      {
        mm: (best === undefined ? 1 : lostShare(best)) * run.lengthMm,
        blocker: best?.access?.blocker,
      },
    ];
  });
  const worst = lost.toSorted((a, b) => b.mm - a.mm)[0]?.blocker;
  return {
    from: from.length > 0 || lost.length > 0 ? from : mixed(reached),
    unreachedMm: lost.reduce((sum, { mm }) => sum + mm, 0),
    ...(worst !== undefined && { blocker: worst }),
  };
};

const SIDES = ['outside', 'inside'] as const;

/** A way to a stretch from one of its sides, and what keeps a torch from it. */
interface Way {
  readonly side: Side;
  readonly access?: Access;
}

/** The sides that some stretch needs, where none serves them all. */
const mixed = (reached: readonly (readonly Way[])[]): Side[] =>
  SIDES.filter((side) =>
    reached.some((ways) => ways.find((way) => way.access === undefined)?.side === side),
  );

const lostShare = ({ access }: Way): number => (access === undefined ? 0 : shareOf(access));

/** Which side of the whole a side of a stretch lies on: a line from it meets metal, or none. */
const sideOf = (joined: JoinedBody, run: WeldRun, k: number, all: readonly Obstacle[]): Side => {
  const { middle, towards } = runInWhole(joined, run, k);
  return meetsMetal(joined, middle, towards, all) ? 'inside' : 'outside';
};

const meetsMetal = (
  { part }: JoinedBody,
  from: Vec3,
  towards: Vec3,
  obstacles: readonly Obstacle[],
): boolean => {
  const [start, end] = [along3(from, towards, 2 * part.thicknessMm), along3(from, towards, FAR_MM)];
  return obstacles.some(
    ({ toBox, isPierced }) => isPierced?.(posePoint(toBox, start), posePoint(toBox, end)) === true,
  );
};

/** Farther than any tank reaches. */
const FAR_MM = 1e5;

/**
 * Whether a hand with a torch can be inside at all: some lines lead out of there, past the pieces
 * that stand. Holes for fittings do not count.
 */
const isOpen = (
  joined: JoinedBody,
  run: WeldRun,
  k: number,
  obstacles: readonly Obstacle[],
): boolean => {
  const { middle, towards } = runInWhole(joined, run, k);
  const ways = ALL_ROUND.filter((way) => dot3(way, towards) > BETWEEN_COSINE);
  const free = ways.filter((way) => !meetsMetal(joined, middle, way, obstacles));
  return free.length > LEAST_FREE * ways.length;
};

/** Lines within 40 degrees of the middle of a square corner lead past both of its sheets. */
const BETWEEN_COSINE = 0.77;

/** Fewer free directions are those of gaps and bends between panels, not of an opening. */
const LEAST_FREE = 0.02;

/** Directions all round, some 15 degrees apart. */
const ALL_ROUND: readonly Vec3[] = [-75, -60, -45, -30, -15, 0, 15, 30, 45, 60, 75].flatMap(
  (rise) =>
    Array.from({ length: 24 }, (_, i): Vec3 => [
      cosDeg(rise) * cosDeg(15 * i),
      cosDeg(rise) * sinDeg(15 * i),
      sinDeg(rise),
    ]),
);
