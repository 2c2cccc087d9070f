import type { Place } from '../../contract/asked.ts';
import type { FoundMeasure } from '../../contract/proof.ts';
import { NO_SIZE_MM } from '../../geometry/tolerance.ts';
import { type Pose, posePoint, poseVector } from '../../geometry/pose.ts';
import { along3, cross3, dot3, length3, sub3, unit3, type Vec3 } from '../../geometry/vec3.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Panel, Part } from '../../model/part.ts';
import type { LengthPlace } from '../../paper/draw/lettered-view.ts';
import { figureAt, levels, type PanelFigure, seatedPoses } from '../pack/space-dimensions.ts';

/** The name of the input that a measure is called by: `topSetback` of `topSetback at the left`. */
export const inputOf = ({ input }: FoundMeasure): string | undefined =>
  input === undefined || / from /.test(input)
    ? undefined
    : /^([A-Za-z]\w*)(?:,| at | over | less |$)/.exec(input)?.[1];

/** The input that a sum begins with: `across` of `across + 2 rubber`. */
export const sumOf = ({ input }: FoundMeasure): string | undefined =>
  /^([A-Za-z]\w*) [+-] /.exec(input ?? '')?.[1];

/** A point, a line or a plane of the folded part. */
type Figure =
  | { readonly kind: 'points'; readonly points: readonly Vec3[]; readonly pose: Pose }
  | { readonly kind: 'plane'; readonly points: readonly Vec3[]; readonly normal: Vec3 };

/** Where on the folded part the length of a measure can be shown; nowhere where it has no ends. */
export const lengthPlaces = (
  part: Part,
  flat: FlatPattern,
): ((measure: FoundMeasure) => LengthPlace[]) => {
  const poses = seatedPoses(part, flat);
  return (measure) => {
    const { between, askedMm, heightMm } = measure;
    const [one, other] = between;
    if (one?.kind === 'diameter' && one.of === -1) return acrossDisc(part, poses, askedMm);
    if (one === undefined || other === undefined || askedMm < NO_SIZE_MM) return [];
    const heights =
      heightMm === undefined ? levels(part, between) : between.map(() => heightMm as number);
    const figures = between.map((place, i) =>
      figureIn(part, flat, poses, place, heights[i] as number),
    );
    const [a, b] = figures;
    return a === undefined || b === undefined ? [] : placesBetween(a, b, askedMm);
  };
};

const figureIn = (
  part: Part,
  flat: FlatPattern,
  poses: ReadonlyMap<string, Pose>,
  place: Place,
  heightMm: number,
): Figure | undefined => {
  if (place.kind === 'face') {
    const pose = poses.get(place.panel);
    const panel = part.panels.find((p): p is Panel => p.id === place.panel);
    if (pose === undefined || panel === undefined) return undefined;
    return {
      kind: 'plane',
      normal: poseVector(pose, [0, 0, 1]),
      points: panel.outline.map(({ x, y }) => posePoint(pose, [x, y, place.heightMm])),
    };
  }
  const found: PanelFigure | undefined = figureAt(part, flat, place);
  const pose = found === undefined ? undefined : poses.get(found.panel);
  if (found === undefined || pose === undefined) return undefined;
  return {
    kind: 'points',
    pose,
    points: found.points.map(([x, y]) => posePoint(pose, [x, y, heightMm])),
  };
};

/** From every end of the one to the other, along the way that the two are apart. */
const placesBetween = (a: Figure, b: Figure, mm: number): LengthPlace[] => {
  const [from, to] = a.kind === 'plane' && b.kind !== 'plane' ? [b, a] : [a, b];
  const way = wayBetween(from, to);
  if (way === undefined) return [];
  const [start] = from.points;
  const [end] = to.points;
  if (start === undefined || end === undefined) return [];
  const towards = dot3(sub3(end, start), way) < 0 ? ([-way[0], -way[1], -way[2]] as const) : way;
  const asides = asidesOf(from, towards);
  const both = to.kind === 'plane' && from.kind === 'plane' ? backwards(to, towards, mm) : [];
  return [
    ...from.points.map((p): LengthPlace => ({
      from: p,
      to: along3(p, towards, mm),
      aside: asides,
    })),
    ...both.map((p): LengthPlace => ({ from: p, to: along3(p, towards, mm), aside: asides })),
  ];
};

/** The feet on the first of two planes that lie opposite the corners of the second. */
const backwards = ({ points }: Figure, way: Vec3, mm: number): Vec3[] =>
  points.map((p) => along3(p, way, -mm));

const wayBetween = (a: Figure, b: Figure): Vec3 | undefined => {
  if (b.kind === 'plane') return b.normal;
  const line = [a, b].find(({ points }) => points.length === 2);
  const [p, q] = line?.points ?? [];
  if (line?.kind === 'points' && p !== undefined && q !== undefined) {
    const way = cross3(line.pose.z, sub3(q, p));
    return length3(way) < NO_SIZE_MM ? undefined : unit3(way);
  }
  const d = sub3(b.points[0] as Vec3, a.points[0] as Vec3);
  return length3(d) < NO_SIZE_MM ? undefined : unit3(d);
};

/** The ways off the part: along its edges and off its faces, each to both sides. */
const asidesOf = (figure: Figure, way: Vec3): Vec3[] => {
  const all: Vec3[] =
    figure.kind === 'plane'
      ? figure.points.map((p, i) => sub3(figure.points[(i + 1) % figure.points.length] as Vec3, p))
      : [
          ...(figure.points.length === 2
            ? [sub3(figure.points[1] as Vec3, figure.points[0] as Vec3)]
            : []),
          figure.pose.z,
          cross3(figure.pose.z, way),
        ];
  const found: Vec3[] = [];
  for (const each of all) {
    if (length3(each) < NO_SIZE_MM) continue;
    const out = unit3(each);
    if (Math.abs(dot3(out, way)) > SEEN_SQUARE) continue;
    if (found.some((f) => Math.abs(dot3(f, out)) > 1 - SEEN_SQUARE)) continue;
    found.push(out, [-out[0], -out[1], -out[2]]);
  }
  return found;
};

/** Cosine below which two directions count as square for a picture. */
export const SEEN_SQUARE = 0.05;

/** Across a round blank, in the two ways of its panel. */
const acrossDisc = (part: Part, poses: ReadonlyMap<string, Pose>, mm: number): LengthPlace[] => {
  const [panel] = part.panels;
  const pose = panel === undefined ? undefined : poses.get(panel.id);
  if (panel === undefined || pose === undefined) return [];
  const xs = panel.outline.map(({ x }) => x);
  const ys = panel.outline.map(({ y }) => y);
  const middle = posePoint(pose, [
    (Math.min(...xs) + Math.max(...xs)) / 2,
    (Math.min(...ys) + Math.max(...ys)) / 2,
    part.thicknessMm,
  ]);
  return [pose.x, pose.y].map((way, i) => {
    const aside = i === 0 ? pose.y : pose.x;
    return {
      from: along3(middle, way, -mm / 2),
      to: along3(middle, way, mm / 2),
      aside: [aside, [-aside[0], -aside[1], -aside[2]]],
    };
  });
};
