import { bestBlock, subsetSums } from './finger-blocks.ts';
import { fingersIn, fingerUnits } from './finger-units.ts';
import type { Holder } from './stroke-rules.ts';
import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';

/** A stretch along the fold, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A stretch in which no tool can stand. */
export interface TakenStretch extends Stretch {
  /** Whether the machine has to end before it. */
  readonly atEnd?: boolean;
}

/** What holds the sheet in one free stretch. */
export interface Block {
  /**
   * The free stretch, less the clearance beside whatever stands at its ends; infinite where nothing
   * does.
   */
  readonly room: Stretch;
  /** Widths of the fingers; for a tool that is not made of fingers, its whole length. */
  readonly widthsMm: readonly number[];
}

/**
 * The tools for a stroke, or `undefined` when too much of the fold would be without them. `lines`
 * are the fold's stretches, and `taken` those where something stands in the tool's way.
 */
export function hold(
  holder: Holder,
  lines: readonly Stretch[],
  taken: readonly TakenStretch[],
): readonly Block[] | undefined {
  if (taken.some((t) => t.atEnd === true)) return holdOffEnd(holder, lines, taken);
  if (holder.kind === 'one piece') return holdByBeam(holder.endOverhang, lines, taken);
  const clear = holder.kind === 'fingers' ? holder.sideClearMm : 0;
  const rooms = freeRooms(taken, clear).filter((room) => lines.some((l) => shared(l, room) > 0));
  const wanted = lines.reduce((sum, l) => sum + l.to - l.from, 0);
  const least = wanted - holder.mostUncoveredMm - SAME_LENGTH_MM;
  const uses = rooms.map((room) => ({
    room,
    on: lines.reduce((sum, l) => sum + shared(l, room), 0),
    reach: reachOf(lines, room),
  }));
  if (holder.kind === 'sections') {
    return uses.reduce((sum, u) => sum + u.on, 0) >= least
      ? uses.map(({ room, reach }) => ({ room, widthsMm: [Math.min(reach, room.to - room.from)] }))
      : undefined;
  }
  return chooseFingers(holder.widthsMm, uses, least);
}

/**
 * The tools where the part hangs off one end of the machine: bed, clamp and leaf end between the fold
 * and what hangs there, so that nothing is held from there on. The whole fold lies on the machine.
 */
function holdOffEnd(
  holder: Holder,
  lines: readonly Stretch[],
  taken: readonly TakenStretch[],
): readonly Block[] | undefined {
  const from = Math.min(...lines.map((l) => l.from));
  const to = Math.max(...lines.map((l) => l.to));
  const hanging = taken.filter((t) => t.atEnd === true);
  const before = hanging.filter((t) => t.to <= from + SAME_LENGTH_MM);
  const behind = hanging.filter((t) => t.from >= to - SAME_LENGTH_MM);
  if (before.length + behind.length < hanging.length) return undefined;
  if (before.length > 0 && behind.length > 0) return undefined;
  const beyond: Stretch =
    before.length > 0
      ? { from: -Infinity, to: Math.max(...before.map((t) => t.to)) }
      : { from: Math.min(...behind.map((t) => t.from)), to: Infinity };
  return hold(holder, lines, [...taken.filter((t) => t.atEnd !== true), beyond]);
}

const shared = (a: Stretch, b: Stretch): number =>
  Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from));

/** The length from the first to the last of the lines within a room. */
const reachOf = (lines: readonly Stretch[], room: Stretch): number => {
  const inside = lines.filter((l) => shared(l, room) > 0);
  return (
    Math.min(room.to, Math.max(...inside.map((l) => l.to))) -
    Math.max(room.from, Math.min(...inside.map((l) => l.from)))
  );
};

/**
 * The tools on a beam of one piece. A panel that stands at one end may hang outside the beam; at
 * both ends it cannot.
 */
function holdByBeam(
  endOverhang: boolean,
  lines: readonly Stretch[],
  taken: readonly Stretch[],
): readonly Block[] | undefined {
  const from = Math.min(...lines.map((l) => l.from));
  const to = Math.max(...lines.map((l) => l.to));
  const before = taken.filter((t) => t.to <= from + SAME_LENGTH_MM);
  const behind = taken.filter((t) => t.from >= to - SAME_LENGTH_MM);
  if (before.length + behind.length < taken.length) return undefined;
  if (taken.length > 0 && (!endOverhang || (before.length > 0 && behind.length > 0)))
    return undefined;
  const room = {
    from: before.length > 0 ? Math.max(...before.map((t) => t.to)) : -Infinity,
    to: behind.length > 0 ? Math.min(...behind.map((t) => t.from)) : Infinity,
  };
  return [{ room, widthsMm: [to - from] }];
}

