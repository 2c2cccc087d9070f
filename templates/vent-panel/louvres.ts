import { add, along, figure, leftOf, scale } from '../../src/template.ts';
import type { Direction, Formed, GivenCutout, Loop, MarkLine, Vec2 } from '../../src/template.ts';
import type { Vent } from './inputs.ts';
import { type Box, rampMm, slitMm, stopHoleMm } from './sizes.ts';

/** A louvre as it lies on the face. */
export interface Louvre {
  readonly called: string;
  /** The middle of its lance. */
  readonly lance: Vec2;
  /** Unit vectors: to the side on which it opens, and along its lance, a quarter turn to the left. */
  readonly open: Vec2;
  readonly along: Vec2;
  /** The metal from its form line to its lance. */
  readonly box: Box;
}

const OPEN: Readonly<Record<Vent['louvreOpens'], Vec2>> = {
  right: [1, 0],
  left: [-1, 0],
  up: [0, 1],
  down: [0, -1],
};

/** Whether the lances stand upright, so that a row runs level. */
export const isUpright = ({ louvreOpens }: Vent): boolean =>
  louvreOpens === 'left' || louvreOpens === 'right';

/** All louvres, row by row, from the left and from below. */
export const louvresOf = (v: Vent): readonly Louvre[] => {
  if (v.louvres === 0) return [];
  const open = OPEN[v.louvreOpens];
  const [first, step, next]: readonly [Vec2, Vec2, Vec2] = isUpright(v)
    ? [firstLance(v), [v.louvrePitch, 0], [0, v.louvreRowPitch]]
    : [firstLance(v), [0, v.louvrePitch], [v.louvreRowPitch, 0]];
  return Array.from({ length: v.louvreRows }).flatMap((_, row) =>
    Array.from({ length: v.louvres }, (__, i): Louvre => {
      const lance = add(first, add(scale(step, i), scale(next, row)));
      return {
        called: `louvre ${row * v.louvres + i + 1}`,
        lance,
        open,
        along: leftOf(open),
        box: boxOf(v, lance, open),
      };
    }),
  );
};

/** The middle of the first lance; without figures, so that the middle of all is that of the panel. */
const firstLance = (v: Vent): Vec2 => {
  const [stack, side] = [(v.louvres - 1) * v.louvrePitch, (v.louvreRows - 1) * v.louvreRowPitch];
  const [acrossAll, upAll] = isUpright(v) ? [stack, side] : [side, stack];
  const [ox, oy] = scale(OPEN[v.louvreOpens], v.louvreDepth / 2);
  return [
    v.louvresAcross ?? (v.width - acrossAll) / 2 + ox,
    v.louvresUp ?? (v.height - upAll) / 2 + oy,
  ];
};

const boxOf = (v: Vent, lance: Vec2, open: Vec2): Box => {
  const ends = [-1, 1].flatMap((end) => {
    const at = along(lance, leftOf(open), (end * v.louvreLength) / 2);
    return [at, along(at, open, -v.louvreDepth)];
  });
  const [xs, ys] = [ends.map(([x]) => x), ends.map(([, y]) => y)];
  return {
    minX: Math.min(...xs),
    minY: Math.min(...ys),
    maxX: Math.max(...xs),
    maxY: Math.max(...ys),
  };
};

/** The slots along which louvres are lanced, with a round stop hole at both ends. */
export const lancesOf = (v: Vent, louvres: readonly Louvre[]): GivenCutout[] =>
  louvres.map(({ lance, along: way }, i) => ({
    kind: 'loop',
    from: `louvres ${i + 1}`,
    inputs: ['louvres', 'louvreLength'],
    loop: slitLoop(lance, way, v.louvreLength, slitMm(v), stopHoleMm(v)),
  }));

/**
 * A slit of a width along a direction, counter-clockwise, whose ends are round holes of a diameter
 * about its two end points. Each hole is two arcs, from the neck to its farthest point and back.
 */
const slitLoop = (middle: Vec2, way: Vec2, long: number, wide: number, hole: number): Loop => {
  const radius = hole / 2;
  const half = wide / 2;
  const neck = Math.sqrt(Math.max(0, radius ** 2 - half ** 2));
  // From the neck to the farthest point an arc turns by 180 degrees less the angle of the neck.
  const bulge = Math.tan((Math.PI - Math.atan2(half, neck)) / 4);
  const end = (sign: 1 | -1): Loop => {
    const at = (u: number, w: number): Vec2 =>
      along(along(middle, way, sign * u), leftOf(way), sign * w);
    const [from, far, back] = [
      at(long / 2 - neck, -half),
      at(long / 2 + radius, 0),
      at(long / 2 - neck, half),
    ];
    return [
      { x: from[0], y: from[1], bulge },
      { x: far[0], y: far[1], bulge },
      { x: back[0], y: back[1], bulge: 0 },
    ];
  };
  return [...end(1), ...end(-1)];
};

/** What is formed of each louvre: its form line, and the two lines of its ramps. */
export const formedLouvres = (v: Vent, louvres: readonly Louvre[]): Formed[] =>
  louvres.map((louvre) => ({
    called: louvre.called,
    inputs: isUpright(v) ? ['louvresAcross', 'louvrePitch'] : ['louvresUp', 'louvrePitch'],
    zone: cornersOf(louvre.box),
    proudMm: v.louvreHeight,
    direction: v.louvreSide,
    ...(v.louvreOrder === 'after folding' && { isAfterFolding: true }),
    marks: louvreMarks(v, louvre),
  }));

const louvreMarks = (v: Vent, { called, lance, open, along: way }: Louvre): MarkLine[] => {
  const ramp = rampMm(v);
  const at = (u: number, back: number): Vec2 => along(along(lance, way, u), open, -back);
  const [half, top] = [v.louvreLength / 2, v.louvreLength / 2 - ramp];
  // A ramp begins at the rim of the stop hole.
  const share = stopHoleMm(v) / 2 / Math.hypot(ramp, v.louvreDepth);
  const slope = (end: 1 | -1): MarkLine => ({
    from: at(end * (half - share * ramp), share * v.louvreDepth),
    to: at(end * top, v.louvreDepth),
  });
  return [
    {
      from: at(-top, v.louvreDepth),
      to: at(top, v.louvreDepth),
      ...saidOnBlank(v.louvreSide, (way) => `${called} ${way} ${figure(v.louvreHeight)}`),
    },
    slope(1),
    slope(-1),
  ];
};

/** What stands on the blank beside a mark, seen from either face. */
export const saidOnBlank = (
  side: Direction,
  said: (way: Direction) => string,
): Pick<MarkLine, 'called' | 'turnedOver'> => ({
  called: said(side).toUpperCase(),
  turnedOver: said(side === 'up' ? 'down' : 'up').toUpperCase(),
});

export const cornersOf = ({ minX, minY, maxX, maxY }: Box): readonly Vec2[] => [
  [minX, minY],
  [maxX, minY],
  [maxX, maxY],
  [minX, maxY],
];
