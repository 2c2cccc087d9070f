import { figure } from '../text/figures.ts';
import { PointIndex } from '../dxf/contours/point-index.ts';
import type { Stroke } from '../dxf/read/explode.ts';
import { printable } from '../dxf/read/printable.ts';
import { pieceLength } from '../geometry/piece-length.ts';
import { type Finding, note, stop, warn } from '../model/finding.ts';
import type { CutLines } from './lines.ts';
import { listed } from './listed.ts';
import type { Meeting } from './meetings.ts';
import { NEARLY_MM, type Nested } from './nesting.ts';
import type { Places } from './places.ts';
import type { Doubles } from './shared-edges.ts';
import type { CutPiece } from './understand.ts';

/** Cut lines that cross, or that end on one another; each place is reported once. */
export const crossingFindings = (
  { drawn, strays, meetings: { meetings } }: CutLines,
  { needless }: Doubles,
  { twins }: Nested,
  place: Places,
): Finding[] => {
  const left = new Set(strays.flatMap((chain) => chain.map((p) => p.source)));
  const isTwin = twinsOf(twins);
  const told = atPlaces(
    meetings.filter(({ a, b }) => {
      const gone = (i: number): boolean =>
        left.has(i) || needless.get(i)?.some((s) => s.from === 0 && s.to === 1) === true;
      return !gone(a) && !gone(b) && !isTwin(drawn[a] as CutPiece, drawn[b] as CutPiece);
    }),
  );
  const crossing = told
    .filter((m) => m.kind === 'cross')
    .map(({ at }): Finding => ({
      ...stop(
        'crossing',
        `Lines cross at ${place(at)}. Trim them: a contour must not cross itself or another.`,
      ),
      at,
    }));
  const touching = told
    .filter((m) => m.kind === 'touch')
    .map(({ at }): Finding => ({
      ...warn(
        'touching',
        `A line ends on another at ${place(at)}, away from its ends. Trim or split them.`,
      ),
      at,
    }));
  return [...listed(crossing), ...listed(touching)];
};

/**
 * Each place once, even where more than two lines meet; a crossing counts for more than a touch.
 */
const atPlaces = (meetings: readonly Meeting[]): Meeting[] => {
  const index = new PointIndex(SAME_PLACE_MM);
  return meetings
    .toSorted((a, b) => Number(a.kind === 'touch') - Number(b.kind === 'touch'))
    .filter(({ at }) => {
      if (index.near(at).length > 0) return false;
      index.add(at);
      return true;
    });
};

const SAME_PLACE_MM = 0.02;

/** Whether two pieces belong to two contours that are nearly one. */
const twinsOf = (twins: Nested['twins']): ((a: CutPiece, b: CutPiece) => boolean) => {
  const pairs = new Map<number, number>();
  twins.forEach(({ chain, of }, i) => {
    for (const p of chain) pairs.set(p.source, i);
    for (const p of of.chain) pairs.set(p.source, i);
  });
  return (a, b) => pairs.has(a.source) && pairs.get(a.source) === pairs.get(b.source);
};

/**
 * Pieces that are too short to be intended. The pieces that a curve was turned into here do not
 * count.
 */
export const shortFindings = (
  { drawn, empty }: CutLines,
  strokes: readonly Stroke[],
  shortMm: number,
  place: Places,
): Finding[] => {
  const curves = new Set(strokes.filter((s) => s.primitive.kind !== 'piece').map((s) => s.entity));
  const short = [
    ...empty,
    ...drawn.filter((p) => pieceLength(p) < shortMm && !curves.has(p.entity)),
  ];
  return listed(
    short.map((p): Finding => ({
      ...warn(
        'short-piece',
        `A piece of ${figure(pieceLength(p), 3)} mm at ${place(p.from)} on layer '${printable(p.layer)}' is shorter than ${figure(shortMm, 3)} mm. Delete it and join its neighbours.`,
      ),
      at: p.from,
    })),
  );
};

/** Contours within holes, contours that are nearly one, and several parts. */
export const nestingFindings = ({ contours, twins }: Nested, place: Places): Finding[] => {
  const deep = contours
    .filter((c) => c.depth >= 2)
    .map(({ chain, depth }): Finding => {
      const at = (chain[0] as CutPiece).from;
      return {
        ...warn(
          'contour-in-hole',
          `A contour at ${place(at)} lies in a hole, ${depth} contours deep: a part in the scrap, or a mistake. Check it; move it out if it is to be kept.`,
        ),
        at,
      };
    });
  const near = twins.map(({ chain }): Finding => {
    const at = (chain[0] as CutPiece).from;
    return {
      ...warn(
        'nearly-double',
        `Two contours at ${place(at)} are nearly one, nowhere more than ${NEARLY_MM} mm apart: drawn twice, not quite alike. Delete one of them.`,
      ),
      at,
    };
  });
  const parts = contours.filter((c) => c.depth === 0).length;
  return [
    ...listed(deep),
    ...listed(near),
    ...(parts > 1
      ? [note('several-parts', `${parts} parts lie beside one another in the file.`)]
      : []),
  ];
};
