import { loopExtents } from '../../geometry/extents.ts';
import { rectangle, type Vertex } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { DrawingItem } from '../../model/drawing.ts';
import { placesRound } from './cope.ts';
import type { HolePoint } from './header-hole.ts';
import type { Wrap } from './wrap.ts';

/** A pattern to be drawn, and what is written on it. */
export interface PatternAsked {
  readonly wrap: Wrap;
  /** What the line at 0 degrees is called: `acute side`. */
  readonly zero: string;
  /** What is cut and what it sits on: `rail end on Ø48.3`; a line each. */
  readonly texts: readonly string[];
  /** Lines along the tube beside those at 0 and 180 degrees, with a word each. */
  readonly lines?: readonly { readonly roundDeg: number; readonly text: string }[];
}

/** Things drawn, and how much room they take from the origin. */
export interface DrawnPattern {
  readonly items: readonly DrawingItem[];
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Room below the lowest point of the curve, for the word that says which side is waste. */
const BELOW_MM = 8;
const TEXT_MM = 3;
const LEAST_TEXT_MM = 1.5;
/** Width of a letter over its height, so that texts stay on a narrow pattern. */
const WIDE = 0.75;
const TICK_MM = 3;

/** A wrap at true size with its lower left corner at the origin. */
export function drawnWrap({ wrap, zero, texts, lines = [] }: PatternAsked): DrawnPattern {
  const { lengthMm, edgeMm, lowestMm, highestMm, outline, beside, xOf } = wrap;
  const down = lowestMm - BELOW_MM;
  const lowered = ({ x, y, bulge }: Vertex): Vertex => ({ x, y: y - down, bulge });
  const top = edgeMm - down;
  const along = (roundDeg: number): DrawingItem => ({
    kind: 'line',
    role: 'mark',
    from: [xOf(roundDeg), highestMm - down],
    to: [xOf(roundDeg), top],
  });
  const beneath = (text: string, index: number): DrawingItem =>
    textAt(text, [2, top - TICK_MM - (index + 1) * (TEXT_MM + 2)], lengthMm / 2 - 4);
  return {
    items: [
      { kind: 'loop', role: 'outline', loop: outline.map(lowered) },
      ...lineThrough((beside ?? []).map(([x, y]): Vec2 => [x, y - down])),
      along(0),
      ...lines.flatMap(({ roundDeg, text }): DrawingItem[] => [
        along(within(roundDeg)),
        upright(text, [xOf(within(roundDeg)) - 1, highestMm - down + 2]),
      ]),
      ...ticks(wrap, top),
      upright(`0 ${zero}`, [xOf(0) - 1, highestMm - down + 2]),
      ...texts.map(beneath),
      textAt('waste', [xOf(0) - 6, Math.max(1, highestMm - down - 6)], 12),
    ],
    widthMm: lengthMm,
    heightMm: top,
  };
}

/** A place round a tube from -180 up to 180 degrees. */
const within = (deg: number): number => ((((deg + 180) % 360) + 360) % 360) - 180;

/** Every 30 degrees at the straight edge, with its figure: where a hand marks. */
const ticks = ({ xOf }: Wrap, top: number): DrawingItem[] =>
  placesRound(12).flatMap((deg): DrawingItem[] => {
    const x = xOf(within(deg));
    return [
      { kind: 'line', role: 'mark', from: [x, top - TICK_MM], to: [x, top] },
      textAt(String(deg), [x + 0.5, top - TICK_MM], 6, LEAST_TEXT_MM),
    ];
  });

const textAt = (text: string, at: Vec2, roomMm: number, mostMm = TEXT_MM): DrawingItem => ({
  kind: 'text',
  role: 'note',
  at,
  heightMm: Math.min(mostMm, Math.max(LEAST_TEXT_MM, roomMm / (text.length * WIDE))),
  angleDeg: 0,
  text,
});

const upright = (text: string, at: Vec2): DrawingItem => ({
  kind: 'text',
  role: 'note',
  at,
  heightMm: 2.5,
  angleDeg: 90,
  text,
});

const lineThrough = (points: readonly Vec2[]): DrawingItem[] =>
  points.slice(1).map((to, i) => ({ kind: 'line', role: 'mark', from: points[i] as Vec2, to }));

/** Paper round the hole of a header, mm. */
const ROUND_HOLE_MM = 15;

/**
 * The hole in a header as a patch that is wrapped round it: x runs along the header towards the
 * branch's acute side, y round it; the cross lies on the node and on the line that the branch stands
 * on without offset. The points are those of `headerHole`, round the whole branch.
 */
export function drawnHole(points: readonly HolePoint[], texts: readonly string[]): DrawnPattern {
  const loop = points.map(({ alongMm, acrossMm }): Vertex => ({
    x: alongMm,
    y: acrossMm,
    bulge: 0,
  }));
  const box = loopExtents(loop) ?? { minX: 0, maxX: 0, minY: 0, maxY: 0 };
  const [left, low] = [
    Math.min(0, box.minX) - ROUND_HOLE_MM,
    Math.min(0, box.minY) - ROUND_HOLE_MM,
  ];
  const [widthMm, heightMm] = [
    Math.max(0, box.maxX) + ROUND_HOLE_MM - left,
    Math.max(0, box.maxY) + ROUND_HOLE_MM - low,
  ];
  const moved = loop.map(({ x, y }) => ({ x: x - left, y: y - low, bulge: 0 }));
  return {
    items: [
      { kind: 'loop', role: 'outline', loop: rectangle(0, 0, widthMm, heightMm) },
      { kind: 'loop', role: 'hole', loop: moved },
      { kind: 'line', role: 'mark', from: [0, -low], to: [widthMm, -low] },
      { kind: 'line', role: 'mark', from: [-left, 0], to: [-left, heightMm] },
      ...texts.map((text, i) => textAt(text, [2, heightMm - (i + 1) * (TEXT_MM + 2)], widthMm - 4)),
    ],
    widthMm,
    heightMm,
  };
}

/** Between patterns of one drawing, mm. */
const APART_MM = 15;

/** Patterns one above the other, the first at the bottom, and the room that they take. */
export const oneAboveAnother = (patterns: readonly DrawnPattern[]): DrawnPattern =>
  patterns.reduce(
    (room, { items, widthMm, heightMm }) => {
      const up = room.items.length === 0 ? 0 : room.heightMm + APART_MM;
      return {
        items: [...room.items, ...items.map((item) => movedUp(item, up))],
        widthMm: Math.max(room.widthMm, widthMm),
        heightMm: up + heightMm,
      };
    },
    { items: [] as readonly DrawingItem[], widthMm: 0, heightMm: 0 },
  );

const movedUp = (item: DrawingItem, by: number): DrawingItem => {
  const up = ([x, y]: Vec2): Vec2 => [x, y + by];
  switch (item.kind) {
    case 'loop':
      return { ...item, loop: item.loop.map((v) => ({ ...v, y: v.y + by })) };
    case 'circle':
      return { ...item, centre: up(item.centre) };
    case 'line':
      return { ...item, from: up(item.from), to: up(item.to) };
    case 'text':
      return { ...item, at: up(item.at) };
  }
};
