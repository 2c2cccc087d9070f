import { foldUp } from '../fold/fold-up.ts';
import { loopExtents } from '../geometry/extents.ts';
import { invert, movePoint } from '../geometry/motion2.ts';
import { composePoses, posePoint, poseVector } from '../geometry/pose.ts';
import { screwMm } from '../data/hole-sizes.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { dot3, length3, along3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatCutout } from '../model/flat.ts';
import type { Assembly, PlacedPiece } from './assembly.ts';

/** Two holes of different pieces that one bolt goes through. */
export interface BoltedHoles {
  /** The screw that either takes: `M8`. */
  readonly screw?: string;
  /** Piece and hole, as papers call them. */
  readonly through: readonly [one: HoleIn, other: HoleIn];
  /** How far their middles lie from one line square to both, mm. */
  readonly asideMm: number;
  /**
   * How far aside a bolt still goes through both, mm, if no piece is pulled: the play of the screw in
   * either, along the length of a slot; of holes that name no screw a tenth of the narrower one.
   */
  readonly playMm: number;
  /** How far the faces between them stand apart, mm. */
  readonly apartMm: number;
}

export interface HoleIn {
  readonly piece: string;
  readonly hole: string;
  /** The piece in the list that it is one of, and the hole on its blank. */
  readonly id: string;
  readonly cutout: FlatCutout;
}

/**
 * The holes of a set that say that they meet another piece of it, each with the one there that lies
 * nearest to its line, whether it lines up or not. Each pair is listed once.
 */
export const boltedHoles = ({ pieces }: Assembly): readonly BoltedHoles[] => {
  const all = pieces.flatMap(holesOf);
  return all.flatMap((hole, i) => {
    const other = nearest(hole, all);
    if (other === undefined) return [];
    // The other one says the same of this one, and stands before it.
    if (all.indexOf(other) < i && nearest(other, all) === hole) return [];
    const screw = hole.screw ?? other.screw;
    return [
      {
        ...(screw !== undefined && { screw }),
        through: [hole.called, other.called] as const,
        asideMm: asideMm(hole, other),
        playMm: playOf(hole.called.cutout, other.called.cutout, screw),
        apartMm: Math.max(
          0,
          Math.abs(dot3(sub3(other.at, hole.at), hole.way)) - (hole.thickMm + other.thickMm) / 2,
        ),
      },
    ];
  });
};

/** A hole where it is in the whole: its middle at half the thickness, and its line. */
interface Placed {
  readonly called: HoleIn;
  readonly meets: string | undefined;
  readonly screw: string | undefined;
  readonly at: Vec3;
  readonly way: Vec3;
  readonly thickMm: number;
}

const holesOf = (piece: PlacedPiece): Placed[] => {
  const { part, flat, pose, name, id } = piece;
  const { poses } = foldUp(part, flat);
  return flat.cutouts.flatMap((cutout): Placed[] => {
    const panel = flat.panels.find((p) => p.id === cutout.panel);
    const own = poses.get(cutout.panel);
    if (panel === undefined || own === undefined || cutout.name === undefined) return [];
    const whole = composePoses(pose, own);
    const [x, y] = movePoint(invert(panel.placement), middleOf(cutout));
    return [
      {
        called: { piece: name, hole: cutout.name, id, cutout },
        meets: cutout.use?.meets,
        screw: cutout.use?.screw,
        at: posePoint(whole, [x, y, part.thicknessMm / 2]),
        way: poseVector(whole, [0, 0, 1]),
        thickMm: part.thicknessMm,
      },
    ];
  });
};

/** The middle of a hole on its blank: of what is not round that of the box round it. */
export const middleOf = (cutout: FlatCutout): Vec2 => {
  if (cutout.kind === 'round') return cutout.centre;
  const box = loopExtents(cutout.loop);
  return box === undefined ? [NaN, NaN] : [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
};

/** What a hole that names no screw leaves of it (ISO 273, medium: a tenth from 5 to 20 mm). */
const USUAL_PLAY = 0.1;

const playOf = (one: FlatCutout, other: FlatCutout, screw: string | undefined): number => {
  const both = [one, other];
  if (screw === undefined) return USUAL_PLAY * Math.min(...both.map((hole) => reachOf(hole)[0]));
  // A thread holds its screw in its middle.
  return both.reduce(
    (sum, hole) =>
      hole.use?.thread === undefined
        ? sum + Math.max(0, (reachOf(hole)[1] - screwMm(screw)) / 2)
        : sum,
    0,
  );
};

/** The shorter and the longer side of the box round a hole, mm. */
const reachOf = (hole: FlatCutout): readonly [shorter: number, longer: number] => {
  if (hole.kind === 'round') return [hole.diameterMm, hole.diameterMm];
  const { minX = 0, maxX = 0, minY = 0, maxY = 0 } = loopExtents(hole.loop) ?? {};
  const [a, b] = [maxX - minX, maxY - minY];
  return [Math.min(a, b), Math.max(a, b)];
};

/** Square to the line of a hole, how far another one lies from it. */
const asideMm = (hole: Placed, other: Placed): number => {
  const between = sub3(other.at, hole.at);
  return length3(along3(between, hole.way, -dot3(between, hole.way)));
};

/** Cosine of the greatest angle at which a bolt still goes through both: less than one degree. */
const PARALLEL = Math.cos(Math.PI / 180);

const nearest = (hole: Placed, all: readonly Placed[]): Placed | undefined =>
  all
    .filter(
      ({ called: { id }, way }) =>
        id === hole.meets && id !== hole.called.id && Math.abs(dot3(way, hole.way)) > PARALLEL,
    )
    .toSorted((a, b) => asideMm(hole, a) - asideMm(hole, b))[0];
