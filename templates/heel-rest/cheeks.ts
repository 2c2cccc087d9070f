import {
  cornerMm,
  cosDeg,
  distance,
  polygon,
  rectangle,
  roundFreeCorners,
  sinDeg,
} from '../../src/template.ts';
import type {
  Finding,
  GivenFold,
  GivenSide,
  Panel,
  PolygonPoint,
  Vec2,
} from '../../src/template.ts';
import type { End, Section, Standing } from './section.ts';
import {
  cheekSides,
  highEnd,
  lipAt,
  lowEnd,
  notchMm,
  type Place,
  setback90Mm,
  type Side,
  wedgeDeg,
} from './sizes.ts';
import type { HeelRest } from './inputs.ts';

/**
 * The stretch at which the cheeks are folded from the sides of the tread, measured along it from
 * its low end, as `treadDepth` is.
 */
export const cheekStretch = (
  v: HeelRest,
  section: Section,
): readonly [from: number, to: number] => [noseMm(v, section), v.treadDepth];

/**
 * Height that a cheek needs, over the upper face of the tread, for its bends to leave a flat
 * between them.
 */
export const leastCheekMm = (v: HeelRest): number => {
  const bend = v.insideRadiusMm + v.thicknessMm;
  return bend + (v.cheekFlange > 0 ? bend : 0) + 2 * v.thicknessMm;
};

/** Distance from the upper face of the tread down to the floor, square to the tread. */
const downToFloor = (v: HeelRest, section: Section, along: number): number =>
  (section.lowRiseMm + along * sinDeg(wedgeDeg(v))) / cosDeg(wedgeDeg(v));

/**
 * Length by which the cheek stops short of the low end. On a wedge that runs down to the floor its
 * knife-sharp tip is left off, and the end of its fold needs room for its relief and the bend at
 * the low end.
 */
function noseMm(v: HeelRest, section: Section): number {
  if (v.lift > 0) return 0;
  const w = wedgeDeg(v);
  const high = (leastCheekMm(v) * cosDeg(w) - section.lowRiseMm) / sinDeg(w);
  return Math.max(high, section.ends[lowEnd(v)].setbackMm + 2 * notchMm(v) + v.thicknessMm);
}

export interface Cheeks {
  readonly panels: readonly Panel[];
  readonly folds: readonly GivenFold[];
  readonly findings: readonly Finding[];
}

/** The cheeks; `foldIds` are unused names for the folds of each cheek and its flange in turn. */
export function cheeksOf(v: HeelRest, section: Section, foldIds: readonly string[]): Cheeks {
  const each = v.cheekFlange > 0 ? 2 : 1;
  const pieces = cheekSides(v).map((side, i) => cheek(v, section, side, foldIds.slice(each * i)));
  return {
    panels: pieces.flatMap((p) => p.panels),
    folds: pieces.flatMap((p) => p.folds),
    findings: pieces.flatMap((p) => p.findings),
  };
}

/** The points of a cheek's outline at which its edge on the floor begins and ends. */
const [FLOOR_FROM, FLOOR_TO] = [3, 4];

/**
 * A point of a cheek: distance along the tread from its low end, and down from the fold's mould
 * line.
 */
type CheekPoint = Vec2;

function cheek(
  v: HeelRest,
  section: Section,
  side: Side,
  [foldId = '', flangeFoldId = '']: readonly string[],
): Cheeks {
  const [from, to] = cheekStretch(v, section);
  const points = outlineOf(v, section, from, to);
  // Seen with the fold below and the metal above, the left cheek of a wedge that is high in front
  // begins at its low end.
  const isTurned = (side === 'right') === (highEnd(v) === 'front');
  const [begins, ends] = isTurned ? [1, FLOOR_TO] : [0, FLOOR_FROM];
  const placed = points.map(([along, down], i): PolygonPoint => {
    const x = isTurned ? to - along : along - from;
    return i === begins ? [x, down, 'fold'] : i === ends ? [x, down, 'floor'] : [x, down];
  });
  const outline = polygon(...(isTurned ? turnedRound(placed) : placed));
  const id = `${side} cheek`;
  const bend = { angleDeg: 90, insideRadiusMm: v.insideRadiusMm } as const;
  const cheekFold: GivenFold = {
    id: foldId,
    parent: parentSide(v, section, side),
    child: { panel: id, edge: 'fold', from: 0, to: to - from },
    direction: 'down',
    ...bend,
  };
  const panel: Panel = { id, outline, cutouts: [] };
  if (v.cheekFlange === 0) return { panels: [panel], folds: [cheekFold], findings: [] };
  const [a, b] = [points[FLOOR_FROM], points[FLOOR_TO]] as [Vec2, Vec2];
  const flange = `${side} cheek flange`;
  const shape = roundFreeCorners(
    flange,
    rectangle(0, 0, distance(a, b), v.cheekFlange),
    ['top'],
    v,
    { right: setback90Mm(v), left: setback90Mm(v) },
  );
  return {
    panels: [panel, { id: flange, outline: shape.outline, cutouts: [] }],
    folds: [
      cheekFold,
      {
        id: flangeFoldId,
        parent: { panel: id, edge: 'floor' },
        child: { panel: flange, edge: 'bottom' },
        direction: 'up',
        ...bend,
      },
    ],
    findings: shape.findings,
  };
}

