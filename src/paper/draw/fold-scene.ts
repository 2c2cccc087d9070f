import { type Printed, printedIn } from '../../text/printed.ts';
import { type FoldShare, foldUp } from '../../fold/fold-up.ts';
import { foldedSeat } from '../../fold/seat.ts';
import { composePoses, invertPose, type Pose, posePoint, poseVector } from '../../geometry/pose.ts';
import { turnedDeg } from '../../geometry/degrees.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Blocked, FoldStep } from '../../contract/fold-plan.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Section } from '../../model/machine.ts';
import type { Mesh } from '../../model/mesh.ts';
import type { Part } from '../../model/part.ts';
import { blockSection, type MachinePart, machineParts } from '../../plan/machines/section.ts';
import { foldIdsOf, type NetFold } from '../../plan/machines/net.ts';
import { bentFold, turnPose } from '../../plan/machines/pre-fold.ts';
import { blockedStrokes } from '../../plan/of-part/blocked-strokes.ts';
import { shareWhen, withAngle } from '../../plan/of-part/fold-state.ts';
import { besideOf } from '../../plan/of-part/help-words.ts';
import type { PartPlan } from '../../plan/of-part/part-plan.ts';
import { bendNamed } from '../../plan/of-part/step-notes.ts';
import { toolsAlong, type ToolAlong } from '../../plan/of-part/step-card.ts';
import type { Lattice } from '../../plan/search/lattice.ts';
import type { Move } from '../../plan/search/cheapest.ts';
import type { Stroke } from '../../plan/search/stroke.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';

/** A part with its blank, of which the pictures of a plan are made. */
export interface PartDrawn {
  readonly part: Part;
  readonly flat: FlatPattern;
  /** How lengths are written; in mm when left out. */
  readonly print?: Printed;
}

/**
 * One stroke as it stands at the machine, mm, in the machine's frame: the part before it, where it
 * stops, and what it is when it has sprung back, the clamped panel level.
 */
export interface FoldScene {
  /** How its lengths are written. */
  readonly print: Printed;
  readonly before: Mesh;
  readonly after: Mesh;
  readonly checked: Mesh;
  readonly machineBefore: readonly MachinePart[];
  readonly machineAfter: readonly MachinePart[];
  readonly isFolder: boolean;
  /** The panels that are swung; all others are held. */
  readonly swung: ReadonlySet<string>;
  /** The folds of the stroke. */
  readonly folds: readonly string[];
  /** The way in which they turn on the drawing. */
  readonly direction: FlatBend['direction'];
  /** The panel in the way. */
  readonly inTheWay?: string;
  /** How far the fold is bent before the stroke, and where it stops. */
  readonly startDeg: number;
  readonly stopDeg: number;
  readonly tools: readonly ToolAlong[];
  /** The end of bed and leaf that a part hangs off, where it does. */
  readonly end?: MachineEnd;
  /** The step it shows; none where the stroke cannot be made. */
  readonly step?: FoldStep;
  /** The folds of the stroke on the upper face before it, from end to end. */
  readonly foldLines: readonly (readonly [Vec3, Vec3])[];
  /** Takes a point of the drawing to its place on the upper face before the stroke. */
  readonly onSheet: (p: readonly [number, number]) => Vec3;
}

/** Where the machine ends along its fold, mm, and what hangs beyond. */
export interface MachineEnd {
  readonly atMm: number;
  /** Whether the machine lies at higher measures, so that its left end is meant. */
  readonly isLow: boolean;
  /** The panels that hang outside. */
  readonly panels: readonly string[];
}

/** Greatest distance of the pictures' chords from their curve, mm. */
const SCENE_CHORDS_MM = 0.1;

/** Every machine stroke of a plan, in its order. */
export const foldScenes = (
  { answer: { lattice, moves }, machine, plan }: PartPlan,
  drawn: PartDrawn,
): FoldScene[] => {
  let made = 0;
  return moves.map((move, i) => {
    const step = plan.steps[i] as FoldStep;
    const scene = sceneOf(lattice, machine, drawn, stopOf(lattice, move, made, step));
    made |= (lattice.strokes[move.stroke] as Stroke).bits;
    return { ...scene, step };
  });
};

