import { boxesShare, type ConvexSolid, convexSolid, depthInto, middleOfShared, prism } from '../geometry/convex-solid.ts';
import { convexPieces } from '../geometry/convex-pieces.ts';
import type { Pose } from '../geometry/pose.ts';
import { cross3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { foldUp } from './body.ts';
import type { Joint } from './joint.ts';
import { type BendZone, bendZone } from './zone.ts';

/** Two pieces of a folded part that would have to be in the same place. */
export interface Contact {
  /** Names of panels, or of bends: `fold A`. */
  readonly between: readonly [string, string];
  /** The shortest way by which one could be moved out of the other, mm. */
  readonly depthMm: number;
  /** About where, in the coordinates of the root panel. */
  readonly at: Vec3;
}

/**
 * Pieces may share this much, mm: sheet gives way by that. They touch where a hem is closed, a bend between slanted
 * edges ends a little off their plane, and round edges are taken as chords.
 */
export const CONTACT_MM = 0.3;

/** Chords of arcs stay this close to them, mm. */
const CHORD_MM = 0.01;

/** A bend is looked at in slices of at most this many degrees; inside its outer face by R (1 - cos 4) at most. */
const SLICE_DEG = 8;

/** A panel or a bend in space. */
interface Body {
  readonly name: string;
  /** Panels it belongs to or joins: it meets them by right. */
  readonly of: readonly string[];
  readonly solids: readonly ConvexSolid[];
}

/** Where a finished part runs into itself, thickness and bends included; holes count as metal. Deepest first. */
export const contactsOf = (part: Part, flat: FlatPattern): Contact[] => {
  // Facets given on the middle of the sheet share an edge of no thickness: their inner sides cross by right.
  if (flat.panels.length < 3 || part.folds.some((f) => f.midSurface === true)) return [];
  const { joints, poses } = foldUp(part, flat);
  const bodies = [
    ...flat.panels.map((panel) => panelBody(panel, part.thicknessMm, poses.get(panel.id) as Pose)),
    ...joints.flatMap((joint) => zoneBody(joint, flat, poses.get(joint.fold.parent.panel) as Pose)),
  ];
  const contacts = bodies.flatMap((a, i) => bodies.slice(i + 1).flatMap((b) => contactOf(a, b) ?? []));
  return contacts.toSorted((a, b) => b.depthMm - a.depthMm);
};

const panelBody = ({ id, region }: FlatPanel, thicknessMm: number, pose: Pose): Body => ({
  name: id,
  of: [id],
  solids: convexPieces(region, CHORD_MM).map((piece) => prism(piece, [0, thicknessMm], pose)),
});

const zoneBody = (joint: Joint, flat: FlatPattern, pose: Pose): Body[] => {
  const bend = flat.bends.find((b) => b.id === joint.fold.id) as FlatBend;
  const { placement } = flat.panels.find((p) => p.id === bend.parent) as FlatPanel;
  const zone = bendZone(joint, bend, placement, pose);
  if (zone.rad === 0 || bend.midSurface === true) return [];
  const count = Math.ceil(bend.angleDeg / SLICE_DEG);
  const cuts = Array.from({ length: count + 1 }, (_, i) => (i * zone.rad) / count);
  return [{
    name: `fold ${bend.id}`,
    of: [bend.parent, bend.child],
    solids: cuts.slice(1).map((end, i) => slice(zone, joint.thicknessMm, cuts[i] as number, end)),
  }];
};

/** The eight corners of a stretch of the bend; its faces are flat but for the slanting of the ends, which is slight. */
const slice = (zone: BendZone, thicknessMm: number, from: number, to: number): ConvexSolid => {
  const corner = (end: 0 | 1, z: number, a: number): Vec3 => zone.at(end, z, a);
  const [t, outer] = [thicknessMm, Math.abs(zone.axisZ) > Math.abs(zone.axisZ - thicknessMm) ? 0 : thicknessMm];
  const inner = t - outer;
  const [a, b, c, d] = [corner(0, outer, from), corner(0, outer, to), corner(0, inner, from), corner(0, inner, to)];
  const [e, f, g, h] = [corner(1, outer, from), corner(1, outer, to), corner(1, inner, from), corner(1, inner, to)];
  const edges = [sub3(e, a), sub3(f, b), sub3(b, a), sub3(f, e), sub3(d, c), sub3(h, g), sub3(c, a), sub3(d, b), sub3(g, e), sub3(h, f)];
  const face = (p: Vec3, q: Vec3, r: Vec3): Vec3 => cross3(sub3(q, p), sub3(r, p));
  return convexSolid([a, b, c, d, e, f, g, h], [face(a, b, e), face(c, d, g), face(a, c, e), face(b, d, f), face(a, b, c), face(e, f, g)], edges);
};

const contactOf = (a: Body, b: Body): Contact | undefined => {
  if (a.of.some((id) => b.of.includes(id))) return undefined;
  let deepest: Contact | undefined;
  for (const p of a.solids) {
    for (const q of b.solids) {
      if (!boxesShare(p, q, CONTACT_MM)) continue;
      const depthMm = depthInto(p, q);
      if (depthMm > Math.max(CONTACT_MM, deepest?.depthMm ?? 0)) deepest = { between: [a.name, b.name], depthMm, at: middleOfShared(p, q) };
    }
  }
  return deepest;
};