/** The points in counter-clockwise instead of clockwise order, with the same piece first. */
const turnedRound = <P>([first, second, ...others]: readonly P[]): P[] => [
  second as P,
  first as P,
  ...others.reverse(),
];

/**
 * Side of the tread from which a cheek is folded. Along its right edge the tread runs forwards,
 * along its left one backwards. Rounded corners at a bare low end shorten an edge that begins
 * there.
 */
function parentSide(v: HeelRest, section: Section, side: Side): GivenSide {
  const [from, to] = cheekStretch(v, section);
  if ((side === 'right') !== (highEnd(v) === 'front'))
    return { panel: 'tread', edge: side, from: v.treadDepth - to, to: v.treadDepth - from };
  const rounded = section.ends[lowEnd(v)].legs.length === 0 ? cornerMm(v) : 0;
  return { panel: 'tread', edge: side, from: from - rounded, to: to - rounded };
}

/**
 * Outline of a cheek: from the low end of the fold to its high end, down the high end, along the
 * floor, and up the low end where there is one. Within the bend of the fold an end slants from the
 * fold's own end to where the riser stands.
 */
function outlineOf(v: HeelRest, section: Section, from: number, to: number): CheekPoint[] {
  const floorAt = (along: number): CheekPoint => [along, downToFloor(v, section, along)];
  const kink = setback90Mm(v) / 2;
  const end = (place: Place): CheekPoint[] => {
    const line = endLine(v, section.ends[place], place);
    return [
      [line.at(kink), kink],
      floorAt(line.onFloor((along) => downToFloor(v, section, along))),
    ];
  };
  const low = v.lift > 0 ? end(lowEnd(v)).reverse() : [floorAt(from)];
  return [[from, 0], [to, 0], ...end(highEnd(v)), ...low];
}

/**
 * The line on which a cheek ends at a riser. It lies on the riser's outside face, so that the cheek
 * is cut together with the riser's own end. Where the stop is folded double and the riser stands
 * clear of the tread, it lies a gap before the riser's inside face.
 */
function endLine(v: HeelRest, { setbackMm, standing }: End, place: Place) {
  const { downDeg, out, up } = standing as Standing;
  // A riser that leans in comes nearest to the upper face of the cheek's flange.
  const lean = v.cheekFlange > 0 ? Math.max(0, v.thicknessMm * cosDeg(v.riserAngle)) : 0;
  const outwards = lipAt(v, place) === 'double' ? -v.cornerGapMm - lean : v.thicknessMm;
  const cot = cosDeg(downDeg) / sinDeg(downDeg);
  const reach = (down: number): number =>
    out - setbackMm + outwards / sinDeg(downDeg) + (down - (v.thicknessMm - up)) * cot;
  const sign = place === highEnd(v) ? 1 : -1;
  const base = sign === 1 ? v.treadDepth : 0;
  /** Place along the tread at a depth `down` below its upper face. */
  const at = (down: number): number => base + sign * reach(down);
  return {
    at,
    /**
     * Place where the line meets the floor. Depth grows in proportion along the tread, so two
     * depths are enough.
     */
    onFloor: (depth: (along: number) => number): number =>
      (at(0) + sign * cot * depth(0)) / (1 - sign * cot * (depth(1) - depth(0))),
  };
}
