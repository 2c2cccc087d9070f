import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';

/** A rectangle that is to be laid, along the axes, and whether a quarter turn is allowed. */
export interface FewRectangle {
  readonly length: number;
  readonly width: number;
  readonly mayTurn: boolean;
  /** Numbers of the rooms that it may lie in. */
  readonly rooms: readonly number[];
}

export interface Room {
  readonly length: number;
  readonly width: number;
}

export interface Corner {
  readonly room: number;
  readonly x: number;
  readonly y: number;
  readonly isTurned: boolean;
}

/** Where each rectangle lies; `no` when they cannot lie in these rooms, whichever way. */
export type Answer = readonly Corner[] | 'no' | 'not decided';

/**
 * Whether a few rectangles find place in some rectangular rooms. Every layout can be pushed down
 * and to the left until nothing gives way, and can then be built up so that no rectangle is laid
 * below or to the left of one that lies already (Martello, Pisinger and Vigo, Operations Research
 * 48, 2000, 256-267, on placing at corner points). So each next rectangle is tried at the corners of
 * the stairs that those before it make, and branches with too little area left are cut. It ends
 * undecided after so many steps.
 */
export const layFew = (
  rectangles: readonly FewRectangle[],
  rooms: readonly Room[],
  mostSteps: number,
): Answer => {
  const search: Search = {
    rectangles,
    rooms,
    laid: rectangles.map(() => undefined),
    stepsLeft: mostSteps,
  };
  if (fill(search, 0)) return search.laid as readonly Corner[];
  return search.stepsLeft > 0 ? 'no' : 'not decided';
};

interface Search {
  readonly rectangles: readonly FewRectangle[];
  readonly rooms: readonly Room[];
  readonly laid: (Corner | undefined)[];
  stepsLeft: number;
}

/** Lays one more in this room, or goes on to the next room. */
const fill = (search: Search, room: number): boolean => {
  const { rectangles, rooms, laid } = search;
  const left = rectangles.flatMap((_, i) => (laid[i] === undefined ? [i] : []));
  if (left.length === 0) return true;
  if (room >= rooms.length || --search.stepsLeft <= 0) return false;
  if (
    areaOf(left.map((i) => rectangles[i] as FewRectangle)) >
    freeArea(search, room) + SAME_LENGTH_MM
  )
    return false;
  const corners = cornersOf(search, room);
  for (const [at, i] of left.entries()) {
    if (left.slice(0, at).some((j) => isSame(search, i, j))) continue;
    if (tryAt(search, i, room, corners)) return true;
  }
  return fill(search, room + 1);
};

const tryAt = (
  search: Search,
  i: number,
  room: number,
  corners: readonly (readonly [number, number])[],
): boolean => {
  const { length, width, mayTurn, rooms } = search.rectangles[i] as FewRectangle;
  if (!rooms.includes(room)) return false;
  const there = search.rooms[room] as Room;
  const turns = mayTurn && length !== width ? [false, true] : [false];
  for (const isTurned of turns) {
    const [long, high] = isTurned ? [width, length] : [length, width];
    for (const [x, y] of corners) {
      if (x + long > there.length + SAME_LENGTH_MM || y + high > there.width + SAME_LENGTH_MM)
        continue;
      search.laid[i] = { room, x, y, isTurned };
      if (fill(search, room)) return true;
      search.laid[i] = undefined;
    }
  }
  return false;
};

const isSame = ({ rectangles }: Search, i: number, j: number): boolean => {
  const [a, b] = [rectangles[i] as FewRectangle, rectangles[j] as FewRectangle];
  return (
    a.length === b.length &&
    a.width === b.width &&
    a.mayTurn === b.mayTurn &&
    a.rooms.join() === b.rooms.join()
  );
};

const areaOf = (rooms: readonly Room[]): number =>
  rooms.reduce((sum, { length, width }) => sum + length * width, 0);

/** What may still be filled: of this room what lies beyond the stairs, and the rooms after it. */
const freeArea = (search: Search, room: number): number => {
  const there = search.rooms[room] as Room;
  const tops = endsIn(search, room).toSorted((a, b) => b[1] - a[1]);
  let [below, reach] = [0, 0];
  // From the highest top downwards the stairs reach farther and farther to the right.
  for (const [k, [right, top]] of tops.entries()) {
    reach = Math.max(reach, right);
    below += reach * (top - (tops[k + 1]?.[1] ?? 0));
  }
  return areaOf([there]) - below + areaOf(search.rooms.slice(room + 1));
};

/** Right and upper ends of what lies in a room. */
const endsIn = ({ laid, rectangles }: Search, room: number): (readonly [number, number])[] =>
  laid.flatMap((corner, i) => {
    if (corner?.room !== room) return [];
    const { length, width } = rectangles[i] as FewRectangle;
    const [long, high] = corner.isTurned ? [width, length] : [length, width];
    return [[corner.x + long, corner.y + high] as const];
  });

/** The corners of the stairs that all ends make together. */
const cornersOf = (search: Search, room: number): (readonly [number, number])[] => {
  const ends = endsIn(search, room);
  const xs = [0, ...ends.map(([x]) => x)];
  const ys = [0, ...ends.map(([, y]) => y)];
  const isBeyond = (x: number, y: number): boolean =>
    ends.every(([right, top]) => x >= right - SAME_LENGTH_MM || y >= top - SAME_LENGTH_MM);
  const beyond = xs.flatMap((x) => ys.flatMap((y) => (isBeyond(x, y) ? [[x, y] as const] : [])));
  return beyond.filter(
    ([x, y], n) =>
      !beyond.some(([u, v], m) => m !== n && u <= x && v <= y && (u < x || v < y || m < n)),
  );
};
