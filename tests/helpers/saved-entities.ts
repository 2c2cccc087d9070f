import { arcOf } from '../../src/geometry/arc.ts';
import type { Loop, Vertex } from '../../src/geometry/loop.ts';
import { pieceOf } from '../../src/geometry/piece.ts';
import { along, sub, type Vec2 } from '../../src/geometry/vec2.ts';
import type { Saving, Shape } from './saved-dxf.ts';

/** A code and a value in turn, as they stand in a file. */
export type Groups = readonly (number | string)[];

type Write = (value: number) => string;
type Head = (type: string) => Groups;

/** Most programs write more decimals than anybody needs. */
const writer = ({ isRounded, unit }: Saving): Write => {
  const decimals = isRounded ? 4 + Math.ceil(-Math.log10(unit?.perMm ?? 1)) : 8;
  return (value) => value.toFixed(decimals);
};

const layerName = (layer: string, { layers }: Saving): string =>
  layers === 'lower'
    ? layer.toLowerCase()
    : layers === 'mixed'
      ? `${layer.slice(0, 1)}${layer.slice(1).toLowerCase()}`
      : layer;

/** The entities that a program writes for a shape. */
export const entitiesOf = (s: Shape, how: Saving): Groups[] => {
  const n = writer(how);
  const head: Head = (type) => [
    0,
    type,
    8,
    layerName(s.layer, how),
    ...(s.look === 'invisible' ? [60, 1] : s.look === 'paper' ? [67, 1] : []),
  ];
  switch (s.kind) {
    case 'text':
      return text(s.at, s.text, how, head);
    case 'line':
      return Array.from({ length: how.linePieces }, (_, i) => {
        const [from, to] = [i, i + 1].map((k) =>
          along(s.from, sub(s.to, s.from), k / how.linePieces),
        ) as [Vec2, Vec2];
        return [
          ...head('LINE'),
          ...line(how.isReversed ? to : from, how.isReversed ? from : to, n),
        ];
      });
    case 'circle':
      return circle(s.centre, s.radius, how, head);
    case 'loop':
      return loop(s.isOpen === true ? s.loop : begun(s.loop, how), s.isOpen !== true, how, head);
  }
};

/** A text, or three strokes in its place, as a program leaves them that turns letters into lines. */
const text = (at: Vec2, words: string, how: Saving, head: Head): Groups[] => {
  const n = writer(how);
  if (how.texts === 'text') return [[...head('TEXT'), 10, n(at[0]), 20, n(at[1]), 40, 3, 1, words]];
  return [0, 1, 2].map((i) => {
    const to: Vec2 = [at[0] + 0.3 * (i + 1), at[1] + 0.5 * i];
    return i === 2
      ? [
          ...head('LWPOLYLINE'),
          90,
          2,
          70,
          0,
          10,
          n(at[0]),
          20,
          n(at[1]),
          10,
          n(to[0]),
          20,
          n(to[1]),
        ]
      : [...head('LINE'), ...line(at, to, n)];
  });
};

const line = (from: Vec2, to: Vec2, n: Write): Groups => [
  10,
  n(from[0]),
  20,
  n(from[1]),
  11,
  n(to[0]),
  21,
  n(to[1]),
];

/** Part of a circle, counter-clockwise from one angle to another, radians. */
interface Arc {
  readonly centre: Vec2;
  readonly radius: number;
  readonly fromRad: number;
  readonly toRad: number;
}

const FULL = 2 * Math.PI;

const circle = (centre: Vec2, radius: number, how: Saving, head: Head): Groups[] => {
  const halves: Loop = [1, -1].map((side) => ({
    x: centre[0] + side * radius,
    y: centre[1],
    bulge: 1,
  }));
  switch (how.circles) {
    case 'circle':
      return [[...head('CIRCLE'), ...at(centre, writer(how)), 40, writer(how)(radius)]];
    case 'arcs':
      return [0, 1, 2].map((third) =>
        arc(
          { centre, radius, fromRad: (third * FULL) / 3, toRad: ((third + 1) * FULL) / 3 },
          { ...how, curves: 'arc' },
          head,
        ),
      );
    case 'polyline':
      return loop(halves, true, { ...how, loops: 'light' }, head);
    default:
      return [
        arc({ centre, radius, fromRad: 0, toRad: FULL }, { ...how, curves: how.circles }, head),
      ];
  }
};

const at = ([x, y]: Vec2, n: Write): Groups => [10, n(x), 20, n(y)];

/** An arc, or a whole circle, in the entity that a program has for it. */
const arc = (a: Arc, how: Saving, head: Head): Groups => {
  const n = writer(how);
  switch (how.curves) {
    case 'arc': {
      const deg = (rad: number): string => ((((rad * 180) / Math.PI) % 360) + 360).toFixed(9);
      return [
        ...head('ARC'),
        ...at(a.centre, n),
        40,
        n(a.radius),
        50,
        deg(a.fromRad),
        51,
        deg(a.toRad),
      ];
    }
    case 'ellipse': {
      // The long axis points up, so that angles count from there.
      const turn = (rad: number): string => (rad - Math.PI / 2).toFixed(9);
      const ends =
        a.toRad - a.fromRad === FULL ? [0, FULL.toFixed(6)] : [turn(a.fromRad), turn(a.toRad)];
      return [
        ...head('ELLIPSE'),
        ...at(a.centre, n),
        11,
        n(0),
        21,
        n(a.radius),
        40,
        1,
        41,
        ends[0] as string,
        42,
        ends[1] as string,
      ];
    }
    case 'spline':
      return [...head('SPLINE'), ...rational(a, n)];
    case 'fit':
      return [...head('SPLINE'), ...throughPoints(a, n)];
  }
};

