import type { Loop, Vertex } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { movedFormed } from './formed.ts';
import type { Cutout, FoldSide, Panel, Part } from './part.ts';
import type { Rolled } from './rolled.ts';
import { mirrorWish } from './wish.ts';

/**
 * The other hand: the mirror image of the part in the plane x = 0 of every panel. Folds keep their
 * directions and angles; outlines stay counter-clockwise, so their pieces come in the opposite
 * order.
 */
export const mirrorPart = (part: Part): Part => {
  const panels = new Map(part.panels.map((p) => [p.id, p]));
  const side = (s: FoldSide): FoldSide => mirrorSide(s, panels.get(s.panel));
  return {
    ...part,
    panels: part.panels.map(mirrorPanel),
    folds: part.folds.map((f) => ({ ...f, parent: side(f.parent), child: side(f.child) })),
    ...(part.wishes !== undefined && { wishes: part.wishes.map(mirrorWish) }),
    ...(part.rolled !== undefined && { rolled: mirrorRolled(part.rolled) }),
  };
};

/** A line that is turned round has what was on its left there again. */
const mirrorRolled = (rolled: Rolled): Rolled => {
  const mirrored = <L extends { readonly from: Vec2; readonly to: Vec2 }>(line: L): L => ({
    ...line,
    from: mirrorPoint(line.to),
    to: mirrorPoint(line.from),
  });
  return { ...rolled, lines: rolled.lines.map(mirrored), marks: rolled.marks.map(mirrored) };
};

const mirrorPanel = (panel: Panel): Panel => ({
  id: panel.id,
  outline: mirrorLoop(panel.outline),
  cutouts: panel.cutouts.map(mirrorCutout),
  ...(panel.formed !== undefined && {
    formed: panel.formed.map((formed) => movedFormed(formed, mirrorPoint)),
  }),
});

const mirrorCutout = (c: Cutout): Cutout => {
  const more = {
    ...(c.otherWay !== undefined && { otherWay: mirrorPoint(c.otherWay) }),
    ...(c.figures !== undefined && {
      figures: c.figures.map((f) => ({ ...f, towards: mirrorPoint(f.towards) })),
    }),
  };
  return c.kind === 'round'
    ? { ...c, centre: mirrorPoint(c.centre), ...more }
    : { ...c, loop: mirrorLoop(c.loop), ...more };
};

const mirrorPoint = ([x, y]: Vec2): Vec2 => [flip(x), y];

/** The coordinate with its sign changed; zero stays a positive zero. */
const flip = (x: number): number => (x === 0 ? 0 : -x);

/**
 * Piece i becomes piece n - 1 - i: it starts where the old one ended. Mirrored and walked the other
 * way an arc keeps its bulge.
 */
export const mirrorLoop = (loop: Loop): Loop => {
  const n = loop.length;
  return loop.map((_, j) => {
    const piece = pieceOf(loop, n - 1 - j);
    const { edge } = loop[n - 1 - j] as Vertex;
    return {
      x: flip(piece.to[0]),
      y: piece.to[1],
      bulge: piece.bulge,
      ...(edge !== undefined && { edge }),
    };
  });
};

/**
 * The stretch is now measured from the edge's other end. A side that lies on no edge stays as it
 * is, and `partFlaws` reports it.
 */
const mirrorSide = (side: FoldSide, panel: Panel | undefined): FoldSide => {
  if (panel?.outline[side.edge] === undefined) return side;
  const n = panel.outline.length;
  const edge = n - 1 - side.edge;
  if (side.from === undefined && side.to === undefined) return { ...side, edge };
  const piece = pieceOf(panel.outline, side.edge);
  const total = distance(piece.from, piece.to);
  return {
    ...side,
    edge,
    from: total - (side.to ?? total),
    to: total - (side.from ?? 0),
  };
};
