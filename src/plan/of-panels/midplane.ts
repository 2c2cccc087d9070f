import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { AT_HOME, type Pose } from '../../geometry/pose.ts';
import {
  along,
  cross,
  distance,
  dot,
  middle,
  scale,
  sub,
  unit,
  type Vec2,
} from '../../geometry/vec2.ts';
import { dot3, type Vec3 } from '../../geometry/vec3.ts';
import { type FoldNet, type NetFold, type NetPanel } from '../machines/net.ts';
import { inset, polygonArea } from '../../geometry/convex-polygon.ts';
import { prism } from '../../geometry/convex-solid.ts';
import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/**
 * A part on the middle plane of its sheet: panels of no thickness, lengths between fold lines, no
 * allowance. The worked cases of folding have this form.
 */
export interface MidPlanePart {
  readonly thicknessMm: number;
  readonly panels: readonly MidPlanePanel[];
  readonly bends: readonly MidPlaneBend[];
}

/** A panel in the flat blank, as convex pieces. */
export interface MidPlanePanel {
  readonly id: string;
  readonly pieces: readonly (readonly Vec2[])[];
}

export interface MidPlaneBend {
  readonly id: string;
  readonly parent: string;
  readonly child: string;
  readonly line: readonly [Vec2, Vec2];
  /** Positive when the child is folded towards the visible face. */
  readonly angleDeg: number;
}

/**
 * The net of a part; `strokes` are the only sets of bends, by id, that may be made at once, or any
 * when left out.
 */
export function midPlaneNet(part: MidPlanePart, strokes?: readonly (readonly string[])[]): FoldNet {
  const numberOf = (id: string): number => part.panels.findIndex((p) => p.id === id);
  const bits = (ids: readonly string[]): number =>
    ids.reduce((sum, id) => sum | (1 << part.bends.findIndex((b) => b.id === id)), 0);
  return {
    thicknessMm: part.thicknessMm,
    isSolid: false,
    panels: part.panels.map(netPanel),
    folds: part.bends.map((bend) =>
      netFold(bend, [numberOf(bend.parent), numberOf(bend.child)], part),
    ),
    ...(strokes !== undefined && { strokes: strokes.map(bits) }),
  };
}

const netPanel = ({ id, pieces }: MidPlanePanel): NetPanel => ({
  id,
  solids: pieces.map((p) => prism(p, 0, 0)),
  lessGap: pieces
    .map((p) => inset(p, () => CONTACT_GAP_MM))
    .filter((p) => p.length > 2)
    .map((p) => prism(p, 0, 0)),
  areaMm2: pieces.reduce((sum, p) => sum + Math.abs(polygonArea(p)), 0),
});

function netFold(
  bend: MidPlaneBend,
  panels: readonly [number, number],
  part: MidPlanePart,
): NetFold {
  const [from, to] = bend.line;
  const at = middle(from, to);
  const dir = unit(sub(to, from));
  const left: Vec2 = [-dir[1], dir[0]];
  const child = part.panels[panels[1]] as MidPlanePanel;
  const out = dot(sub(centreOf(child), at), left) >= 0 ? left : scale(left, -1);
  const up = bend.angleDeg > 0;
  return {
    id: bend.id,
    panels,
    angleDeg: Math.abs(bend.angleDeg),
    insideRadiusMm: 0,
    up,
    frames: [frameAt(at, out, up), frameAt(at, scale(out, -1), up)],
    lengthMm: distance(from, to),
    flat: AT_HOME,
    folded: turnAbout(at, out, bend.angleDeg),
    headingDeg: ((((Math.atan2(out[1], out[0]) * 180) / Math.PI) % 360) + 360) % 360,
    middle: at,
  };
}

/** The middle of all pieces, weighted by their areas. */
const centreOf = ({ pieces }: MidPlanePanel): Vec2 => {
  let [area, sum]: [number, Vec2] = [0, [0, 0]];
  for (const piece of pieces) {
    const [origin] = piece as [Vec2];
    for (let i = 1; i + 1 < piece.length; i++) {
      const [a, b] = [sub(piece[i] as Vec2, origin), sub(piece[i + 1] as Vec2, origin)];
      const part = Math.abs(cross(a, b)) / 2;
      area += part;
      sum = along(sum, along(origin, along(a, b, 1), 1 / 3), part);
    }
  }
  return scale(sum, 1 / area);
};

const frameAt = (at: Vec2, out: Vec2, up: boolean): Pose => {
  const sign = up ? 1 : -1;
  return {
    o: [at[0], at[1], 0],
    x: [out[0], out[1], 0],
    y: [0, 0, sign],
    z: [sign * out[1], -sign * out[0], 0],
  };
};

/**
 * The turn about a line through `at`, square to `out`, that lifts the metal on that side towards
 * +z.
 */
const turnAbout = (at: Vec2, out: Vec2, deg: number): Pose => {
  const [c, s] = [cosDeg(deg), sinDeg(deg)];
  const turned = (v: Vec3): Vec3 => {
    const [p, q] = [v[0] * out[0] + v[1] * out[1], v[2]];
    const [outward, up] = [c * p - s * q, s * p + c * q];
    return [v[0] + (outward - p) * out[0], v[1] + (outward - p) * out[1], up];
  };
  const [x, y, z] = [turned([1, 0, 0]), turned([0, 1, 0]), turned([0, 0, 1])];
  const foot: Vec3 = [at[0], at[1], 0];
  return {
    o: [
      foot[0] - dot3([x[0], y[0], z[0]], foot),
      foot[1] - dot3([x[1], y[1], z[1]], foot),
      -dot3([x[2], y[2], z[2]], foot),
    ],
    x,
    y,
    z,
  };
};