const onArc = ({ centre, radius }: Arc, rad: number, far = radius): Vec2 => [
  centre[0] + far * Math.cos(rad),
  centre[1] + far * Math.sin(rad),
];

/**
 * An arc as a rational spline of degree 2: a quarter or less between two points on it, with the
 * crossing of their tangents weighed by the cosine of half the turn (L. Piegl and W. Tiller, The
 * NURBS Book, 7.3 and 7.5; from memory).
 */
const rational = (a: Arc, n: Write): Groups => {
  const quarters = Math.ceil((a.toRad - a.fromRad) / (Math.PI / 2) - 1e-9);
  const half = (a.toRad - a.fromRad) / quarters / 2;
  const knots = Array.from({ length: quarters + 1 }, (_, k) =>
    k === 0 || k === quarters ? [k, k, k] : [k, k],
  ).flat();
  const points = Array.from({ length: 2 * quarters + 1 }, (_, k) =>
    onArc(a, a.fromRad + k * half, k % 2 === 0 ? a.radius : a.radius / Math.cos(half)),
  );
  return [
    70,
    12,
    71,
    2,
    72,
    knots.length,
    73,
    points.length,
    ...knots.flatMap((k) => [40, k]),
    ...points.flatMap((_, k) => [41, k % 2 === 0 ? '1.0' : String(Math.cos(half))]),
    ...points.flatMap((p) => [...at(p, n), 30, 0]),
  ];
};

/** The same by points that it passes through, 5 degrees apart or less, and its directions at the ends. */
const throughPoints = (a: Arc, n: Write): Groups => {
  const isFull = a.toRad - a.fromRad === FULL;
  const steps = Math.max(4, Math.ceil((a.toRad - a.fromRad) / (Math.PI / 36)));
  const points = Array.from({ length: steps + 1 }, (_, k) =>
    onArc(a, k === steps && isFull ? a.fromRad : a.fromRad + ((a.toRad - a.fromRad) * k) / steps),
  );
  const direction = (rad: number): Vec2 => [-Math.sin(rad), Math.cos(rad)];
  const ends = isFull
    ? []
    : [a.fromRad, a.toRad].flatMap((rad, i) => {
        const [x, y] = direction(rad);
        return [12 + i, n(x), 22 + i, n(y), 32 + i, 0];
      });
  return [
    70,
    isFull ? 9 : 8,
    71,
    3,
    74,
    points.length,
    ...ends,
    ...points.flatMap(([x, y]) => [11, n(x), 21, n(y), 31, 0]),
  ];
};

/** The same loop begun elsewhere, or run through the other way. */
const begun = (given: Loop, { start, isReversed }: Saving): Loop => {
  const shift = Math.floor(start * given.length);
  const turned = [...given.slice(shift), ...given.slice(0, shift)];
  if (!isReversed) return turned;
  return turned.map((_, i) => {
    const [v, before] = [
      turned[turned.length - 1 - i] as Vertex,
      turned[(2 * turned.length - 2 - i) % turned.length] as Vertex,
    ];
    return { x: v.x, y: v.y, bulge: -before.bulge };
  });
};

const loop = (given: Loop, isClosed: boolean, how: Saving, head: Head): Groups[] => {
  switch (how.loops) {
    case 'light':
      return [lightLoop(given, isClosed, how, head)];
    case 'heavy':
      return [heavyLoop(given, isClosed, how, head)];
    case 'exploded':
      return pieces(given, isClosed, how, head);
  }
};

const bulged = ({ bulge }: Vertex): Groups => (bulge === 0 ? [] : [42, String(bulge)]);

const lightLoop = (given: Loop, isClosed: boolean, how: Saving, head: Head): Groups => [
  ...head('LWPOLYLINE'),
  90,
  given.length,
  70,
  isClosed ? 1 : 0,
  ...given.flatMap((v) => [...at([v.x, v.y], writer(how)), ...bulged(v)]),
];

/** A polyline with a vertex for each corner; one in space, which has no arcs, where the loop has none. */
const heavyLoop = (given: Loop, isClosed: boolean, how: Saving, head: Head): Groups => {
  const flags =
    (isClosed ? 1 : 0) + (how.height !== 0 && given.every((v) => v.bulge === 0) ? 8 : 0);
  const vertices = given.flatMap((v) => [
    ...head('VERTEX'),
    ...at([v.x, v.y], writer(how)),
    30,
    how.height,
    ...bulged(v),
  ]);
  return [
    ...head('POLYLINE'),
    66,
    1,
    10,
    0,
    20,
    0,
    30,
    flags >= 8 ? 0 : how.height,
    70,
    flags,
    ...vertices,
    0,
    'SEQEND',
  ];
};

const pieces = (given: Loop, isClosed: boolean, how: Saving, head: Head): Groups[] =>
  given.slice(0, isClosed ? given.length : given.length - 1).map((_, i) => {
    const { from, to, bulge } = pieceOf(given, i);
    if (bulge === 0)
      return [
        ...head('LINE'),
        ...line(i % 3 === 1 ? to : from, i % 3 === 1 ? from : to, writer(how)),
      ];
    const { centre, radius, startRad, sweepRad } = arcOf(from, to, bulge);
    const [fromRad, toRad] =
      sweepRad > 0 ? [startRad, startRad + sweepRad] : [startRad + sweepRad, startRad];
    return arc({ centre, radius, fromRad, toRad }, how, head);
  });
