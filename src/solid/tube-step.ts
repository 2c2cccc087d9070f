import { cross3, sub3, unit3, along3, length3, type Vec3 } from '../geometry/vec3.ts';
import { circle } from '../geometry/shapes.ts';
import type { Body, StepKernel } from './step-kernel.ts';

/** The middle line of a tube: its ends and corners, and what each corner is rounded by. */
export interface TubeLine {
  readonly points: readonly Vec3[];
  readonly bends: readonly {
    readonly angleDeg: number;
    readonly radiusMm: number;
    /** From a corner to where its bend begins and ends, mm. */
    readonly setbackMm: number;
  }[];
}

/**
 * The tube as a body of cylinders and tori: its outside less its inside, each of straights and bends one
 * behind the other.
 */
export const tubeBody = (
  kernel: StepKernel,
  line: TubeLine,
  { diameterMm, wallMm }: { readonly diameterMm: number; readonly wallMm: number },
): Body =>
  kernel.cut(rodBody(kernel, line, diameterMm / 2), [
    rodBody(kernel, line, diameterMm / 2 - wallMm),
  ]);

/** A straight shorter than this, mm, is none: two bends go on in one another. */
const NO_STRAIGHT_MM = 1e-6;

const rodBody = (kernel: StepKernel, { points, bends }: TubeLine, radiusMm: number): Body => {
  const section = circle([0, 0], radiusMm);
  const bodies: Body[] = [];
  let at = points[0] as Vec3;
  bends.forEach(({ angleDeg, radiusMm: bendMm, setbackMm }, i) => {
    const [before, corner, after] = points.slice(i, i + 3) as [Vec3, Vec3, Vec3];
    const [z, next] = [unit3(sub3(corner, before)), unit3(sub3(after, corner))];
    const y = unit3(cross3(z, next));
    const x = cross3(y, z);
    const from = along3(corner, z, -setbackMm);
    const straightMm = length3(sub3(from, at));
    if (straightMm > NO_STRAIGHT_MM)
      bodies.push(kernel.move(kernel.prism(section, straightMm), { o: at, x, y, z }));
    bodies.push(kernel.move(kernel.revolved(section, bendMm, angleDeg), { o: from, x, y, z }));
    at = along3(corner, next, setbackMm);
  });
  const end = points.at(-1) as Vec3;
  const rest = sub3(end, at);
  if (length3(rest) > NO_STRAIGHT_MM) {
    const z = unit3(rest);
    const x = unit3(cross3(Math.abs(z[2]) < Math.SQRT1_2 ? [0, 0, 1] : [1, 0, 0], z));
    bodies.push(
      kernel.move(kernel.prism(section, length3(rest)), { o: at, x, y: cross3(z, x), z }),
    );
  }
  return kernel.union(bodies);
};
