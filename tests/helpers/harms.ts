import { type Loop, type Vertex, vertexAt } from '../../src/geometry/loop.ts';
import {
  endDirection,
  partBulge,
  pieceOf,
  pointOn,
  startDirection,
} from '../../src/geometry/piece.ts';
import { pieceLength } from '../../src/geometry/piece-length.ts';
import { add, along, distance, leftOf, sub, unit, type Vec2 } from '../../src/geometry/vec2.ts';
import { mappedShape, type Saving, type Shape } from './saved-dxf.ts';

/** A file after something went wrong with it. */
export interface Harmed {
  readonly shapes: readonly Shape[];
  readonly how: Saving;
}

/**
 * A fault that another program makes in a file, and the rules by which the proof tells it; at least
 * one of them applies.
 */
export interface Harm {
  readonly name: string;
  readonly told: readonly string[];
  /**
   * Applies the fault; `pick` chooses among the places for it, and the result is undefined where
   * there is none.
   */
  readonly apply: (file: Harmed, pick: number) => Harmed | undefined;
}

const HOLES = ['HOLES', 'CUT'];
const isFold = ({ layer }: Shape): boolean => layer.startsWith('FOLD-');
/**
 * Whether a shape is a hole. The outline is the largest loop of its layer; a round blank's is a
 * circle.
 */
const isHole = ({ layer }: Shape): boolean => HOLES.includes(layer);

/** Changes one of the suitable shapes into others, or none. */
const one =
  (can: (s: Shape) => boolean, change: (s: Shape) => readonly Shape[]) =>
  ({ shapes, how }: Harmed, pick: number): Harmed | undefined => {
    const all = shapes.flatMap((s, i) => (can(s) ? [i] : []));
    const chosen = all[pick % all.length];
    return chosen === undefined
      ? undefined
      : { how, shapes: shapes.flatMap((s, i) => (i === chosen ? change(s) : [s])) };
  };

const all =
  (can: (s: Shape) => boolean, change: (s: Shape) => readonly Shape[]) =>
  ({ shapes, how }: Harmed): Harmed | undefined =>
    shapes.some(can)
      ? { how, shapes: shapes.flatMap((s) => (can(s) ? change(s) : [s])) }
      : undefined;

const moved = (s: Shape, by: Vec2): Shape => {
  if (s.kind === 'loop')
    return { ...s, loop: s.loop.map((v) => ({ ...v, x: v.x + by[0], y: v.y + by[1] })) };
  return s.kind === 'circle' ? { ...s, centre: add(s.centre, by) } : s;
};

const withVertex = (loop: Loop, i: number, by: Vec2): Loop =>
  loop.map((v, k): Vertex => (k === i ? { ...v, x: v.x + by[0], y: v.y + by[1] } : v));

/**
 * Direction square to the loop at a corner, so that a point moved that way leaves the line even
 * where two pieces lie in one.
 */
const asideAt = (loop: Loop, i: number): Vec2 =>
  unit(leftOf(add(endDirection(pieceOf(loop, i - 1)), startDirection(pieceOf(loop, i)))));

const scaledBy = ([x, y]: Vec2, by: number): Vec2 => [by * x, by * y];

/** Every length so many times longer, in the same unit. */
const scaledHarm = (by: number): Harm => ({
  name: `scaled by ${by > 1 ? by : '1/25.4'}`,
  told: ['file-scaled'],
  apply: all(
    () => true,
    (s) => [mappedShape(s, ([x, y]) => [by * x, by * y], 1, by)],
  ),
});

const isFoldLine = (s: Shape): boolean => isFold(s) && s.kind === 'line';

/** A line with its ends moved aside, mm. */
const shiftedLine = (s: Shape, start: number, end: number): Shape => {
  if (s.kind !== 'line') return s;
  const aside = unit(leftOf(sub(s.to, s.from)));
  return { ...s, from: along(s.from, aside, start), to: along(s.to, aside, end) };
};

/** Both ends of a side moved out, so that its neighbours are longer. */
const withSide = (loop: Loop, i: number, by: number): Loop => {
  const out = scaledBy(unit(leftOf(startDirection(pieceOf(loop, i)))), -by);
  return withVertex(withVertex(loop, i, out), (i + 1) % loop.length, out);
};

