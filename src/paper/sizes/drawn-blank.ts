import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { type Extents, loopExtents } from '../../geometry/extents.ts';
import {
  compose,
  moveLoop,
  type Motion2,
  movePoint,
  moveVector,
  shift,
  STILL,
} from '../../geometry/motion2.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatCutout, FlatPattern } from '../../model/flat.ts';
import { movedFormed } from '../../model/formed.ts';
import type { Datum, DatumLine } from './datum.ts';

/**
 * A blank as a drawing with sizes lays it, and its datum: turned so that its datum lines run upright
 * and level, its lower left corner at the origin again.
 */
export interface DrawnBlank {
  readonly flat: FlatPattern;
  readonly datum: Datum;
  /** Takes a point of the cut file to the drawing. */
  readonly move: Motion2;
}

export const drawnBlank = (flat: FlatPattern, datum: Datum): DrawnBlank => {
  if (datum.turnDeg === 0) return { flat, datum, move: STILL };
  const turn: Motion2 = { c: cosDeg(datum.turnDeg), s: -sinDeg(datum.turnDeg), x: 0, y: 0 };
  const { minX, minY, maxX, maxY } = loopExtents(moveLoop(turn, flat.outline)) as Extents;
  const move = compose(shift(-minX, -minY), turn);
  return {
    flat: { ...movedFlat(flat, move), widthMm: maxX - minX, heightMm: maxY - minY },
    datum: { turnDeg: 0, x: movedLine(datum.x, move), y: movedLine(datum.y, move) },
    move,
  };
};

const movedFlat = (flat: FlatPattern, move: Motion2): FlatPattern => ({
  ...flat,
  outline: moveLoop(move, flat.outline),
  cutouts: flat.cutouts.map((hole): FlatCutout =>
    hole.kind === 'round'
      ? { ...hole, centre: movePoint(move, hole.centre) }
      : { ...hole, loop: moveLoop(move, hole.loop) },
  ),
  bends: flat.bends.map((bend): FlatBend => ({
    ...bend,
    parentTangent: movedEnds(bend.parentTangent, move),
    childTangent: movedEnds(bend.childTangent, move),
    centreLine: movedEnds(bend.centreLine, move),
  })),
  panels: flat.panels.map((p) => ({ ...p, placement: compose(move, p.placement) })),
  ...(flat.formed !== undefined && {
    formed: flat.formed.map((one) => movedFormed(one, (p) => movePoint(move, p))),
  }),
  ...(flat.rollMarks !== undefined && {
    rollMarks: flat.rollMarks.map((mark) => ({
      ...mark,
      from: movePoint(move, mark.from),
      to: movePoint(move, mark.to),
    })),
  }),
});

const movedEnds = ([a, b]: readonly [Vec2, Vec2], move: Motion2): [Vec2, Vec2] => [
  movePoint(move, a),
  movePoint(move, b),
];

const movedLine = (line: DatumLine, move: Motion2): DatumLine => ({
  ...line,
  at: movePoint(move, line.at),
  towards: moveVector(move, line.towards),
  ...(line.ends !== undefined && { ends: movedEnds(line.ends, move) }),
});
