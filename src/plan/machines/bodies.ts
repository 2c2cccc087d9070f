import { BoxGrid, spot } from '../../geometry/box-grid.ts';
import { inset, keepLeft, overlap, polygonArea } from '../../geometry/convex-polygon.ts';
import { type Extents, pointExtents } from '../../geometry/extents.ts';
import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';
import {
  add,
  along,
  cross,
  distance,
  middle,
  scale,
  sub,
  unit,
  type Vec2,
} from '../../geometry/vec2.ts';
import type { Section } from '../../model/machine.ts';
import type { Body } from './stroke-rules.ts';

/**
 * The bodies of a machine less the contact gap, but with none taken off where one piece of a body
 * continues in the next.
 *
 * @param among the pieces of the whole body, where it is more than these
 * @param gapMm the contact gap, where more than the usual one is let spring aside
 */
export const bodiesOf = (
  pieces: readonly Section[],
  among: readonly Section[] = pieces,
  gapMm = CONTACT_GAP_MM,
): readonly Body[] => {
  const grid = new BoxGrid(among.map(boxOf));
  return pieces.flatMap((piece) => {
    const others = grid
      .near(boxOf(piece), 2 * SEAM_MM)
      .flatMap((i) => (among[i] === piece ? [] : [among[i] as Section]));
    const parts = splitAtSeams(piece, others);
    return parts.map((part) => ({
      whole: part,
      lessGap: inset(part, (from, to) =>
        [...others, ...parts].some((other) => other !== part && lieOn(from, to, other))
          ? -SEAM_MM
          : gapMm,
      ),
    }));
  });
};

/** A piece without corners has no edge that others could lie along. */
const boxOf = (piece: Section): Extents => pointExtents(piece) ?? spot([0, 0]);

/** Pieces reach this far into each other, so that nothing slips between them, mm. */
const SEAM_MM = 1e-3;

/** Whether the outside of an edge, at its middle, lies in another piece. */
const lieOn = (from: Vec2, to: Vec2, other: Section): boolean => {
  const p = add(middle(from, to), scale(outOf(from, to), SEAM_MM));
  return overlap(other, [p, add(p, [SEAM_MM / 10, 0]), add(p, [0, SEAM_MM / 10])]);
};

/** The direction out of a piece that runs counter-clockwise, square to one of its edges. */
const outOf = (from: Vec2, to: Vec2): Vec2 => {
  const dir = unit(sub(to, from));
  return [dir[1], -dir[0]];
};

const counterClockwise = (piece: Section): Section =>
  polygonArea(piece) < 0 ? piece.toReversed() : piece;

/**
 * A piece cut across wherever another one begins or ends along one of its edges, so that every edge
 * is either a seam along all of its length or nowhere.
 */
function splitAtSeams(given: Section, others: readonly Section[]): readonly Section[] {
  const piece = counterClockwise(given);
  for (let i = 0; i < piece.length; i++) {
    const [from, to] = [piece[i] as Vec2, piece[(i + 1) % piece.length] as Vec2];
    const at = others
      .flatMap((other) => coveredBy(counterClockwise(other), from, to))
      .find((mm) => mm > 2 * SEAM_MM && mm < distance(from, to) - 2 * SEAM_MM);
    if (at === undefined) continue;
    const p = along(from, unit(sub(to, from)), at);
    const across = outOf(from, to);
    return [across, scale(across, -1)].flatMap((dir) =>
      splitAtSeams(keepLeft(piece, p, dir), others),
    );
  }
  return [piece];
}

/** The two ends of the stretch of an edge that another piece covers, mm along it; or none. */
function coveredBy(other: Section, from: Vec2, to: Vec2): readonly number[] {
  const dir = unit(sub(to, from));
  const start = add(from, scale(outOf(from, to), SEAM_MM));
  let [low, high] = [0, distance(from, to)];
  other.forEach((a, i) => {
    const side = unit(sub(other[(i + 1) % other.length] as Vec2, a));
    // Left of this edge of the other piece the offset from it is 0 or more.
    const [offset, slope] = [cross(side, sub(start, a)), cross(side, dir)];
    if (slope > 0) low = Math.max(low, -offset / slope);
    else if (slope < 0) high = Math.min(high, -offset / slope);
    else if (offset < 0) high = -Infinity;
  });
  return high - low > SEAM_MM ? [low, high] : [];
}