function freeRooms(taken: readonly Stretch[], clearMm: number): Stretch[] {
  const sorted = taken.toSorted((a, b) => a.from - b.from);
  const rooms: Stretch[] = [];
  let from = -Infinity;
  for (const t of sorted) {
    if (t.from - from > 2 * clearMm) rooms.push({ from: from + clearMm, to: t.from - clearMm });
    from = Math.max(from, t.to);
  }
  rooms.push({ from: from + clearMm, to: Infinity });
  return rooms;
}

interface Use {
  readonly room: Stretch;
  /** How much of the fold lies in the room. */
  readonly on: number;
  readonly reach: number;
}

/**
 * Chooses fingers for every room out of one set, so that as much of the fold as possible is held,
 * with the fewest fingers among equal choices. The choice is exact, over all subsets, room after
 * room, but for sets larger than that allows (`fingerUnits`).
 */
function chooseFingers(
  widths: readonly number[],
  uses: readonly Use[],
  leastMm: number,
): readonly Block[] | undefined {
  const sums = subsetSums(widths);
  let ways: ReadonlyMap<number, Way> = new Map([[0, { held: 0, blocks: [] }]]);
  for (const use of uses.slice(0, -1)) {
    const next = new Map<number, Way>();
    for (const [used, way] of ways) {
      forEachBlock(sums, used, use, (block, held) => {
        const known = next.get(used | block);
        if (known === undefined || way.held + held > known.held)
          next.set(used | block, { held: way.held + held, blocks: [...way.blocks, block] });
      });
    }
    ways = next;
  }
  let best: Choice | undefined;
  const last = uses.at(-1);
  for (const [used, way] of ways) {
    const chosen = last === undefined ? undefined : bestBlock(widths, used, last);
    if (chosen === undefined) continue;
    const all = {
      held: way.held + chosen.held,
      excess: sums[used | chosen.block] as number,
      fingers: fingersIn(widths, used | chosen.block),
    };
    if (best === undefined || isBetter(all, best))
      best = { ...all, before: way.blocks, block: chosen.block };
  }
  if (best === undefined || best.held < leastMm) return undefined;
  return [...best.before, best.block].map((block, i) => ({
    room: (uses[i] as Use).room,
    widthsMm: fingerUnits(widths)
      .filter((_, k) => (block & (1 << k)) !== 0)
      .flat()
      .toSorted((x, y) => y - x),
  }));
}

/** Fingers for the rooms so far, one block of bits each, and how much of the fold they hold. */
interface Way {
  readonly held: number;
  readonly blocks: readonly number[];
}

interface Choice {
  readonly held: number;
  readonly excess: number;
  readonly fingers: number;
  readonly before: readonly number[];
  readonly block: number;
}

/** Visits every set of free fingers that fits into a room, with how much of the fold it holds. */
const forEachBlock = (
  sums: readonly number[],
  used: number,
  { room, on, reach }: Use,
  take: (block: number, held: number) => void,
): void => {
  const most = room.to - room.from + SAME_LENGTH_MM;
  for (let block = 0; block < sums.length; block++) {
    const sum = sums[block] as number;
    if ((block & used) === 0 && sum <= most) take(block, sum >= reach ? on : Math.min(on, sum));
  }
};

type Totals = Pick<Choice, 'held' | 'excess' | 'fingers'>;

const isBetter = (a: Totals, b: Totals): boolean =>
  a.held > b.held + SAME_LENGTH_MM ||
  (a.held > b.held - SAME_LENGTH_MM &&
    (a.excess < b.excess - SAME_LENGTH_MM ||
      (a.excess < b.excess + SAME_LENGTH_MM && a.fingers < b.fingers)));

/**
 * The widest block of fingers for a clear width between two standing sides, mm; `undefined` when
 * none fits.
 */
export const widestBlock = (
  widths: readonly number[],
  clearMm: number,
  sideClearMm: number,
): number | undefined => {
  const most = Math.max(
    ...subsetSums(widths).filter((sum) => sum <= clearMm - 2 * sideClearMm + SAME_LENGTH_MM),
  );
  return most > 0 ? most : undefined;
};
