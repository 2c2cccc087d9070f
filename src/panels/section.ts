import { pieceOf } from '../geometry/piece.ts';
import { type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';
import { along, cross, distance, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { cross3, dot3, scale3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { Body, BodyPanel } from './body.ts';
import { withoutBrims } from './brims.ts';
import { type Candidate, type Joint, type Line, meeting, type Opening } from './opening.ts';

/** A mould line, or the other face of the sheet at it, is in the plane this near to it, mm. */
const IN_PLANE_MM = PROOF_MM;

/** Nothing where the edge is folded, or bends round, or no other panel ends in its plane. */
export const openingAt = (body: Body, panel: string, edge: string): Opening | undefined => {
  const own = body.panels.find(({ id }) => id === panel);
  const index = own?.panel.outline.findIndex((v) => v.edge === edge && v.bulge === 0) ?? -1;
  if (own === undefined || index < 0 || isFolded(body, panel, index)) return undefined;
  const plane = planeAt(own, index);
  const ends = endsIn(body, plane);
  const others = ends.filter((end) => end.id !== panel);
  // The opening lies on that side of the named panel to which most of the others reach.
  const weight = others.reduce(
    (sum, { p, q }) => sum + (middle(p, q)[1] - body.part.thicknessMm / 2) * distance(p, q),
    0,
  );
  if (others.length === 0 || weight === 0) return undefined;
  const isUp = weight > 0;
  const frame = isUp ? plane : turnedFrame(plane);
  const sides = ends.map((end) => sideOf(body, end, frame, isUp));
  const first = sides.find((side) => side.panel === panel && side.edge === index);
  return first === undefined ? undefined : opening(body, frame, first, sides);
};

const isFolded = ({ part }: Body, panel: string, edge: number): boolean =>
  part.folds.some(({ parent, child }) =>
    [parent, child].some((side) => side.panel === panel && side.edge === edge),
  );

/** In a frame of its own: right along the edge, up along the panel's normal, and out of it. */
const planeAt = ({ panel, pose }: BodyPanel, index: number): Pose => {
  const { from, to } = pieceOf(panel.outline, index);
  const [dx, dy] = unit(sub(to, from));
  const [out, up] = [poseVector(pose, [dy, -dx, 0]), pose.z];
  return { o: posePoint(pose, [...from, 0]), x: cross3(up, out), y: up, z: out };
};

/** The same plane with up the other way: what was right is left. */
const turnedFrame = ({ o, x, y, z }: Pose): Pose => ({
  o,
  x: scale3(x, -1),
  y: scale3(y, -1),
  z,
});

/** A free straight edge in the plane, by the frame. */
interface End {
  readonly id: string;
  readonly edge: number;
  readonly p: Vec2;
  readonly q: Vec2;
}

const inFrame = (frame: Pose, at: Vec3): Vec3 => {
  const d = sub3(at, frame.o);
  return [dot3(d, frame.x), dot3(d, frame.y), dot3(d, frame.z)];
};

const endsIn = (body: Body, plane: Pose): End[] =>
  body.panels.flatMap(({ id, panel, pose }) =>
    panel.outline.flatMap((vertex, edge): End[] => {
      if (vertex.bulge !== 0 || isFolded(body, id, edge)) return [];
      const { from, to } = pieceOf(panel.outline, edge);
      const found = [0, body.part.thicknessMm]
        .map((z) => [from, to].map((at) => inFrame(plane, posePoint(pose, [...at, z]))))
        .find((both) => both.every(([, , w]) => Math.abs(w) < IN_PLANE_MM));
      const [p, q] = found ?? [];
      return p === undefined || q === undefined
        ? []
        : [{ id, edge, p: [p[0], p[1]], q: [q[0], q[1]] }];
    }),
  );

const sideOf = (body: Body, end: End, frame: Pose, isUp: boolean): Candidate => {
  const { panel, pose } = body.panels.find(({ id }) => id === end.id) as BodyPanel;
  const t = body.part.thicknessMm;
  const normal = scale3(pose.z, isUp ? 1 : -1);
  const [u, v, w] = [dot3(normal, frame.x), dot3(normal, frame.y), dot3(normal, frame.z)];
  const flat = Math.hypot(u, v);
  const inward: Vec2 = [u / flat, v / flat];
  const { from, to } = pieceOf(panel.outline, end.edge);
  const lineAt = (z: number): Line => {
    const ends = [from, to].map((at): Vec2 => {
      const [x, y, depth] = inFrame(frame, posePoint(pose, [...at, z]));
      // A leaning face meets the plane a little beside the edge.
      return along([x, y], inward, (depth * w) / flat);
    });
    const [a, b] = ends as [Vec2, Vec2];
    return cross(sub(b, a), inward) > 0 ? { from: a, to: b } : { from: b, to: a };
  };
  return {
    panel: end.id,
    edge: end.edge,
    inward,
    lean: w / flat,
    inside: lineAt(isUp ? t : 0),
    outside: lineAt(isUp ? 0 : t),
  };
};

/** From the first side on both ways, as far as panels go on. */
const opening = (
  body: Body,
  frame: Pose,
  first: Candidate,
  sides: readonly Candidate[],
): Opening | undefined => {
  const left = new Set(sides.filter((side) => side !== first));
  const chain: Candidate[] = [first];
  const joints: Joint[] = [];
  let isRound = false;
  for (;;) {
    const at = chain.at(-1) as Candidate;
    const next = neighbourOf(body, frame, at, [...left], 'after');
    if (next === undefined) break;
    chain.push(next.side);
    joints.push(next.joint);
    left.delete(next.side);
  }
  const closing =
    chain.length > 2 ? jointOf(body, frame, chain.at(-1) as Candidate, first) : undefined;
  if (closing !== undefined) {
    isRound = true;
    joints.push(closing);
  }
  while (!isRound) {
    const next = neighbourOf(body, frame, chain[0] as Candidate, [...left], 'before');
    if (next === undefined) break;
    chain.unshift(next.side);
    joints.unshift(next.joint);
    left.delete(next.side);
  }
  if (isRound) return { frame, sides: chain, joints };
  const kept = withoutBrims(chain, joints, first);
  return kept.sides.length < 2 ? undefined : { frame, ...kept };
};

const neighbourOf = (
  body: Body,
  frame: Pose,
  at: Candidate,
  others: readonly Candidate[],
  way: 'after' | 'before',
): { readonly side: Candidate; readonly joint: Joint } | undefined => {
  const found = others.flatMap((side) => {
    const joint = way === 'after' ? jointOf(body, frame, at, side) : jointOf(body, frame, side, at);
    return joint === undefined ? [] : [{ side, joint }];
  });
  return found.find(({ joint }) => joint.kind === 'bend') ?? found[0];
};

/** How one side goes on to another, where it does. */
const jointOf = (body: Body, frame: Pose, one: Candidate, other: Candidate): Joint | undefined => {
  const zone = body.zones.find(
    ({ fold: { parent, child } }) =>
      (parent.panel === one.panel && child.panel === other.panel) ||
      (parent.panel === other.panel && child.panel === one.panel),
  );
  if (zone !== undefined) {
    // A panel has two ends: the other one lies beyond the near one.
    const near = distance(one.outside.to, other.outside.from);
    const far = distance(one.outside.from, other.outside.to);
    return near < far
      ? { kind: 'bend', fold: zone.fold, square: Math.abs(dot3(zone.axis, frame.z)) }
      : undefined;
  }
  const reach = TOUCHING * body.part.thicknessMm + body.part.cornerGapMm;
  const at = meeting(one.inside, other.inside);
  return at !== undefined &&
    distance(at, one.inside.to) < reach &&
    distance(at, other.inside.from) < reach
    ? { kind: 'corner' }
    : undefined;
};

/** Panels that come within so many thicknesses of the corner that they would make touch there. */
const TOUCHING = 3;
