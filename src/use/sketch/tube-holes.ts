import { loopExtents } from '../../geometry/extents.ts';
import { invert, movePoint } from '../../geometry/motion2.ts';
import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import { along, type Vec2 } from '../../geometry/vec2.ts';
import { posePoint } from '../../geometry/pose.ts';
import { cross3, sub3, unit3, type Vec3 } from '../../geometry/vec3.ts';
import { reachOf } from '../../measure/asked-holes.ts';
import type { FlatCutout } from '../../model/flat.ts';
import type { LengthPlace } from '../../paper/draw/lettered-view.ts';
import { seatedPoses } from '../pack/space-dimensions.ts';
import type { MadePart } from '../made-part.ts';

/**
 * Across the holes that a tube of so many mm passes, the narrow way: its diameter with the room round
 * it, however the tube leans. `changed` is the piece made with a tube thicker by `byMm`.
 */
export const tubeHoles = (
  { part, flat }: MadePart,
  changed: MadePart,
  diameterMm: number,
  byMm: number,
): LengthPlace[] => {
  if (part === undefined) return [];
  const poses = seatedPoses(part, flat);
  return flat.cutouts.flatMap((hole, i): LengthPlace[] => {
    const grown = changed.flat?.cutouts[i];
    const isOf = (one: FlatCutout | undefined, mm: number): boolean =>
      Math.abs((one?.use?.tube?.diameterMm ?? NaN) - mm) < NOISE_MM;
    const panel = flat.panels.find(({ id }) => id === hole.panel);
    const pose = poses.get(hole.panel);
    if (panel === undefined || pose === undefined) return [];
    if (!isOf(hole, diameterMm) || !isOf(grown, diameterMm + byMm)) return [];
    const [from, to] = narrowWay(hole).map((p): Vec3 => {
      const [x, y] = movePoint(invert(panel.placement), p);
      return posePoint(pose, [x, y, flat.thicknessMm]);
    }) as [Vec3, Vec3];
    const out = unit3(cross3(pose.z, sub3(to, from)));
    return [{ from, to, aside: [out, [-out[0], -out[1], -out[2]]] }];
  });
};

/** The direction of a hole is looked for in steps of this, degrees: it is for a picture. */
const STEP_DEG = 5;

/** The ends of a line through the middle of a hole, the way in which it is narrowest. */
const narrowWay = (hole: FlatCutout): readonly [Vec2, Vec2] => {
  if (hole.kind === 'round') return acrossAt(hole.centre, [1, 0], hole.diameterMm);
  const { minX = 0, maxX = 0, minY = 0, maxY = 0 } = loopExtents(hole.loop) ?? {};
  const ways = Array.from({ length: 180 / STEP_DEG }, (_, i): Vec2 => [
    cosDeg(i * STEP_DEG),
    sinDeg(i * STEP_DEG),
  ]);
  const widths = ways.map((way) => reachOf(hole.loop, way)[0]);
  const least = widths.indexOf(Math.min(...widths));
  return acrossAt(
    [(minX + maxX) / 2, (minY + maxY) / 2],
    ways[least] as Vec2,
    widths[least] as number,
  );
};

const acrossAt = (middle: Vec2, way: Vec2, mm: number): readonly [Vec2, Vec2] => [
  along(middle, way, -mm / 2),
  along(middle, way, mm / 2),
];
