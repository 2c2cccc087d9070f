import { bulgeOf } from '../geometry/arc.ts';
import { loopExtents } from '../geometry/extents.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { moveLoop, shift } from '../geometry/motion2.ts';
import { posePoint } from '../geometry/pose.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { SAME_DIRECTION, SAME_POINT_MM } from '../geometry/tolerance.ts';
import { along, cross, distance, dot, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { along3 } from '../geometry/vec3.ts';
import type { CommonValues } from '../forms/common.ts';
import type { Body } from './body.ts';
import { PLACE } from './figures.ts';
import { type Fitted, type Fitting, gapOf } from './fits.ts';
import { largestThatWorks } from './room.ts';
import { type Joint, type Line, lineOf, meeting, type Opening } from './opening.ts';
import { openingAt } from './section.ts';
import { NONE_BACKWARDS } from './shape.ts';
import { insideOfOutside, type Skirt, skirtsOf } from './skirts.ts';

const INSET = { kind: 'length', least: 0, most: 10_000 } as const;
/** Set in so far, or standing out. */
const COVER_GAP = { ...PLACE, least: -1000, most: 1000 } as const;

/**
 * The base of a cheek that closes an open side of a piece. `closes`: it stands between the panels
 * that end there, a gap inside their inside faces and bends, its outside so far in as `inset` says.
 * `covers`: it lies against their cut edges, a gap inside their outside faces. Across the open side
 * its edge runs straight from the end of one panel to that of the other.
 */
export function cheek(fitting: Fitting, panel: string, edge: string): Fitted | undefined {
  const { figures, fits, at, own, values, other } = fitting;
  const key = fits.closes === undefined ? 'covers' : 'closes';
  const between = key === 'closes';
  const gapMm = gapOf(fitting, between ? undefined : COVER_GAP);
  const insetMm = fits.inset === undefined ? 0 : figures.read(fits.inset, `${at}fits.inset`, INSET);
  const skirts = skirtsOf(own, at, figures, values);
  if (gapMm === undefined || insetMm === undefined || skirts === undefined) return undefined;
  if (!between && fits.inset !== undefined)
    return figures.problem(
      `${at}fits.inset`,
      fits.inset,
      'nothing beside covers, which lies against the edges',
      'leave it out, or write closes',
    );
  const found = openingAt(other.body, panel, edge);
  if (found === undefined) return nothingOpen(fitting, key, panel, edge);
  const depths = between ? [insetMm, insetMm + values.thicknessMm] : [0];
  const shapeWith = (gap: number): Loop | undefined =>
    outlineOf(found, { face: between ? 'inside' : 'outside', gap, depths, skirts }, values);
  const outline = shapeWith(gapMm);
  if (outline === undefined) {
    const room =
      gapMm > 0 ? largestThatWorks(gapMm, (gap) => shapeWith(gap) !== undefined) : undefined;
    return room === undefined
      ? nothingOpen(fitting, key, panel, edge)
      : figures.problem(
          `${at}fits.gap`,
          fits.gap,
          `at most ${room} mm: more leaves nothing of what closes ${other.name} at ${edge} of ${panel}`,
        );
  }
  const { minX, minY } = loopExtents(outline) ?? { minX: 0, minY: 0 };
  const { frame } = found;
  const depth = between ? -(insetMm + values.thicknessMm) : 0;
  return {
    shape: {
      id: own.base.name ?? 'base',
      outline: moveLoop(shift(-minX, -minY), outline),
      backwards: NONE_BACKWARDS,
      isPlain: false,
    },
    ridesMm: 0,
    ...(between && { insetMm }),
    poseOf: () => ({ ...frame, o: along3(posePoint(frame, [minX, minY, 0]), frame.z, depth) }),
  };
}

/** What may be closed, where the edge that was named is no way in. */
const nothingOpen = (
  { figures, fits, at, other }: Fitting,
  key: 'closes' | 'covers',
  panel: string,
  edge: string,
): undefined => {
  const open = openEdges(other.body).filter((name) => name !== `${panel} ${edge}`);
  return figures.problem(
    `${at}fits.${key}`,
    fits[key],
    open.length === 0
      ? `a free edge of ${other.name} in whose plane, square to its panel, other panels end too; it has none`
      : `a free edge of ${other.name} in whose plane, square to its panel, other panels end too: ${open.slice(0, 8).join(', ')}`,
    `nothing is open at ${edge} of ${panel}`,
  );
};

/** Free edges at which a piece can be closed, as they are written. */
const openEdges = (body: Body): string[] =>
  body.panels.flatMap(({ id, panel }) =>
    panel.outline.flatMap(({ edge, bulge }) =>
      edge === undefined || bulge !== 0 || openingAt(body, id, edge) === undefined
        ? []
        : [`${id} ${edge}`],
    ),
  );

interface Cut {
  readonly face: 'inside' | 'outside';
  readonly gap: number;
  /** How far behind the plane it is to pass, mm: its two faces. */
  readonly depths: readonly number[];
  readonly skirts: readonly Skirt[];
}

/** A corner of the outline before it is rounded, and the edge that begins there. */
interface Corner {
  readonly at: Vec2;
  readonly radius: number;
  readonly edge: string;
}

function outlineOf(opening: Opening, cut: Cut, values: CommonValues): Loop | undefined {
  const { sides, joints } = opening;
  const names = namesOf(opening);
  const lines = sides.map((side, i): Line => {
    const skirt = cut.skirts.find(({ edge }) => edge === names[i]);
    const inMm = cut.gap + (skirt === undefined ? 0 : insideOfOutside(skirt, values));
    const [first, ...rest] = cut.depths.map((depth) => lineOf(side, cut.face, inMm, depth));
    // Where a panel leans in, the tighter of the two faces says how much room there is.
    return rest.reduce(
      (best, line) => (dot(sub(line.from, best.from), side.inward) > 0 ? line : best),
      first as Line,
    );
  });
  const corners = joints.map((joint, i): readonly Corner[] | undefined => {
    const [line, next] = [lines[i], lines[(i + 1) % lines.length]];
    const name = names[(i + 1) % names.length] ?? '';
    if (line === undefined || next === undefined) return undefined;
    if (joint.kind === 'open') {
      const raw = [sides[i], sides[(i + 1) % sides.length]].map((side) => side?.[cut.face]);
      return acrossOpening(line, next, raw as [Line, Line], cut.gap, name);
    }
    const at = meeting(line, next);
    return at === undefined
      ? undefined
      : [{ at, radius: radiusAt(joint, line, next, cut, values), edge: name }];
  });
  return corners.includes(undefined)
    ? undefined
    : rounded((corners as (readonly Corner[])[]).flat(), lines, names);
}

/** The named side is at the bottom, the others are called after their panels. */
const namesOf = ({ sides }: Opening): string[] => {
  const names: string[] = [];
  for (const [i, { panel }] of sides.entries()) {
    const name = i === 0 ? 'bottom' : panel.replace(/\s+/g, '-');
    names.push(names.includes(name) || name === OPEN ? `${name}-${i + 1}` : name);
  }
  return names;
};

const OPEN = 'open';

/**
 * The edge across the open side runs from the end of one panel's face to that of the other. Where it
 * goes on in line with a panel it is set in as that one is.
 */
const acrossOpening = (
  line: Line,
  next: Line,
  [one, other]: readonly [Line, Line],
  gap: number,
  name: string,
): readonly Corner[] | undefined => {
  const span: Line = { from: one.to, to: other.from };
  if (distance(span.from, span.to) < SAME_POINT_MM) {
    const at = meeting(line, next);
    return at === undefined ? undefined : [{ at, radius: 0, edge: name }];
  }
  const dir = unit(sub(span.to, span.from));
  const goesOn = [line, next].map(
    (l) => Math.abs(cross(unit(sub(l.to, l.from)), dir)) < SAME_DIRECTION,
  );
  const inward: Vec2 = [-dir[1], dir[0]];
  const by = goesOn.includes(true) ? gap : 0;
  const closing: Line = { from: along(span.from, inward, by), to: along(span.to, inward, by) };
  const [start, end] = [
    goesOn[0] === true ? closing.from : meeting(line, closing),
    goesOn[1] === true ? closing.to : meeting(closing, next),
  ];
  return start === undefined || end === undefined
    ? undefined
    : [
        { at: start, radius: 0, edge: OPEN },
        { at: end, radius: 0, edge: name },
      ];
};

/** A bend that is gone round on its inside leaves a corner of its inside radius, less the gap. */
const radiusAt = (
  joint: Joint,
  line: Line,
  next: Line,
  { face, gap }: Cut,
  { thicknessMm }: CommonValues,
): number => {
  if (joint.kind !== 'bend' || joint.fold.midSurface === true) return 0;
  const turn = cross(sub(line.to, line.from), sub(next.to, next.from));
  const { insideRadiusMm } = joint.fold;
  const isNear = turn > 0 === (face === 'inside');
  const radius =
    (isNear ? insideRadiusMm : insideRadiusMm + thicknessMm) / Math.max(joint.square, 0.2);
  return Math.max(0, turn > 0 ? radius - gap : radius + gap);
};

/**
 * The outline with its corners as arcs; nothing where a side has no room left. An arc of radius r in
 * a corner that turns by w begins r tan(w / 2) before the corner.
 */
const rounded = (
  corners: readonly Corner[],
  lines: readonly Line[],
  names: readonly string[],
): Loop | undefined => {
  const n = corners.length;
  const directions = corners.map(({ at }, i) => {
    const to = corners[(i + 1) % n]?.at ?? at;
    return distance(at, to) < SAME_POINT_MM ? undefined : unit(sub(to, at));
  });
  const made: Vertex[] = [];
  for (const [i, { at, radius, edge }] of corners.entries()) {
    const [before, after] = [directions.at(i - 1), directions[i]];
    if (before === undefined || after === undefined) return undefined;
    // A side that has come to run the other way has no length left.
    const line = lines[names.indexOf(edge)];
    if (line !== undefined && dot(sub(line.to, line.from), after) <= 0) return undefined;
    const turn = Math.atan2(cross(before, after), dot(before, after));
    const back = radius * Math.abs(Math.tan(turn / 2));
    if (back < SAME_POINT_MM) made.push({ x: at[0], y: at[1], bulge: 0, edge });
    else {
      const [start, end] = [along(at, before, -back), along(at, after, back)];
      made.push({ x: start[0], y: start[1], bulge: bulgeOf(turn) });
      made.push({ x: end[0], y: end[1], bulge: 0, edge });
    }
  }
  return isSound(made, corners) ? startingAt(made, names[0] ?? '') : undefined;
};

/** No arc took more of a side than there is, and the outline has an inside. */
const isSound = (loop: Loop, corners: readonly Corner[]): boolean => {
  const straight = loop.flatMap((vertex, i) =>
    vertex.bulge === 0 ? [{ vertex, next: loop[(i + 1) % loop.length] as Vertex }] : [],
  );
  const runsOn = straight.every(({ vertex, next }, k) => {
    const [a, b] = [corners[k], corners[(k + 1) % corners.length]] as [Corner, Corner];
    return dot([next.x - vertex.x, next.y - vertex.y], sub(b.at, a.at)) > 0;
  });
  return runsOn && signedArea(loop) > 0 && selfCrossing(loop) === undefined;
};

const startingAt = (loop: Loop, edge: string): Loop => {
  const i = loop.findIndex((vertex) => vertex.edge === edge);
  return i < 0 ? loop : [...loop.slice(i), ...loop.slice(0, i)];
};
