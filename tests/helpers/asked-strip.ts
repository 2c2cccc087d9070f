import type { Loop, Vertex } from '../../src/geometry/loop.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import type { Direction, Measure } from '../../src/model/part.ts';
import type { Solid, Solids } from './solid.ts';

/**
 * A folded strip as somebody with a ruler describes it: legs one after the other, each measured to
 * the corner or, past square, to the outermost (innermost) point of the bend. It is drawn here from
 * that description alone.
 */
export interface AskedStrip {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly measure: Measure;
  readonly widthMm: number;
  readonly angleDeg: number;
  readonly legs: readonly AskedLeg[];
  /** One direction fewer than there are legs; seen from the first leg with its upper face up. */
  readonly bends: readonly Direction[];
}

export interface AskedLeg {
  readonly lengthMm: number;
  /**
   * Whether holes are measured from the corner towards the next leg, or from the one towards the
   * leg before.
   */
  readonly holesFrom: 'next' | 'before';
  readonly holes: readonly AskedHole[];
}

export interface AskedHole {
  readonly acrossMm: number;
  readonly alongMm: number;
  readonly diameterMm: number;
}

type Point = readonly [u: number, v: number];

const move = ([u, v]: Point, [a, b]: Point, by: number): Point => [u + by * a, v + by * b];
const left = ([a, b]: Point): Point => [-b, a];

/** Length that the bend takes off a leg, from the point to which it is measured. */
export const takenByBend = ({
  thicknessMm: t,
  insideRadiusMm: r,
  measure,
  angleDeg,
}: Omit<AskedStrip, 'legs'>): number => {
  const radius = measure === 'outside' ? r + t : r;
  const angle = (angleDeg * Math.PI) / 180;
  // Distance from the crossing of two lines at this angle to the points where a circle of that
  // radius touches them.
  return angleDeg > 90 ? radius : (radius * (1 - Math.cos(angle))) / Math.sin(angle);
};

/**
 * A leg in the section through the strip: the places on its lower face of the two ends between
 * which it is measured.
 */
interface DrawnLeg {
  readonly start: Point;
  readonly end: Point;
  readonly heading: Point;
}

/**
 * The section through the strip. The first leg starts at (0, 0), runs along u, and has its metal
 * above it.
 */
export const section = (
  strip: AskedStrip,
): { readonly outline: Loop; readonly legs: readonly DrawnLeg[] } => {
  const { thicknessMm: t, insideRadiusMm: r, angleDeg } = strip;
  const angle = (angleDeg * Math.PI) / 180;
  const taken = takenByBend(strip);
  const [lower, upper]: [Vertex[], Vertex[]] = [[], []];
  const legs: DrawnLeg[] = [];
  let at: Point = [0, 0];
  let heading: Point = [1, 0];
  const mark = (bulge: number): void => {
    const [u, v] = move(at, left(heading), t);
    lower.push({ x: at[0], y: at[1], bulge });
    upper.push({ x: u, y: v, bulge });
  };
  strip.legs.forEach(({ lengthMm }, i) => {
    const [before, after] = [i === 0 ? 0 : taken, i === strip.legs.length - 1 ? 0 : taken];
    legs.push({
      start: move(at, heading, -before),
      end: move(at, heading, lengthMm - before),
      heading,
    });
    mark(0);
    at = move(at, heading, lengthMm - before - after);
    const turn = strip.bends[i] === undefined ? 0 : strip.bends[i] === 'up' ? angle : -angle;
    mark(Math.tan(turn / 4));
    const toAxis = turn > 0 ? t + r : -r;
    const axis = move(at, left(heading), toAxis);
    heading = [
      heading[0] * Math.cos(turn) - heading[1] * Math.sin(turn),
      heading[1] * Math.cos(turn) + heading[0] * Math.sin(turn),
    ];
    if (turn !== 0) at = move(axis, left(heading), -toAxis);
  });
  return { outline: withoutRepeats([...lower, ...backwards(upper)]), legs };
};

/**
 * The same chain in the opposite direction: an arc's bulge stands at its other end, with the other
 * sign.
 */
const backwards = (chain: readonly Vertex[]): Vertex[] =>
  chain.map((_, i) => {
    const { x, y } = chain[chain.length - 1 - i] as Vertex;
    return { x, y, bulge: -(chain[chain.length - 2 - i]?.bulge ?? 0) };
  });

/** The loop without doubled points: without radius the inside of a bend is one point. */
const withoutRepeats = (loop: Loop): Loop =>
  loop.filter((v, i) => {
    const next = loop[(i + 1) % loop.length] as Vertex;
    return Math.hypot(next.x - v.x, next.y - v.y) > 1e-9;
  });

/**
 * The whole folded strip: its section swept over its width along z, its holes drilled. The right
 * hand lies at z < 0.
 */
export const stripSolid = (solids: Solids, strip: AskedStrip, hand: 'left' | 'right'): Solid => {
  const { outline, legs } = section(strip);
  const side = hand === 'left' ? 1 : -1;
  const plain = solids.prism(outline, side * strip.widthMm);
  const drills = strip.legs.flatMap(({ holes, holesFrom }, i) =>
    holes.map(({ acrossMm, alongMm, diameterMm }) => {
      const { start, end, heading } = legs[i] as DrawnLeg;
      const foot =
        holesFrom === 'next' ? move(end, heading, -acrossMm) : move(start, heading, acrossMm);
      // The drill is no longer than the sheet is thick, since another leg may lie on this one.
      return solids.cylinder(
        [...foot, side * alongMm],
        [...left(heading), 0],
        diameterMm / 2,
        strip.thicknessMm,
      );
    }),
  );
  return solids.cut(plain, drills);
};

/** Motion from the coordinates of the first leg's panel to those of the section. */
export const INTO_SECTION: Pose = { o: [0, 0, 0], x: [0, 0, 1], y: [1, 0, 0], z: [0, 1, 0] };