/** The longest side once more, as a line of its own. */
const sideOf = (s: Shape, loop: Loop): Shape => {
  const lengths = loop.map((_, i) => pieceLength(pieceOf(loop, i)));
  const side = lengths.indexOf(Math.max(...lengths));
  const [from, to] = [vertexAt(loop, side), vertexAt(loop, side + 1)];
  return { kind: 'loop', layer: s.layer, isOpen: true, loop: [from, { ...to, bulge: 0 }] };
};

/** How far the deepest arc of a loop leaves its chord, mm. */
const deepest = (loop: Loop): number => Math.max(...loop.map((_, i) => depth(loop, i)));
const depth = (loop: Loop, i: number): number => {
  const { from, to, bulge } = pieceOf(loop, i);
  return (Math.abs(bulge) * distance(from, to)) / 2;
};
const straightened = (loop: Loop): Loop => {
  const most = loop.findIndex((_, i) => depth(loop, i) === deepest(loop));
  return loop.map((v, i) => (i === most ? { ...v, bulge: 0 } : v));
};

const isOutlineLoop = (s: Shape): boolean => s.layer === 'OUTLINE' && s.kind === 'loop';

/**
 * The loop as an open line that ends before it comes back to its start: its longest side is the
 * last one.
 */
const opened = (s: Shape, end: (loop: Loop) => Loop): Shape[] => {
  if (s.kind !== 'loop') return [s];
  const lengths = s.loop.map((_, i) => distance(pieceOf(s.loop, i).from, pieceOf(s.loop, i).to));
  const longest = lengths.indexOf(Math.max(...lengths));
  return [
    {
      ...s,
      loop: end([...s.loop.slice(longest + 1), ...s.loop.slice(0, longest + 1)]),
      isOpen: true,
    },
  ];
};

/** The last side ends a fifth of a millimetre before the first corner. */
const endingShort = (loop: Loop): Loop => {
  const last = pieceOf(loop, loop.length - 1);
  const share = 1 - 0.2 / pieceLength(last);
  const [x, y] = pointOn(last, share);
  return [
    ...loop.slice(0, -1),
    { ...vertexAt(loop, -1), bulge: partBulge(last.bulge, 0, share) },
    { x, y, bulge: 0 },
  ];
};

