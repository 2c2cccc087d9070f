import { convexPieces } from '../geometry/convex-pieces.ts';
import { compose, invert, type Motion2, movePoint } from '../geometry/motion2.ts';
import type { Pose } from '../geometry/pose.ts';
import { distance, leftOf, middle, scale, type Vec2 } from '../geometry/vec2.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Fold, Part } from '../model/part.ts';
import { foldPose, makeJoint } from '../fold/joint.ts';
import { CONTACT_GAP_MM, type FoldNet, type NetFold, type NetPanel } from './net.ts';
import { inset, plate } from './solid.ts';

/** Chords of rounded corners stay this close to them, mm: finer than the contact gap. */
const CHORD_MM = 0.1;

/**
 * A part as the planner sees it: its flat panels with their thickness, where they lie in the blank and where in the
 * finished part, bends allowed for. During a stroke the swung side turns about the middle of the bend on the outside
 * face, as the leaf or the V turns it. The bent metal itself is left out: it lies within the tools' noses.
 */
export function partNet(part: Part, flat: FlatPattern): FoldNet {
  const numberOf = (id: string): number => flat.panels.findIndex((p) => p.id === id);
  return {
    thicknessMm: part.thicknessMm,
    panels: flat.panels.map((panel) => netPanel(panel, part.thicknessMm)),
    folds: part.folds.map((fold) => netFold(part, flat, fold, [numberOf(fold.parent.panel), numberOf(fold.child.panel)])),
  };
}

const netPanel = ({ id, region, areaMm2 }: FlatPanel, thicknessMm: number): NetPanel => {
  const pieces = convexPieces(region, CHORD_MM);
  const skin = Math.min(CONTACT_GAP_MM, thicknessMm / 2);
  return {
    id,
    solids: pieces.map((p) => plate(p, 0, thicknessMm)),
    lessGap: pieces
      .map((p) => inset(p, () => CONTACT_GAP_MM))
      .filter((p) => p.length > 2)
      .map((p) => plate(p, skin, thicknessMm - skin)),
    areaMm2,
  };
};

function netFold(part: Part, flat: FlatPattern, fold: Fold, panels: readonly [number, number]): NetFold {
  const bend = flat.bends.find((b) => b.id === fold.id) as FlatBend;
  const [parent, child] = panels.map((i) => (flat.panels[i] as FlatPanel).placement) as [Motion2, Motion2];
  const joint = makeJoint(part, fold, bend);
  const up = fold.direction === 'up';
  const frames = [frameOn(joint.parentDir, parent, bend, up, part.thicknessMm), frameOn(joint.childDir, child, bend, up, part.thicknessMm)] as const;
  const heading = turned(parent, awayFrom(joint.parentDir));
  return {
    id: fold.id,
    panels,
    angleDeg: fold.angleDeg,
    up,
    frames,
    lengthMm: distance(...bend.centreLine),
    flat: asPose(compose(invert(parent), child)),
    folded: foldPose(joint),
    headingDeg: (((Math.atan2(heading[1], heading[0]) * 180) / Math.PI) % 360 + 360) % 360,
    middle: middle(...bend.centreLine),
  };
}

/** Panels run counter-clockwise, their metal on the left of an edge. */
const awayFrom = (edge: Vec2): Vec2 => scale(leftOf(edge), -1);

const turned = ({ c, s }: Motion2, [x, y]: Vec2): Vec2 => [c * x - s * y, s * x + c * y];

/** On the outside face of the bend, in a panel's own coordinates. */
const frameOn = (edge: Vec2, placement: Motion2, bend: FlatBend, up: boolean, thicknessMm: number): Pose => {
  const at = movePoint(invert(placement), middle(...bend.centreLine));
  const [ox, oy] = awayFrom(edge);
  const sign = up ? 1 : -1;
  return { o: [at[0], at[1], up ? 0 : thicknessMm], x: [ox, oy, 0], y: [0, 0, sign], z: [sign * oy, -sign * ox, 0] };
};

const asPose = (m: Motion2): Pose => ({ o: [m.x, m.y, 0], x: [m.c, m.s, 0], y: [-m.s, m.c, 0], z: [0, 0, 1] });
