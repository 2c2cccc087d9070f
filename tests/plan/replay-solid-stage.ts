import type { FlatBend, FlatPattern } from '../../src/model/flat.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { Stretch } from './replay-solid-body.ts';
import type { Help } from './replay-solid-help.ts';
import type { Moment } from './replay-solid-machine.ts';
import type { Section, Stance } from './replay-solid-metal.ts';

/** One stroke as a plan tells it, as far as the replay needs it. */
export interface Stroke {
  readonly bends: readonly string[];
  /** The panel that is clamped; on a press brake the one to the left. */
  readonly clamped: string;
  readonly stopAtDeg: number;
  /** What the fold has after the first of two strokes. */
  readonly keepsDeg?: number | undefined;
  /**
   * Where the tools that stand only in places stand, along the fold from its middle; all along it
   * when left out, a beam of one piece over both its ends.
   */
  readonly places?: readonly Stretch[] | undefined;
  /** What hands help with at it; the machine does it alone when left out. */
  readonly help?: Help | undefined;
}

/**
 * How the swinging side is taken to go while it is bent. `about the hinge`: rigid, about the line
 * in which the outside faces will meet, as the planner says it does; it begins a deduction further
 * out than it lies. `metal kept`: no metal is lost or won, all of the bend is one round of r' =
 * BA/a - K t. The two differ by at most what `offMm` of a stage says.
 */
export type Way = 'about the hinge' | 'metal kept';

/** At a block one side lies still whatever the shop folds on; on a press brake both rise. */
export const turnsOneSide = (machine: Machine, { help }: Stroke): boolean =>
  machine.kind === 'folder' || help?.way === 'over a block';

export const bendOf = (flat: FlatPattern, id: string): FlatBend => {
  const found = flat.bends.find((b) => b.id === id);
  if (found === undefined) throw new Error(`no bend ${id}`);
  return found;
};

/**
 * A bend of at least this angle is a hem: it is swung to 120 degrees at most, and pressed flat
 * after that.
 */
const HEM_DEG = 170;
const HEM_SWING_DEG = 120;

/** What a stroke is to bend its folds to, what springs back not counted. */
export const targetOf = (
  flat: FlatPattern,
  machine: Machine,
  { bends: [id = ''], keepsDeg }: Stroke,
): number => {
  const { angleDeg } = bendOf(flat, id);
  return (
    keepsDeg ??
    (angleDeg < HEM_DEG
      ? angleDeg
      : Math.min(HEM_SWING_DEG, machine.maxAngleDeg?.value ?? HEM_SWING_DEG))
  );
};

export interface Stage extends Moment {
  /**
   * How far the fold is bent: more than the leaf has turned where that comes up to a fold that is
   * begun.
   */
  readonly bentDeg: number;
  /** From the near side of the fold to the machine, and from the far side to the near one. */
  readonly onto: Section;
  readonly over: Section;
  /**
   * How far a piece may be from where it would be if the swinging side turned about the hinge all
   * the way.
   */
  readonly offMm: number;
}

/**
 * From the middle of a bend to where its outside faces cross: (r + t) tan(A/2) from the tangent
 * lines of what is bent. Steeper than 150 degrees it runs away.
 */
const crossingMm = (radiusMm: number, t: number, deg: number, bentMm: number): number =>
  (radiusMm + t) * Math.tan((Math.min(deg, 150) * Math.PI) / 360) - bentMm / 2;

/**
 * Whole degrees, and the stop. A leaf comes up from its rest; a press brake begins where the fold
 * stands.
 */
export const stagesOf = (
  flat: FlatPattern,
  machine: Machine,
  stroke: Stroke,
  made: ReadonlyMap<string, Stance>,
  way: Way,
): Stage[] => {
  const bend = bendOf(flat, stroke.bends[0] as string);
  const from = made.get(bend.id)?.deg ?? 0;
  const isLeafLike = turnsOneSide(machine, stroke);
  const first = isLeafLike ? 0 : from;
  const target = targetOf(flat, machine, stroke);
  const degs = [
    ...Array.from(
      { length: Math.max(0, Math.ceil(stroke.stopAtDeg - first)) },
      (_, i) => first + i,
    ),
    stroke.stopAtDeg,
  ];
  return degs.map((deg) =>
    stageAt(bend, flat.thicknessMm, isLeafLike, way, {
      deg,
      bentDeg: Math.max(deg, from),
      target,
    }),
  );
};

const stageAt = (
  bend: FlatBend,
  t: number,
  isLeafLike: boolean,
  way: Way,
  {
    deg,
    bentDeg,
    target,
  }: { readonly deg: number; readonly bentDeg: number; readonly target: number },
): Stage => {
  const hinge = hingeMm(bend, t, target);
  // What springs back is bent on the leaf: the crossing goes no further than the hinge.
  const rad = (bentDeg * Math.PI) / 180;
  const isKept = way === 'metal kept' && bentDeg > 0;
  const radius = isKept ? bend.allowanceMm / rad - bend.kFactor * t : bend.insideRadiusMm;
  const crossing =
    way === 'about the hinge'
      ? hinge
      : isKept
        ? Math.min(hinge, crossingMm(radius, t, bentDeg, bend.allowanceMm))
        : 0;
  const near = isLeafLike ? hinge : crossing;
  const [c, s] = [cos(bentDeg), sin(bentDeg)];
  const lean = isLeafLike ? 0 : -bentDeg / 2;
  const highest = tipMm(bend.insideRadiusMm, t, target);
  const tip = way === 'about the hinge' ? highest : tipMm(radius, t, bentDeg);
  return {
    deg,
    bentDeg,
    tipMm: tip,
    onto: (over, height) => [
      cos(lean) * (over - near) - sin(lean) * height,
      sin(lean) * (over - near) + cos(lean) * height,
    ],
    over: (over, height) => [
      crossing + (over + crossing) * c - height * s,
      (over + crossing) * s + height * c,
    ],
    // Flat metal lies where it lies: there is nothing to allow for.
    offMm:
      bentDeg === 0
        ? 0
        : 2 * Math.abs(hinge - crossing) + (isLeafLike ? 0 : Math.abs(highest - tip)),
  };
};

const cos = (deg: number): number => Math.cos((deg * Math.PI) / 180);
const sin = (deg: number): number => Math.sin((deg * Math.PI) / 180);

/**
 * The inside of the bend rests on the tip of the punch: over the crossing of the outside faces, on
 * the line that halves the bend.
 */
const tipMm = (radiusMm: number, t: number, deg: number): number =>
  (t + radiusMm) / cos(Math.min(deg, 150) / 2) - radiusMm;

/**
 * From the middle of the bend to the hinge, or the bottom of the V: where the outside faces cross
 * at the end. Of a fold begun, as large a share is bent as of its angle; a hem is set as if all of
 * it were.
 */
const hingeMm = (bend: FlatBend, t: number, target: number): number =>
  crossingMm(
    bend.insideRadiusMm,
    t,
    target,
    bend.angleDeg < HEM_DEG ? (bend.allowanceMm * target) / bend.angleDeg : bend.allowanceMm,
  );