export const HARMS: readonly Harm[] = [
  { name: 'a hole lost', told: ['contour-lost'], apply: one(isHole, () => []) },
  {
    name: 'a hole invisible',
    told: ['lines-hidden'],
    apply: one(isHole, (s) => [{ ...s, look: 'invisible' }]),
  },
  {
    name: 'a hole on paper',
    told: ['lines-on-paper'],
    apply: one(isHole, (s) => [{ ...s, look: 'paper' }]),
  },
  {
    name: 'holes off',
    told: ['lines-hidden'],
    apply: ({ shapes, how }) =>
      shapes.some(isHole) ? { shapes, how: { ...how, off: ['Holes'] } } : undefined,
  },
  {
    name: 'holes frozen',
    told: ['lines-hidden'],
    apply: ({ shapes, how }) =>
      shapes.some(isHole) ? { shapes, how: { ...how, frozen: ['holes'] } } : undefined,
  },
  {
    name: 'another unit',
    told: ['file-scaled'],
    apply: ({ shapes, how }, pick) => otherUnit(shapes, how, pick),
  },
  {
    name: 'no unit',
    told: ['unit-lost'],
    apply: ({ shapes, how }) => ({ shapes, how: { ...how, unit: undefined } }),
  },
  {
    name: 'an unknown unit',
    told: ['unit-lost'],
    apply: ({ shapes, how }) => ({ shapes, how: { ...how, unit: { code: 77, perMm: 1 } } }),
  },
  { name: 'fold lines lost', told: ['fold-line-lost'], apply: all(isFold, () => []) },
  { name: 'a fold line lost', told: ['fold-line-lost'], apply: one(isFold, () => []) },
  {
    name: 'fold lines on another layer',
    told: ['strange-layer'],
    apply: all(isFold, (s) => [{ ...s, layer: 'Layer 1' }]),
  },
  {
    name: 'a fold turned',
    told: ['fold-turned'],
    apply: one(isFold, (s) => [{ ...s, layer: s.layer === 'FOLD-UP' ? 'FOLD-DOWN' : 'FOLD-UP' }]),
  },
  {
    name: 'an outline not closed',
    told: ['contour-open'],
    apply: one(isOutlineLoop, (s) => opened(s, (loop) => loop)),
  },
  {
    name: 'an outline with a gap',
    told: ['contour-open'],
    apply: one(isOutlineLoop, (s) => opened(s, endingShort)),
  },
  {
    name: 'a hole not closed',
    told: ['contour-open'],
    apply: one(
      (s) => isHole(s) && s.kind === 'loop' && s.loop.length > 2,
      (s) => opened(s, (loop) => loop),
    ),
  },
  {
    name: 'a corner moved',
    told: ['proof-failed'],
    apply: (file, pick) =>
      one(isOutlineLoop, (s) =>
        s.kind === 'loop'
          ? [
              {
                ...s,
                loop: withVertex(
                  s.loop,
                  pick % s.loop.length,
                  scaledBy(asideAt(s.loop, pick % s.loop.length), 0.1),
                ),
              },
            ]
          : [s],
      )(file, 0),
  },
  {
    name: 'a hole moved',
    told: ['proof-failed', 'contour-lost'],
    apply: (file, pick) => {
      const [c, si] = [Math.cos(pick), Math.sin(pick)];
      return one(isHole, (s) => [moved(s, [0.2 * c, 0.2 * si])])(file, pick);
    },
  },
  {
    name: 'a hole wider',
    told: ['proof-failed', 'contour-lost'],
    apply: one(
      (s) => isHole(s) && s.kind === 'circle',
      (s) => [s.kind === 'circle' ? { ...s, radius: s.radius + 0.05 } : s],
    ),
  },
  {
    name: 'a hole twice, one beside the other',
    told: ['contour-stray'],
    apply: one(isHole, (s) => [s, moved(s, [0.3, 0.1])]),
  },
  {
    name: 'a side moved out',
    told: ['proof-failed'],
    apply: (file, pick) =>
      one(isOutlineLoop, (s) =>
        s.kind === 'loop' ? [{ ...s, loop: withSide(s.loop, pick % s.loop.length, 0.5) }] : [s],
      )(file, 0),
  },
  {
    name: 'a side drawn twice',
    told: ['contour-doubled'],
    apply: one(isOutlineLoop, (s) => (s.kind === 'loop' ? [s, sideOf(s, s.loop)] : [s])),
  },
  {
    name: 'an arc straight',
    told: ['proof-failed'],
    apply: one(
      (s) => isOutlineLoop(s) && s.kind === 'loop' && deepest(s.loop) > 0.1,
      (s) => (s.kind === 'loop' ? [{ ...s, loop: straightened(s.loop) }] : [s]),
    ),
  },
  {
    name: 'a fold line moved',
    told: ['proof-failed', 'fold-line-lost', 'fold-lines-cross'],
    apply: one(isFoldLine, (s) => [shiftedLine(s, 0.5, 0.5)]),
  },
  {
    name: 'a fold line askew',
    told: ['proof-failed', 'fold-line-lost', 'fold-lines-cross'],
    apply: one(isFoldLine, (s) => [shiftedLine(s, 0.6, -0.6)]),
  },
  {
    name: 'mirrored',
    told: ['file-mirrored'],
    apply: all(
      () => true,
      (s) => [mappedShape(s, ([x, y]) => [-x, y], -1, 1)],
    ),
  },
  ...[1.003, 1.01, 25.4, 1 / 25.4].map((by) => scaledHarm(by)),
  {
    name: 'inches without a header',
    told: ['file-scaled'],
    apply: (file, pick) => {
      const scaled = scaledHarm(1 / 25.4).apply(file, pick);
      return scaled && { ...scaled, how: { ...scaled.how, unit: undefined } };
    },
  },
  {
    name: 'a contour drawn twice',
    told: ['contour-doubled'],
    apply: one(
      (s) => isHole(s) || s.layer === 'OUTLINE',
      (s) => [s, s],
    ),
  },
];

/** Codes of `$INSUNITS` other than those for millimetres and for none. */
const OTHER_UNITS = [
  1, 2, 3, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24,
];

const otherUnit = (shapes: readonly Shape[], how: Saving, pick: number): Harmed => ({
  shapes,
  how: { ...how, unit: { code: OTHER_UNITS[pick % OTHER_UNITS.length] as number, perMm: 1 } },
});
