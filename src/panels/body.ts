import { flatten } from '../flatten/flatten.ts';
import { foldUp } from '../fold/fold-up.ts';
import { type BendZone, bendZone } from '../fold/zone.ts';
import { loopExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import { moveLoop } from '../geometry/motion2.ts';
import { type Pose, poseVector } from '../geometry/pose.ts';
import { NO_SIZE_MM } from '../geometry/tolerance.ts';
import { dot3, type Vec3 } from '../geometry/vec3.ts';
import { type Finding, hasStop } from '../model/finding.ts';
import type { Fold, Panel, Part } from '../model/part.ts';

/** A finished piece as others are fitted to it, in the coordinates of its base. */
export interface Body {
  readonly part: Part;
  readonly panels: readonly BodyPanel[];
  readonly zones: readonly BodyZone[];
}

export interface BodyPanel {
  readonly id: string;
  readonly panel: Panel;
  /** Its flat metal, in its own coordinates. */
  readonly region: Loop;
  readonly pose: Pose;
}

export interface BodyZone {
  readonly fold: Fold;
  readonly zone: BendZone;
  /** Along the fold, in the coordinates of the body. */
  readonly axis: Vec3;
}

/**
 * A finished part is the same by any rule, which says only how long its bends are in the flat: this
 * one is as good as another.
 */
export const ANY_RULE = { id: 'k', k: 0.5 } as const;

/** Nothing of a part that cannot be made, which its own findings tell. */
export const bodyOf = (part: Part): Body | undefined => {
  const flat = flatten(part, ANY_RULE);
  if (hasStop(flat.findings)) return undefined;
  const { joints, poses } = foldUp(part, flat);
  const poseOf = (id: string): Pose => poses.get(id) as Pose;
  return {
    part,
    panels: flat.panels.map(({ id, region }) => ({
      id,
      panel: part.panels.find((p) => p.id === id) as Panel,
      region,
      pose: poseOf(id),
    })),
    zones: joints.flatMap((joint): BodyZone[] => {
      const { fold } = joint;
      const bend = flat.bends.find(({ id }) => id === fold.id);
      const placement = flat.panels.find(({ id }) => id === fold.parent.panel)?.placement;
      if (bend === undefined || placement === undefined) return [];
      const pose = poseOf(fold.parent.panel);
      const zone = bendZone(joint, bend, placement, pose);
      return [{ fold, zone, axis: poseVector(pose, [...zone.along, 0]) }];
    }),
  };
};

/** What keeps a part from being folded up. */
export const whyNoBody = (part: Part): readonly Finding[] =>
  flatten(part, ANY_RULE).findings.filter(({ severity }) => severity === 'stop');

/** Which of its panels and bends are looked at. */
export interface Among {
  readonly panels: ReadonlySet<string>;
  readonly folds: ReadonlySet<string>;
}

/**
 * How far the body reaches in a direction, a unit vector, mm; minus infinity where there is nothing
 * of it. Bends whose ends slant are looked at in steps of a hundredth of their angle.
 */
export const reachOf = (body: Body, dir: Vec3, among?: Among): number => {
  const t = body.part.thicknessMm;
  const panels = body.panels
    .filter(({ id }) => among?.panels.has(id) !== false)
    .map((panel) => panelReach(panel, dir, t));
  const zones = body.zones
    .filter(({ fold }) => among?.folds.has(fold.id) !== false)
    .map(({ zone }) => zoneReach(zone, dir, t));
  return Math.max(-Infinity, ...panels, ...zones);
};

const panelReach = ({ region, pose }: BodyPanel, dir: Vec3, t: number): number => {
  const [dx, dy, dz] = [dot3(pose.x, dir), dot3(pose.y, dir), dot3(pose.z, dir)];
  const flat = Math.hypot(dx, dy);
  const turned =
    flat < NO_SIZE_MM
      ? 0
      : flat *
        (loopExtents(moveLoop({ c: dx / flat, s: -dy / flat, x: 0, y: 0 }, region))?.maxX ?? 0);
  return dot3(pose.o, dir) + turned + Math.max(0, dz * t);
};

const STEPS = 100;

const zoneReach = (zone: BendZone, dir: Vec3, t: number): number => {
  const heights = ([0, 1] as const).flatMap((end) =>
    [0, t].flatMap((z) => {
      const level = (rad: number): number => dot3(zone.at(end, z, rad), dir);
      // Along the arc the level runs as a sine: three places of it say where it is highest.
      const [a, b] = [level(0), zone.rad === 0 ? level(0) : level(zone.rad)];
      const tops = topsOf(zone, dir, z).filter((rad) => rad > 0 && rad < zone.rad);
      const steps = Array.from({ length: STEPS - 1 }, (_, i) => ((i + 1) * zone.rad) / STEPS);
      return [a, b, ...tops.map(level), ...steps.map(level)];
    }),
  );
  return Math.max(...heights);
};

/** Where along its arc a face of a bend with straight ends is highest, and lowest, radians. */
const topsOf = (zone: BendZone, dir: Vec3, z: number): number[] => {
  const radius = zone.axisZ - z;
  // At the angle a the place is reach sin(a) outwards and -radius cos(a) up, about the axis.
  const origin = zone.at(0, z, 0);
  const quarter = zone.at(0, z, Math.PI / 2);
  const half = zone.at(0, z, Math.PI);
  const slant = dot3([half[0] - origin[0], half[1] - origin[1], half[2] - origin[2]], dir) / 2;
  const out =
    dot3([quarter[0] - origin[0], quarter[1] - origin[1], quarter[2] - origin[2]], dir) - slant;
  if (Math.abs(radius) < NO_SIZE_MM) return [];
  const top = Math.atan2(out, -slant);
  return [top, top + Math.PI, top + 2 * Math.PI];
};

/** What is folded on at an edge of a panel, all of it, and what is folded on that. */
export const grownOn = (
  { part }: Body,
  panel: string,
  isOn: (fold: Fold) => boolean,
): Among & { readonly first: readonly Fold[] } => {
  const first = part.folds.filter((fold) => fold.parent.panel === panel && isOn(fold));
  const [panels, folds] = [new Set<string>(), new Set<string>()];
  const todo = [...first];
  for (let fold = todo.pop(); fold !== undefined; fold = todo.pop()) {
    folds.add(fold.id);
    const { panel: id } = fold.child;
    panels.add(id);
    todo.push(...part.folds.filter(({ parent }) => parent.panel === id));
  }
  return { panels, folds, first };
};
