import { type Pose, posePoint } from '../geometry/pose.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import type { AskedMeasure, Place } from '../contract/asked.ts';
import { type AskedHole, namedBy } from './asked-holes.ts';
import { cornersOf } from './panel-lines.ts';

const inSpace = (poses: ReadonlyMap<string, Pose>, panel: string, [x, y]: Vec2, z: number): Vec3 =>
  posePoint(poses.get(panel) as Pose, [x, y, z]);

/**
 * The nearest two holes across each fold; and the first and the last hole of a part with several
 * folds.
 */
export const acrossFolds = (
  part: Part,
  holes: readonly AskedHole[],
  poses: ReadonlyMap<string, Pose>,
): AskedMeasure[] => {
  const between = (a: AskedHole, b: AskedHole, heightMm: number): AskedMeasure => ({
    ...namedBy([a, b], ([one, other]) => `${one} to ${other}`),
    askedMm: length3(
      sub3(
        inSpace(poses, a.panel, a.centre, heightMm),
        inSpace(poses, b.panel, b.centre, heightMm),
      ),
    ),
    between: [a.middle, b.middle],
    heightMm,
  });
  const nearest = part.folds.flatMap((f) => {
    const [ours, theirs] = [f.parent, f.child].map((s) =>
      holes.filter((h) => h.panel === s.panel),
    ) as [AskedHole[], AskedHole[]];
    const face =
      f.midSurface === true
        ? part.thicknessMm / 2
        : (f.direction === 'up') === (part.measure === 'outside')
          ? 0
          : part.thicknessMm;
    const all = ours.flatMap((a) => theirs.map((b) => between(a, b, face)));
    return all.length === 0
      ? []
      : [all.reduce((best, m) => (m.askedMm < best.askedMm - NOISE_MM ? m : best))];
  });
  const [first, last] = [holes[0], holes.at(-1)];
  if (
    first === undefined ||
    last === undefined ||
    part.folds.length < 2 ||
    first.panel === last.panel
  )
    return nearest;
  const whole = between(first, last, 0);
  return nearest.some((m) => m.name === whole.name) ? nearest : [...nearest, whole];
};

/** The two corners of the finished part that lie farthest apart, on different panels. */
export const cornerToCorner = (
  part: Part,
  flat: FlatPattern,
  poses: ReadonlyMap<string, Pose>,
): AskedMeasure[] => {
  if (part.folds.length === 0) return [];
  const corners = part.panels.flatMap((panel) =>
    cornersOf(flat, panel).map((c) => ({
      panel: panel.id,
      at: c.at,
      in: inSpace(poses, panel.id, c.own, 0),
    })),
  );
  let best: AskedMeasure | undefined;
  for (const [i, a] of corners.entries()) {
    for (const b of corners.slice(i + 1)) {
      if (a.panel === b.panel) continue;
      const askedMm = length3(sub3(a.in, b.in));
      // The first of several equal distances is taken: rounding, which differs between engines,
      // must not decide.
      if (askedMm <= (best?.askedMm ?? 0) + NOISE_MM) continue;
      best = {
        name: `overall, ${a.panel} to ${b.panel}, corner to corner`,
        askedMm,
        between: [a, b].map(({ panel, at }): Place => ({ kind: 'corner', panel, at })),
        heightMm: 0,
      };
    }
  }
  return best === undefined ? [] : [best];
};
