import type { FlatPattern } from '../../src/model/flat.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { TakenStretch } from '../../src/plan/machines/holding.ts';
import type { PartPlan } from '../../src/plan/of-part/part-plan.ts';
import { type Contact, linesOf, replaySolid } from './replay-solid.ts';
import type { Stroke } from './replay-solid-stage.ts';
import type { Stretch } from './replay-solid-body.ts';
import type { Help } from './replay-solid-help.ts';

/**
 * A plan's strokes in order, with the tools where it says that they stand. Folds made by hand along
 * their slots are left out.
 */
export interface PlannedStrokes {
  readonly strokes: readonly Stroke[];
  /**
   * What is wrong with its tools: not in the set, wider than their room, too much of a fold
   * without.
   */
  readonly toolFaults: readonly string[];
  readonly byHand: readonly string[];
}

export const plannedStrokes = (
  { plan, answer: { lattice, moves }, machine }: PartPlan,
  flat: FlatPattern,
): PlannedStrokes => {
  const toolFaults: string[] = [];
  let made = 0;
  const strokes = moves.flatMap(({ stroke: number, placement }, i): Stroke[] => {
    const step = plan.steps[i];
    const planned = lattice.strokes[number];
    if (step === undefined || planned === undefined) throw new Error(`no step ${i}`);
    const taken = planned.taken(made, placement);
    const blocks = planned.tools(made, placement, taken) ?? [];
    made |= planned.bits;
    const rooms = blocks.map(({ room }) => room);
    const stroke = {
      bends: step.bend.split(' + '),
      clamped: step.clampedSide,
      stopAtDeg: step.stopAtDeg,
      keepsDeg:
        step.way === 'rest by hand'
          ? step.stopAtDeg
          : step.inTwo?.stroke === 1
            ? step.inTwo.keepsDeg
            : undefined,
    };
    const help: Help | undefined =
      planned.rules.help === undefined
        ? undefined
        : {
            way: step.way,
            packerMm: step.packerMm ?? 0,
            machineAt: machineAt(machine, taken),
          };
    const rest: Stroke = {
      bends: stroke.bends,
      clamped: stroke.clamped,
      stopAtDeg: step.stopAtDeg + step.byHandDeg,
      help: help && { ...help, way: 'free hand' },
    };
    if (step.way === 'over a block') {
      const stopAtDeg = Math.min(step.stopAtDeg, 120);
      // A straight edge is cut to its room: no air is kept beside it, as beside fingers.
      return [{ ...stroke, stopAtDeg, help, places: rooms }];
    }
    const faults = toolFaultsOf(
      linesOf(flat, stroke),
      rooms.map((room, k) => ({ room, widthsMm: blocks[k]?.widthsMm ?? [] })),
      step.fingersMm,
      machine,
    );
    toolFaults.push(...faults.map((f) => `${step.bend}: ${f}`));
    return [
      { ...stroke, help, places: roomsOf(machine, rooms) },
      ...(step.way === 'rest by hand' ? [rest] : []),
    ];
  });
  return { strokes, toolFaults, byHand: plan.steps.slice(moves.length).map((s) => s.bend) };
};

/** Where the machine ends, so that what hangs off its end hangs clear of it. */
const machineAt = (
  { workingLengthMm: { value: far } }: Machine,
  taken: readonly TakenStretch[],
): Stretch => {
  const hanging = taken.filter((t) => t.atEnd === true);
  const isBefore = hanging.some((t) => t.to <= 0);
  const from = isBefore ? Math.max(...hanging.map((t) => t.to)) : -far;
  const to = isBefore ? far : Math.min(far, ...hanging.map((t) => t.from));
  return { from, to };
};

/**
 * Rooms for tools, with the air that is kept beside fingers: nothing may stand there. What has no
 * end reaches as far as the machine.
 */
export const roomsOf = (machine: Machine, rooms: readonly Stretch[]): readonly Stretch[] => {
  const [clear, far] = [
    machine.kind === 'folder' && machine.clamp.kind === 'fingers'
      ? machine.clamp.sideClearMm.value
      : 0,
    machine.workingLengthMm.value,
  ];
  return rooms.map(({ from, to }) => ({
    from: Math.max(from - clear, -far),
    to: Math.min(to + clear, far),
  }));
};

/** Everything that is wrong with a plan, as text: an empty list is what is wanted. */
export const faultsOf = (plan: PartPlan, flat: FlatPattern): string[] => {
  const { strokes, toolFaults, byHand } = plannedStrokes(plan, flat);
  const faults = WAYS.flatMap((way) => {
    const { contacts, stands } = replaySolid(flat, plan.machine, strokes, way);
    const unmade = flat.bends.filter(
      (b) => !byHand.includes(b.id) && stands.get(b.id) !== b.angleDeg,
    );
    return [
      ...contacts.filter((c) => c.isFault).map((c) => `${way}, ${told(c)}`),
      ...unmade.map((b) => `${b.id} is not made`),
    ];
  });
  return [...toolFaults, ...faults];
};

const WAYS = ['about the hinge', 'metal kept'] as const;

const told = ({ stroke, what, into, deepestMm, atDeg }: Contact): string =>
  `${stroke}: ${what} ${deepestMm} mm in ${into} at ${Math.round(atDeg)} deg`;

/** Sums of lengths differ by rounding. */
const SLACK_MM = 1e-6;

interface Tools {
  readonly room: Stretch;
  readonly widthsMm: readonly number[];
}

const toolFaultsOf = (
  lines: readonly Stretch[],
  tools: readonly Tools[],
  fingers: readonly number[],
  machine: Machine,
): string[] => {
  const sum = (widths: readonly number[]): number => widths.reduce((a, b) => a + b, 0);
  const faults = tools.flatMap(({ room: { from, to }, widthsMm }) =>
    sum(widthsMm) > to - from + SLACK_MM ? [`${sum(widthsMm)} mm of tools in ${to - from} mm`] : [],
  );
  if (JSON.stringify(fingers) !== JSON.stringify(tools.flatMap((t) => t.widthsMm)))
    faults.push('the step tells of other tools');
  if (machine.kind === 'folder' && machine.clamp.kind === 'fingers') {
    const left = [...machine.clamp.widthsMm.value];
    for (const width of fingers) {
      if (!left.includes(width)) faults.push(`no finger of ${width} mm is left`);
      else left.splice(left.indexOf(width), 1);
    }
  }
  const held = tools.map(({ room, widthsMm }) =>
    Math.min(
      sum(widthsMm),
      sum(lines.map((l) => Math.max(0, Math.min(l.to, room.to) - Math.max(l.from, room.from)))),
    ),
  );
  const bare = sum(lines.map((l) => l.to - l.from)) - sum(held);
  return bare > 2 * machine.maxUncoveredMm.value + SLACK_MM
    ? [...faults, `${bare} mm of the fold are without tools`]
    : faults;
};
