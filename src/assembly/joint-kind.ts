import { isInside } from '../geometry/inside.ts';
import { type Pose, posePoint } from '../geometry/pose.ts';
import { along, unit, type Vec2 } from '../geometry/vec2.ts';
import { dot3 } from '../geometry/vec3.ts';
import type { Fold } from '../model/part.ts';
import type { Slab } from '../fold/slab.ts';
import type { Seam } from '../welds/seam-along.ts';
import type { JoinedBody } from './joined-body.ts';

/**
 * How two edges or faces meet at a weld (butt, lap, tee, corner and edge joints as in AWS A3.0 and
 * ISO 17659, from memory). A `flange` is a lap of a flange that is folded on for it.
 */
export type JointKind = 'butt' | 'lap' | 'flange' | 'edge' | 'corner' | 'tee';

/** Panels nearer to one plane than this, as the cosine, lie in it or on each other. */
const LEVEL_COSINE = 0.98;

/** How an edge of one panel meets another; `toOther` takes the coordinates of one to the other's. */
export const kindOf = (
  joined: JoinedBody,
  seam: Seam,
  home: Slab,
  other: Slab,
  toOther: Pose,
): JointKind => {
  const isLevel = Math.abs(toOther.z[2]) > LEVEL_COSINE;
  if (isLevel && !seam.isLap) return 'butt';
  if (seam.isLap) {
    if (endsThere(joined, seam, home, other, toOther)) return 'edge';
    return isFlange(joined, seam.panels[0]) || isFlange(joined, seam.panels[1]) ? 'flange' : 'lap';
  }
  const [a, b] = seam.sides;
  // Welded from outside and from inside of one corner, or from both sides of an upright panel.
  return a !== undefined && b !== undefined && dot3(a.towards, b.towards) > -LEVEL_COSINE
    ? 'tee'
    : 'corner';
};

/** Whether the panel below a lapping edge ends where that edge does. */
const endsThere = (
  { part }: JoinedBody,
  seam: Seam,
  home: Slab,
  other: Slab,
  toOther: Pose,
): boolean => {
  const run = runOfSeam(seam);
  const left: Vec2 = [-run[1], run[0]];
  const out: Vec2 = isInside(home.outline, along(seam.at, left, part.thicknessMm))
    ? [-left[0], -left[1]]
    : left;
  const [x, y] = posePoint(toOther, [...along(seam.at, out, 1.1 * part.thicknessMm), 0]);
  return !isInside(other.outline, [x, y]);
};

/** A panel that is folded on a larger one. */
const isFlange = ({ part, flat }: JoinedBody, panel: string): boolean => {
  const areaOf = (id: string): number => flat.panels.find((p) => p.id === id)?.areaMm2 ?? 0;
  return part.folds.some(
    ({ parent, child }: Fold) =>
      (child.panel === panel && areaOf(parent.panel) > areaOf(panel)) ||
      (parent.panel === panel && areaOf(child.panel) > areaOf(panel)),
  );
};

/** The direction of a seam in the plane of its home: that of its edge, and not of a line half way over. */
export const runOfSeam = ({ along: [x, y] }: Seam): Vec2 => unit([x, y]);
