import { add, cross, dot, leftOf, scale, signedArea, sub, unit } from '../../src/template.ts';
import type { GivenSection, Loop, Vec2 } from '../../src/template.ts';
import { type Bay, bayOf, type Diagonal, diagonalsOf, type SectionAt } from './surface.ts';

/** Measured sections, each counter-clockwise from its first corner. */
export const turnedRound = (given: readonly GivenSection[]): SectionAt[] =>
  given.map(({ atMm, corners }) => {
    const [first, ...others] = corners as [Vec2, ...Vec2[]];
    return {
      atMm,
      corners: signedArea(loopOf(corners)) < 0 ? [first, ...others.toReversed()] : corners,
    };
  });

export const loopOf = (corners: readonly Vec2[]): Loop =>
  corners.map(([x, y]) => ({ x, y, bulge: 0 }));

/** The corner after one, round a section. */
export const after = <T>(list: readonly T[], i: number): T => list[(i + 1) % list.length] as T;

/** How much a section turns at a corner, degrees; below 0 where it points inwards. */
export const cornerDeg = (corners: readonly Vec2[], i: number): number => {
  const at = corners[i] as Vec2;
  const [a, b] = [sub(at, corners.at(i - 1) as Vec2), sub(after(corners, i), at)];
  return (Math.atan2(cross(a, b), dot(a, b)) * 180) / Math.PI;
};

/** A side of a section: a place on it, and the way it runs. */
interface Line {
  readonly at: Vec2;
  readonly way: Vec2;
}

const linesOf = (corners: readonly Vec2[]): Line[] =>
  corners.map((at, i) => ({ at, way: unit(sub(after(corners, i), at)) }));

/** Corners at which lines meet, each that of a line and the one before it. */
const meetings = (lines: readonly Line[]): Vec2[] =>
  lines.map(({ at, way }, i) => {
    const before = lines.at(i - 1) as Line;
    const share = cross(sub(at, before.at), way) / cross(before.way, way);
    return add(before.at, scale(before.way, share));
  });

/** A section with each of its sides moved inwards by so much, mm. */
export const drawnIn = (corners: readonly Vec2[], inMm: readonly number[]): Vec2[] =>
  meetings(
    linesOf(corners).map(({ at, way }, i) => ({
      at: add(at, scale(leftOf(way), inMm[i] as number)),
      way,
    })),
  );

/**
 * What the ends of a side are moved at most where its directions at two sections are evened, mm: a
 * tape is no truer (common practice).
 */
export const EVEN_MM = 1;

/**
 * Sections of which each side runs as it does at the section before, turned about its middle, where
 * that moves its ends by less than a tape may be off: the wall between is then one flat sheet, and
 * not creased for a slip of the tape.
 */
export const evened = (sections: readonly SectionAt[]): SectionAt[] => {
  const made: SectionAt[] = sections.slice(0, 1);
  for (const section of sections.slice(1)) {
    const before = linesOf((made.at(-1) as SectionAt).corners);
    const lines = section.corners.map((at, i): Line => {
      const [to, { way }] = [after(section.corners, i), before[i] as Line];
      const own = sub(to, at);
      const offMm = Math.abs(cross(way, own)) / 2;
      return offMm < EVEN_MM && dot(way, own) > 0
        ? { at: add(at, scale(own, 1 / 2)), way }
        : { at, way: unit(own) };
    });
    made.push({ ...section, corners: meetings(lines) });
  }
  return made;
};

/** The bays between sections, walls that are warped creased this way. */
export const baysOf = (sections: readonly SectionAt[], crease: 'in' | 'out'): Bay[] =>
  between(sections, (near, far) => bayOf(near, far, diagonalsOf(near, far, crease)));

const between = <T>(
  sections: readonly SectionAt[],
  of: (near: SectionAt, far: SectionAt, i: number) => T,
): T[] => sections.slice(1).map((far, i) => of(sections[i] as SectionAt, far, i));

/**
 * The inside of sections that were measured, drawn in so far that the walls between them are that
 * much thicker: square to its sheet, where a wall leans along the stations, the more of the two
 * that meet at a section.
 */
export const insideOf = (
  sections: readonly SectionAt[],
  measured: readonly Bay[],
  inMm: number,
): SectionAt[] =>
  sections.map(({ atMm, corners }, k) => ({
    atMm,
    corners: drawnIn(
      corners,
      corners.map((_, side) => {
        const upright = [measured[k - 1], measured[k]].flatMap((bay, which) =>
          bay === undefined ? [] : [uprightAt(bay, side, which === 0 ? 'far' : 'near')],
        );
        return inMm / Math.min(...upright);
      }),
    ),
  }));

/** Share of a wall's normal that lies in a section: of the part of it that ends in a side there. */
const uprightAt = ({ facets }: Bay, side: number, end: 'near' | 'far'): number =>
  Math.min(
    ...facets
      .filter((facet) => facet.side === side && facet.entry[end] !== facet.exit[end])
      .map(({ plane }) => Math.hypot(plane.normal[1], plane.normal[2])),
  );

/** The same bays drawn through other sections, their warped walls creased along the same diagonals. */
export const baysThrough = (sections: readonly SectionAt[], like: readonly Bay[]): Bay[] =>
  between(sections, (near, far, i) =>
    bayOf(
      near,
      far,
      near.corners.map((_, side) => diagonalIn(like[i] as Bay, side)),
    ),
  );

const diagonalIn = ({ facets }: Bay, side: number): Diagonal | undefined => {
  const [one, other] = facets.filter((facet) => facet.side === side);
  if (one === undefined || other === undefined) return undefined;
  return one.entry.near === other.entry.near ? 'first' : 'last';
};
