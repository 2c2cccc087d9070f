import type { Loop } from '../geometry/loop.ts';
import { loopExtents } from '../geometry/extents.ts';
import { arcOf } from '../geometry/arc.ts';
import { moveLoop, movePoint, type Motion2 } from '../geometry/motion2.ts';
import { type Piece, piecesOf, pointOn } from '../geometry/piece.ts';
import { FILE_STEP_MM, PROOF_MM } from '../geometry/tolerance.ts';
import { cross, distance, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { FlatCutout } from '../model/flat.ts';
import { holeCalled } from '../model/hole-names.ts';
import type { Cutout, Panel } from '../model/part.ts';
import type { AskedMeasure, Place } from '../contract/asked.ts';
import { centroidOf } from './centroid.ts';
import { fromLine } from './ideal.ts';
import { isSteady, type PanelLine } from './panel-lines.ts';

/** A hole as asked for, in its panel's coordinates, and as cut line number `of` of the blank. */
export interface AskedHole {
  readonly panel: string;
  readonly name: string;
  /** `h1`, and how a person is told of it. */
  readonly key: string;
  readonly called: string;
  /** Absent for a hole that is only marked. */
  readonly of?: number;
  /** How its middle is found. */
  readonly middle: Place;
  /** Diameter that is cut for a hole that is pierced and then drilled, mm. */
  readonly piercedMm?: number;
  readonly centre: Vec2;
  readonly cutout: Cutout;
}

/** A hole of the flat pattern as it is searched for in a file. */
export interface LookedFor extends Pick<AskedHole, 'of' | 'middle' | 'piercedMm'> {
  readonly hole: FlatCutout;
}

export const askedHole = (
  panel: Panel,
  cutout: Cutout,
  { of, middle, piercedMm, hole }: LookedFor,
): AskedHole => ({
  panel: panel.id,
  name: /^hole\b/.test(cutout.from) ? cutout.from : `hole ${cutout.from}`,
  key: hole.name as string,
  called: holeCalled(hole),
  middle,
  ...(of !== undefined && { of }),
  ...(piercedMm !== undefined && { piercedMm }),
  centre: cutout.kind === 'round' ? cutout.centre : centroidOf(cutout.loop),
  cutout,
});

/** The names of a measure that is about holes. */
export const namedBy = <H extends Pick<AskedHole, 'name' | 'key' | 'called'>>(
  holes: readonly H[],
  words: (names: readonly string[]) => string,
): Pick<AskedMeasure, 'name' | 'holes' | 'called'> => ({
  name: words(holes.map(({ name }) => name)),
  holes: holes.map(({ key }) => key),
  called: words(holes.map(({ called }) => called)),
});

/** How far a loop reaches along a direction and across it. */
export const reachOf = (loop: Loop, dir: Vec2): readonly [along: number, across: number] => {
  const box = loopExtents(moveLoop({ c: dir[0], s: -dir[1], x: 0, y: 0 }, loop));
  return box === undefined ? [0, 0] : [box.maxX - box.minX, box.maxY - box.minY];
};

/**
 * Whether an edge tells the direction of a hole. Its two ends are rounded to the step of the file,
 * and over the size of the hole that must be less than half of what a proof allows. A hole for a tube
 * is round where it ends, and its size changes with the square of a wrong direction alone.
 */
const isSteadyEdge = (
  { from, to }: Piece,
  size: readonly [number, number],
  isTube: boolean,
): boolean => {
  const wrong = (2 * FILE_STEP_MM) / distance(from, to);
  return Math.hypot(...size) * (isTube ? wrong * wrong : wrong) < PROOF_MM / 2;
};

/**
 * Size of a hole: its diameter, or its length and width along its longest straight edge, where that
 * is long enough to tell its direction; and the radii of its own round corners.
 */
export const sizesOf = (hole: AskedHole, placement: Motion2): AskedMeasure[] => {
  const { of, piercedMm, cutout } = hole;
  if (of === undefined) return [];
  const across = (what: string, askedMm: number): AskedMeasure[] => [
    { ...named(hole, what), askedMm, between: [{ kind: 'diameter', of }] },
  ];
  if (piercedMm !== undefined) return across('pierce for', piercedMm);
  if (cutout.kind === 'round') return across('diameter of', cutout.diameterMm);
  return [
    ...lengthAndWidth(hole, of, cutout.loop, placement),
    // The arcs along a tube's ellipse are nobody's rounding.
    ...(cutout.use?.tube === undefined ? cornerRadius(hole, of, cutout.loop, placement) : []),
  ];
};

/** `length of` and the hole. */
const named = (hole: AskedHole, what: string): Pick<AskedMeasure, 'name' | 'holes' | 'called'> =>
  namedBy([hole], ([name]) => `${what} ${name}`);

const lengthAndWidth = (
  hole: AskedHole,
  of: number,
  loop: Loop,
  placement: Motion2,
): AskedMeasure[] => {
  const straight = piecesOf(loop)
    .filter((p) => p.bulge === 0)
    .sort((p, q) => distance(q.from, q.to) - distance(p.from, p.to))[0];
  const isTube = hole.cutout.use?.tube !== undefined;
  if (straight === undefined || !isSteadyEdge(straight, reachOf(loop, [1, 0]), isTube)) return [];
  const [along, across] = reachOf(loop, unit(sub(straight.to, straight.from)));
  const base = {
    of,
    from: movePoint(placement, straight.from),
    to: movePoint(placement, straight.to),
  };
  return [
    { ...named(hole, 'length of'), askedMm: along, between: [{ kind: 'length', ...base }] },
    { ...named(hole, 'width of'), askedMm: across, between: [{ kind: 'width', ...base }] },
  ];
};

/** Arcs under 40 degrees: the rounding of their ends outweighs their radius. */
const isShort = (bulge: number): boolean => bulge !== 0 && Math.abs(bulge) < 0.175;

const cornerRadius = (
  hole: AskedHole,
  of: number,
  loop: Loop,
  placement: Motion2,
): AskedMeasure[] => {
  const arc = piecesOf(loop).find((p) => p.bulge !== 0);
  // An opening of many short arcs is a curve, and has no radius that anybody asked for.
  if (arc === undefined || piecesOf(loop).every((p) => isShort(p.bulge))) return [];
  const at = movePoint(placement, pointOn(arc, 0.5));
  const { radius } = arcOf(arc.from, arc.to, arc.bulge);
  return [{ ...named(hole, 'radius in'), askedMm: radius, between: [{ kind: 'radius', of, at }] }];
};

/** The middle of another hole, or of something that is none. */
interface OtherMiddle {
  readonly name: string;
  readonly key?: string;
  readonly called?: string;
  readonly centre: Vec2;
  readonly middle: Place;
}

/**
 * The distances of a hole's middle from the nearest mould line and from the nearest line across it;
 * from another middle where there are no two such lines.
 */
export const datumsOf = (
  hole: AskedHole,
  lines: readonly PanelLine[],
  instead: OtherMiddle | undefined,
): AskedMeasure[] => {
  const near = lines
    .filter((l) => isSteady(l, hole.centre))
    .sort((a, b) => fromLine(hole.centre, a) - fromLine(hole.centre, b));
  const first = near.find((l) => l.fold !== undefined) ?? near[0];
  const second = near.find((l) => first !== undefined && Math.abs(cross(l.dir, first.dir)) > 0.3);
  const measures = [first, second].flatMap((line, i): AskedMeasure[] => {
    if (line === undefined) return [];
    const edge = i === 0 || first?.fold !== undefined ? 'the nearest edge' : 'the next edge';
    return [
      {
        ...namedBy(
          [hole],
          ([name]) => `${name} from ${line.fold === undefined ? edge : `fold ${line.fold}`}`,
        ),
        askedMm: fromLine(hole.centre, line),
        between: [hole.middle, line.place],
      },
    ];
  });
  if (measures.length === 2 || instead === undefined) return measures;
  return [
    ...measures,
    {
      name: `${hole.name} to ${instead.name}`,
      holes: [hole.key, ...(instead.key === undefined ? [] : [instead.key])],
      called: `${hole.called} to ${instead.called ?? instead.name}`,
      askedMm: distance(hole.centre, instead.centre),
      between: [hole.middle, instead.middle],
    },
  ];
};