/** A stroke where it stops. */
const stopOf = (lattice: Lattice, move: Move, made: number, step: FoldStep): Moment => {
  // The picture shows how far the metal is turned, whatever the dial reads.
  const swingDeg = step.stopAtDeg - (step.stop?.offsetDeg ?? 0);
  const { angleDeg } = bentFold(lattice.net, lattice.strokes[move.stroke] as Stroke);
  return {
    ...move,
    made,
    swingDeg,
    dieDeg: Math.min(swingDeg, angleDeg),
    keepsDeg: step.card.keepsDeg,
    packerMm: step.packerMm,
  };
};

/**
 * One stroke of a plan on its way, a share from 0 to 1 of it: as the scene of it, `after` being that
 * moment, and the whole stroke for the room that its picture takes. `undefined` for a step that is
 * made by hand.
 */
export const strokeOnItsWay = (
  { answer: { lattice, moves }, machine, plan }: PartPlan,
  drawn: PartDrawn,
  number: number,
  share: number,
): { readonly now: FoldScene; readonly whole: FoldScene } | undefined => {
  const move = moves[number];
  if (move === undefined) return undefined;
  const bitsOf = (one: Move): number => (lattice.strokes[one.stroke] as Stroke).bits;
  const made = moves.slice(0, number).reduce((bits, one) => bits | bitsOf(one), 0);
  const stop = stopOf(lattice, move, made, plan.steps[number] as FoldStep);
  const whole = sceneOf(lattice, machine, drawn, stop);
  const swingDeg = whole.startDeg + (stop.swingDeg - whole.startDeg) * share;
  const moment = { ...stop, swingDeg, dieDeg: Math.min(swingDeg, stop.dieDeg) };
  return { now: share === 1 ? whole : sceneOf(lattice, machine, drawn, moment), whole };
};

/**
 * What stands in the way, and its scene as far as the stroke gets; none where that is no matter of
 * place.
 */
export interface BlockedScene {
  readonly blocked: Blocked;
  readonly scene?: FoldScene;
}

/** All that is told of a part that cannot be folded, in its order. */
export const blockedScenes = (
  { answer, machine, plan }: PartPlan,
  drawn: PartDrawn,
): BlockedScene[] => {
  const strokes = blockedStrokes(answer);
  return plan.blockedBy.map((blocked): BlockedScene => {
    const found = strokes.find(
      (s) => s.blocked.bend === blocked.bend && s.blocked.reason === blocked.reason,
    );
    if (found === undefined) return { blocked };
    const stroke = answer.lattice.strokes[found.move.stroke] as Stroke;
    const swingDeg = blocked.atDeg ?? stroke.rules.startDeg;
    const scene = sceneOf(answer.lattice, machine, drawn, {
      ...found.move,
      made: found.made,
      swingDeg,
      dieDeg: swingDeg,
      keepsDeg: swingDeg,
    });
    return {
      blocked,
      scene: { ...scene, ...(blocked.touches !== null && { inTheWay: blocked.touches }) },
    };
  });
};

interface Moment extends Move {
  /** Folds, as bits. */
  readonly made: number;
  /** Where the stroke ends: what the fold is bent by then, and how far a die has come up. */
  readonly swingDeg: number;
  readonly dieDeg: number;
  /** What the fold keeps when it is let go. */
  readonly keepsDeg: number;
  /** Height of the packers under the sheet. */
  readonly packerMm?: number | undefined;
}

