import { angleWish, length3, scale3, sub3 } from '../../src/template.ts';
import type { Panel, Vec3, Wish } from '../../src/template.ts';
import { rimRadiusMm, SIDES, type Side, type Transition } from './surface.ts';

/**
 * What the inputs mean on a transition: the lean of the flat faces of its four sides, from the edge
 * of the rectangle to where the circle runs along that side, and so the angles between them. Halves
 * of a side that a seam cuts lean alike.
 */
export const transitionWishes = (t: Transition, panels: readonly Panel[]): Wish[] => {
  const present = SIDES.flatMap((side) => {
    const panel = panels.find(({ id }) => id === side || id === `${side} 1` || id === `${side} 2`);
    return panel === undefined ? [] : [{ side, panel: panel.id, normal: normalOf(t, side) }];
  });
  return present.flatMap((a, i) =>
    present.slice(i + 1).map((b) => {
      // This form stays accurate near 0 and near 180, where a cosine does not.
      const turned =
        2 *
        Math.atan2(
          length3(sub3(a.normal, b.normal)),
          length3(sub3(a.normal, scale3(b.normal, -1))),
        );
      return angleWish(
        `sizes, offsets and length, ${a.side} against ${b.side}`,
        (turned * 180) / Math.PI,
        a.panel,
        b.panel,
      );
    }),
  );
};

/**
 * Normal that points outward and up: a side leans in by the distance that the rectangle reaches
 * beyond the circle there.
 */
const normalOf = (t: Transition, side: Side): Vec3 => {
  const [x, y] = t.centre;
  const radius = rimRadiusMm(t);
  const inwards = {
    front: t.depthMm / 2 + y - radius,
    back: t.depthMm / 2 - y - radius,
    left: t.widthMm / 2 + x - radius,
    right: t.widthMm / 2 - x - radius,
  }[side];
  const slant = Math.hypot(t.lengthMm, inwards);
  const [out, up] = [t.lengthMm / slant, inwards / slant];
  const facing: Readonly<Record<Side, Vec3>> = {
    front: [0, -out, up],
    back: [0, out, up],
    left: [-out, 0, up],
    right: [out, 0, up],
  };
  return facing[side];
};
