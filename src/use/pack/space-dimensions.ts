import type { SpaceDimension } from '../../paper/draw/space-dimension.ts';
import { foldUp } from '../../fold/fold-up.ts';
import { rolledBody } from '../../fold/rolled-body.ts';
import { foldedSeat } from '../../fold/seat.ts';
import { invert, movePoint } from '../../geometry/motion2.ts';
import { pieceOf } from '../../geometry/piece.ts';
import { composePoses, type Pose, posePoint, poseVector } from '../../geometry/pose.ts';
import { along, distance, dot, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { dot3, sub3, type Vec3 } from '../../geometry/vec3.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Fold, Panel, Part } from '../../model/part.ts';
import type { Place } from '../../contract/asked.ts';
import { centroidOf } from '../../measure/centroid.ts';
import type { FoundMeasure } from '../../contract/proof.ts';
import { FOLDING } from '../../data/tolerances/accuracy.ts';
import { allowedOff, decimalsBeside } from '../../data/tolerances/allowed.ts';
import type { GeneralClass } from '../../data/tolerances/general.ts';
import { figure } from '../../text/figures.ts';
import { NO_SIZE_MM } from '../../geometry/tolerance.ts';

/** Poses of the panels of the folded part, as in its mesh. */
export const seatedPoses = (part: Part, flat: FlatPattern): ReadonlyMap<string, Pose> => {
  const body = rolledBody(part, flat);
  const { poses } = foldUp(body.part, body.flat);
  const seat = foldedSeat(body.flat, poses);
  return new Map(
    seat === undefined ? [] : [...poses].map(([id, pose]) => [id, composePoses(seat, pose)]),
  );
};

/**
 * Panels with more holes than this are read from the cut file: the places of their holes do not
 * concern whoever folds.
 */
const MOST_HOLES = 6;

/** The measures between two places of the folded part that can be drawn as dimensions. */
export const spaceDimensions = (
  part: Part,
  flat: FlatPattern,
  measures: readonly FoundMeasure[],
  grade: GeneralClass,
): SpaceDimension[] => {
  const poses = seatedPoses(part, flat);
  return drawable(measures, flat).flatMap((measure): SpaceDimension[] => {
    const [a, b] = measure.between.map((place) => figureAt(part, flat, place));
    if (a === undefined || b === undefined) return [];
    // A rolled wall lies in no plane that a figure could be taken to.
    const [poseA, poseB] = [poses.get(a.panel), poses.get(b.panel)];
    if (poseA === undefined || poseB === undefined) return [];
    const heights =
      measure.heightMm === undefined
        ? levels(part, measure.between)
        : [measure.heightMm, measure.heightMm];
    const [from, to] = [a, b].map((f, i) =>
      f.points.map((p) => posePoint(poses.get(f.panel) as Pose, [...p, heights[i] as number])),
    ) as [Vec3[], Vec3[]];
    const way = directionOf(a, b, from, to, poses);
    if (way === undefined) return [];
    return [
      {
        name: measure.name,
        // No more decimals than what it may be off gives a meaning to.
        valueMm: Number(figure(measure.askedMm, decimalsBeside(offOf(measure, grade)))),
        along: way,
        from,
        to,
        best: from.length + to.length === 4 ? 'profile' : 'face',
      },
    ];
  });
};

/** What a measure of a part that a service folds may be off, mm. */
export const offOf = ({ between, askedMm }: FoundMeasure, grade: GeneralClass): number | null => {
  const isFolded = between.some(({ kind }) => kind === 'mould' || kind === 'face');
  return allowedOff('length', askedMm, grade, isFolded ? HELD : undefined);
};

/** A service folds on a press brake (common practice). */
export const HELD = FOLDING['press brake'];

/** Measures between places of panels that do not have too many holes. */
export const drawable = (measures: readonly FoundMeasure[], flat: FlatPattern): FoundMeasure[] => {
  const count = (panel: string): number => flat.cutouts.filter((c) => c.panel === panel).length;
  const isOfMany = (place: Place): boolean =>
    place.kind === 'centre' && count(place.panel) > MOST_HOLES;
  const useful = measures.filter(
    (m) =>
      m.between.length === 2 &&
      m.atLeast !== true &&
      m.askedMm > 0 &&
      m.between.every((p) => 'panel' in p && !isOfMany(p)),
  );
  // Where a hole's distance from a fold is told, the corners of the outline need not be.
  const told = useful
    .filter((m) => m.between.some((p) => p.kind === 'centre'))
    .flatMap((m) => m.between.flatMap((p) => (p.kind === 'mould' ? [`${p.panel} ${p.fold}`] : [])));
  return useful.filter(
    (m) =>
      m.between.every((p) => p.kind !== 'corner') ||
      !m.between.some((p) => p.kind === 'mould' && told.includes(`${p.panel} ${p.fold}`)),
  );
};

/** A point or a line of a panel, in its own coordinates. */
export interface PanelFigure {
  readonly panel: string;
  readonly points: readonly Vec2[];
}

export const figureAt = (part: Part, flat: FlatPattern, place: Place): PanelFigure | undefined => {
  if (!('panel' in place)) return undefined;
  const { panel } = place;
  const placement = flat.panels.find((p) => p.id === panel)?.placement;
  if (placement === undefined) return undefined;
  const own = (p: Vec2): Vec2 => movePoint(invert(placement), p);
  switch (place.kind) {
    case 'edge':
      return { panel, points: [own(place.from), own(place.to)] };
    case 'mould':
      return mouldOf(part, panel, place.fold);
    case 'corner':
      return { panel, points: [own(place.at)] };
    case 'centre': {
      const hole = flat.cutouts[place.of];
      return hole === undefined
        ? undefined
        : { panel, points: [own(hole.kind === 'round' ? hole.centre : centroidOf(hole.loop))] };
    }
  }
};

const mouldOf = (part: Part, id: string, fold: string): PanelFigure | undefined => {
  const panel = part.panels.find((p): p is Panel => p.id === id);
  const found = foldOf(part, fold);
  const side = [found?.parent, found?.child].find((s) => s?.panel === id);
  if (panel === undefined || side === undefined) return undefined;
  const { from: start, to: end } = pieceOf(panel.outline, side.edge);
  const dir = unit(sub(end, start));
  return {
    panel: id,
    points: [along(start, dir, side.from ?? 0), along(start, dir, side.to ?? distance(start, end))],
  };
};

const foldOf = (part: Part, id: string): Fold | undefined => part.folds.find((f) => f.id === id);

/**
 * Height over the lower face of each panel: mould lines lie on the face that is measured, and other
 * places are taken on the same face.
 */
export const levels = (part: Part, between: readonly Place[]): number[] => {
  const face = (place: Place): number | undefined => {
    const fold = place.kind === 'mould' ? foldOf(part, place.fold) : undefined;
    if (fold === undefined) return undefined;
    return (fold.direction === 'up') === (part.measure === 'outside') ? 0 : part.thicknessMm;
  };
  const own = between.map(face);
  const other = own.find((level) => level !== undefined) ?? 0;
  return own.map((level) => level ?? other);
};

/** Direction square to the line that a length is measured from, or from point to point. */
const directionOf = (
  a: PanelFigure,
  b: PanelFigure,
  from: readonly Vec3[],
  to: readonly Vec3[],
  poses: ReadonlyMap<string, Pose>,
): Vec3 | undefined => {
  const [line, other] = a.points.length === 2 ? [a, b] : [b, a];
  const [p, q] = line.points;
  if (p !== undefined && q !== undefined) {
    if (line.panel !== other.panel) return undefined;
    const out = leftOf(unit(sub(q, p)));
    const side = dot(sub(other.points[0] as Vec2, p), out) < 0 ? -1 : 1;
    return poseVector(poses.get(line.panel) as Pose, [side * out[0], side * out[1], 0]);
  }
  const d = sub3(to[0] as Vec3, from[0] as Vec3);
  const size = Math.sqrt(dot3(d, d));
  return size < NO_SIZE_MM ? undefined : [d[0] / size, d[1] / size, d[2] / size];
};