const sceneOf = (
  lattice: Lattice,
  machine: PartPlan['machine'],
  drawn: PartDrawn,
  { stroke: number, placement, made, swingDeg, dieDeg, keepsDeg, packerMm = 0 }: Moment,
): FoldScene => {
  const { net } = lattice;
  const stroke = lattice.strokes[number] as Stroke;
  const first = net.folds[stroke.folds[0] as number] as NetFold;
  const folds = stroke.folds.flatMap((f) => foldIdsOf(net.folds[f] as NetFold));
  const share = shareWhen(lattice, drawn.flat, made);
  const { startDeg } = stroke.rules;
  const still = machine.kind === 'folder' ? 0 : -1 / 2;
  const home = net.panels[first.panels[placement]]?.id ?? '';
  const at = (deg: number): Pose =>
    composePoses(turnPose(deg * still), invertPose(first.frames[placement]));
  const meshAt = (deg: number, level: Pose): Mesh =>
    placedMesh(drawn, deg === 0 ? share : withAngle(share, drawn.flat, folds, deg), home, level);
  const sheet = onSheet(drawn, home, at(startDeg), first.up);
  const parts =
    stroke.rules.help === 'over a block'
      ? blockSection(net, bentFold(net, stroke))
      : machineParts(machine, net, bentFold(net, stroke), {
          startDeg,
          endDeg: dieDeg,
          packerMm,
        });
  const end = endOf(lattice, { stroke: number, placement }, made);
  const leafDeg = machine.kind === 'folder' ? swingDeg : 0;
  return {
    print: drawn.print ?? printedIn(),
    before: meshAt(startDeg, at(startDeg)),
    after: meshAt(swingDeg, at(swingDeg)),
    checked: meshAt(keepsDeg, at(0)),
    machineBefore: parts.before,
    machineAfter: parts.after.map((p) =>
      p.moves ? { ...p, pieces: p.pieces.map((piece) => turnedBy(piece, leafDeg)) } : p,
    ),
    isFolder: machine.kind === 'folder',
    swung: swungPanels(drawn.flat, folds, home),
    folds,
    direction: bendNamed(drawn.flat, folds[0] as string).direction,
    startDeg,
    stopDeg: swingDeg,
    tools: toolsAlong(stroke, placement, made),
    ...(end !== undefined && { end }),
    foldLines: folds.map((id) => {
      const [a, b] = bendNamed(drawn.flat, id).centreLine;
      return [sheet(a), sheet(b)] as const;
    }),
    onSheet: sheet,
  };
};

/** The end of the machine that a stroke needs: between the fold and whatever hangs there. */
const endOf = (lattice: Lattice, move: Move, made: number): MachineEnd | undefined => {
  const stroke = lattice.strokes[move.stroke] as Stroke;
  const hanging = stroke.taken(made, move.placement).filter((t) => t.atEnd === true);
  if (hanging.length === 0) return undefined;
  const isLow = hanging.every((t) => t.from < 0);
  return {
    atMm: isLow ? Math.max(...hanging.map((t) => t.to)) : Math.min(...hanging.map((t) => t.from)),
    isLow,
    panels: besideOf({ lattice, move, made }),
  };
};

const turnedBy = (piece: Section, deg: number): Section => piece.map((p) => turnedDeg(p, deg));

/** The panels that the clamped one is not joined to but over the folds of the stroke. */
const swungPanels = (
  flat: FlatPattern,
  folds: readonly string[],
  home: string,
): ReadonlySet<string> => {
  const held = new Set([home]);
  for (const id of held)
    for (const { id: fold, parent, child } of flat.bends) {
      if (folds.includes(fold)) continue;
      if (parent === id) held.add(child);
      if (child === id) held.add(parent);
    }
  return new Set(flat.panels.map((p) => p.id).filter((id) => !held.has(id)));
};

/** The part folded so far, with one panel in a given place. */
const placedMesh = (
  { part, flat }: PartDrawn,
  share: FoldShare,
  home: string,
  level: Pose,
): Mesh => {
  const mesh = foldedMesh(part, flat, SCENE_CHORDS_MM, share);
  if (mesh === undefined) throw new Error(`${part.name} has no blank`);
  const { poses } = foldUp(part, flat, share);
  const seat = foldedSeat(flat, poses);
  const pose = composePoses(level, invertPose(composePoses(seat, poses.get(home) as Pose)));
  return {
    ...mesh,
    points: mesh.points.map((p) => posePoint(pose, p)),
    normals: mesh.normals.map((n) => poseVector(pose, n)),
  };
};

/** From the drawing to the machine, for what lies flat with a panel. */
const onSheet = (
  { flat, part }: PartDrawn,
  home: string,
  level: Pose,
  up: boolean,
): FoldScene['onSheet'] => {
  const placement = flat.panels.find((p) => p.id === home)?.placement;
  if (placement === undefined) throw new Error(`no panel ${home}`);
  const { c, s, x, y } = placement;
  return ([px, py]) => {
    const [dx, dy] = [px - x, py - y];
    return posePoint(level, [c * dx + s * dy, c * dy - s * dx, up ? part.thicknessMm : 0]);
  };
};
