import {
  type Box3,
  boxRound,
  depthInto,
  placeSolid,
  prism,
  type Solid,
} from '../geometry/convex-solid.ts';
import { convexPieces } from '../geometry/convex-pieces.ts';
import type { Pose } from '../geometry/pose.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../model/flat.ts';
import { type Part, slotsTaken } from '../model/part.ts';
import { foldUp } from './fold-up.ts';
import type { Joint } from './joint.ts';
import { bendSlices, bendZone } from './zone.ts';
import { CONTACT_GAP_MM } from '../geometry/tolerance.ts';

/** Two pieces of a folded part that would have to be in the same place. */
export interface Contact {
  /** Names of panels, or of bends: `fold A`. */
  readonly between: readonly [string, string];
  /** The shortest way by which one could be moved out of the other, mm. */
  readonly depthMm: number;
  /** The approximate place, in the coordinates of the root panel. */
  readonly at: Vec3;
}

/** Chords of arcs stay this close to the arcs, mm. */
const CONTACT_CHORD_MM = 0.01;

/**
 * A bend is divided into slices of at most this many degrees; they stay inside its outer face by R
 * (1 - cos 4) at most.
 */
const SLICE_DEG = 8;

/** A panel or a bend in space. */
interface Body {
  readonly name: string;
  /** Panels it belongs to or joins; it may touch them. */
  readonly of: readonly string[];
  readonly solids: readonly Boxed[];
}

/**
 * The places where a finished part runs into itself, thickness and bends included; holes count as
 * metal, except the slots in which teeth stand. The deepest comes first.
 */
export const contactsOf = (part: Part, flat: FlatPattern): Contact[] => {
  // Facets given on the middle of the sheet share an edge of no thickness, so their inner sides
  // always cross.
  if (flat.panels.length < 3 || part.folds.some((f) => f.midSurface === true)) return [];
  const { joints, poses } = foldUp(part, flat);
  const bodies = [
    ...flat.panels.map((panel) => panelBody(panel, part, poses.get(panel.id) as Pose)),
    ...joints.flatMap((joint) => zoneBody(joint, flat, poses.get(joint.fold.parent.panel) as Pose)),
  ];
  const contacts = bodies.flatMap((a, i) =>
    bodies.slice(i + 1).flatMap((b) => contactOf(a, b) ?? []),
  );
  return contacts.toSorted((a, b) => b.depthMm - a.depthMm);
};

const panelBody = ({ id, region }: FlatPanel, part: Part, pose: Pose): Body => {
  const slots = slotsTaken(part.panels.find((panel) => panel.id === id));
  return {
    name: id,
    of: [id],
    solids: convexPieces(region, CONTACT_CHORD_MM, slots).map((piece) =>
      boxed(placeSolid(pose, prism(piece, 0, part.thicknessMm))),
    ),
  };
};

const zoneBody = (joint: Joint, flat: FlatPattern, pose: Pose): Body[] => {
  const bend = flat.bends.find((b) => b.id === joint.fold.id) as FlatBend;
  const { placement } = flat.panels.find((p) => p.id === bend.parent) as FlatPanel;
  const zone = bendZone(joint, bend, placement, pose);
  if (zone.rad === 0 || bend.midSurface === true) return [];
  return [
    {
      name: `fold ${bend.id}`,
      of: [bend.parent, bend.child],
      solids: bendSlices(zone, bend.angleDeg, joint.thicknessMm, SLICE_DEG).map(boxed),
    },
  ];
};

/** A body with the box round it. */
interface Boxed extends Box3 {
  readonly solid: Solid;
}

const boxed = (solid: Solid): Boxed => ({ solid, ...boxRound(solid.corners) });

/** Whether two boxes overlap by more than a depth; it rules out most pairs quickly. */
const boxesShare = (a: Box3, b: Box3, depthMm: number): boolean =>
  ([0, 1, 2] as const).every((i) => Math.min(a.high[i] - b.low[i], b.high[i] - a.low[i]) > depthMm);

/** The middle of the overlap of two boxes. */
const middleOfShared = (a: Box3, b: Box3): Vec3 => {
  const middle = (i: 0 | 1 | 2): number =>
    (Math.max(a.low[i], b.low[i]) + Math.min(a.high[i], b.high[i])) / 2;
  return [middle(0), middle(1), middle(2)];
};

const contactOf = (a: Body, b: Body): Contact | undefined => {
  if (a.of.some((id) => b.of.includes(id))) return undefined;
  let deepest: Contact | undefined;
  for (const p of a.solids) {
    for (const q of b.solids) {
      if (!boxesShare(p, q, CONTACT_GAP_MM)) continue;
      const depthMm = depthInto(p.solid, q.solid);
      if (depthMm > Math.max(CONTACT_GAP_MM, deepest?.depthMm ?? 0))
        deepest = { between: [a.name, b.name], depthMm, at: middleOfShared(p, q) };
    }
  }
  return deepest;
};
