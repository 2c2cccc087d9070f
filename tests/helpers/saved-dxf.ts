import { arcOf } from '../../src/geometry/arc.ts';
import type { Loop, Vertex } from '../../src/geometry/loop.ts';
import { pieceOf } from '../../src/geometry/piece.ts';
import { along, sub, type Vec2 } from '../../src/geometry/vec2.ts';
import type { DrawingItem } from '../../src/model/drawing.ts';

/** Contents of a file before it is decided how a program saves it. Lengths in mm. */
export type Shape = { readonly layer: string; readonly look?: Look } & (
  | { readonly kind: 'loop'; readonly loop: Loop; readonly isOpen?: boolean }
  | { readonly kind: 'circle'; readonly centre: Vec2; readonly radius: number }
  | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
  | { readonly kind: 'text'; readonly at: Vec2; readonly text: string }
);

/** How a shape is kept from being seen. */
export type Look = 'invisible' | 'paper';

/** How a program saves a drawing. */
export interface Saving {
  readonly circles: 'circle' | 'ellipse' | 'arcs' | 'polyline' | 'spline';
  readonly loops: 'light' | 'heavy' | 'exploded';
  readonly block: 'none' | 'one' | 'nested' | 'turned';
  readonly layers: 'kept' | 'lower' | 'mixed';
  /** Start of a loop, as a share of its corners, and whether it runs the other way round. */
  readonly start: number;
  readonly isReversed: boolean;
  /** Order of the entities. */
  readonly order: number;
  /** `$INSUNITS`, and how many of the unit make a millimetre; without it there is no header. */
  readonly unit: { readonly code: number; readonly perMm: number } | undefined;
  readonly move: Vec2;
  readonly turnDeg: number;
  readonly newline: '\n' | '\r\n';
  /** Number of pieces into which a line is broken where others cross it. */
  readonly linePieces: number;
  /** Whether lengths are rounded to four decimals of a millimetre. */
  readonly isRounded: boolean;
  /** Names of layers that are off, or frozen. */
  readonly off?: readonly string[];
  readonly frozen?: readonly string[];
}

export const AS_IT_IS: Saving = {
  circles: 'circle',
  loops: 'light',
  block: 'none',
  layers: 'kept',
  start: 0,
  isReversed: false,
  order: 0,
  unit: { code: 4, perMm: 1 },
  move: [0, 0],
  turnDeg: 0,
  newline: '\n',
  linePieces: 1,
  isRounded: false,
};

const LAYERS: Readonly<Record<DrawingItem['role'], string>> = {
  outline: 'OUTLINE',
  hole: 'HOLES',
  cut: 'CUT',
  'fold-up': 'FOLD-UP',
  'fold-down': 'FOLD-DOWN',
  mark: 'MARK',
  note: 'NOTE',
};

export const shapesOf = (items: readonly DrawingItem[]): Shape[] =>
  items.map((item): Shape => {
    const layer = LAYERS[item.role];
    switch (item.kind) {
      case 'loop':
        return { kind: 'loop', layer, loop: item.loop };
      case 'circle':
        return { kind: 'circle', layer, centre: item.centre, radius: item.radius };
      case 'line':
        return { kind: 'line', layer, from: item.from, to: item.to };
      case 'text':
        return { kind: 'text', layer, at: item.at, text: item.text };
    }
  });

type Groups = readonly (number | string)[];

/** The text of a file as a program saves it. */
export const saved = (shapes: readonly Shape[], how: Saving): string => {
  // The contents of a block that is inserted turned are turned the other way inside it.
  const lying =
    how.block === 'turned'
      ? { ...how, turnDeg: how.turnDeg - 90, move: [how.move[1], -how.move[0]] as const }
      : how;
  const entities = shapes
    .flatMap((s) => entitiesOf(placed(s, lying), how))
    .map((groups, i) => ({
      groups,
      key: (Math.imul(i + 1, 2654435761) ^ Math.imul(how.order, 40503)) >>> 0,
    }));
  if (how.order !== 0) entities.sort((a, b) => a.key - b.key);
  const drawn = entities.map((e) => e.groups);
  const header: Groups = how.unit === undefined ? [] : [9, '$INSUNITS', 70, how.unit.code];
  const drawing =
    how.block === 'none'
      ? section('ENTITIES', drawn.flat())
      : [...section('BLOCKS', blocksOf(drawn, how)), ...section('ENTITIES', insertOf(how))];
  const all: Groups = [
    ...section('HEADER', [
      9,
      '$ACADVER',
      1,
      how.unit === undefined ? 'AC1009' : 'AC1015',
      ...header,
    ]),
    ...section('TABLES', [0, 'TABLE', 2, 'LAYER', 70, 9, ...layerTable(how), 0, 'ENDTAB']),
    ...drawing,
    0,
    'EOF',
  ];
  return `${all.join(how.newline)}${how.newline}`;
};

const section = (name: string, groups: Groups): Groups => [
  0,
  'SECTION',
  2,
  name,
  ...groups,
  0,
  'ENDSEC',
];

const layerTable = ({ off = [], frozen = [] }: Saving): Groups => [
  ...off.flatMap((name) => [0, 'LAYER', 2, name, 70, 0, 62, -7, 6, 'CONTINUOUS']),
  ...frozen.flatMap((name) => [0, 'LAYER', 2, name, 70, 1, 62, 7, 6, 'CONTINUOUS']),
];

const block = (name: string, base: Vec2, groups: Groups): Groups => [
  0,
  'BLOCK',
  8,
  '0',
  2,
  name,
  70,
  0,
  10,
  base[0],
  20,
  base[1],
  ...groups,
  0,
  'ENDBLK',
  8,
  '0',
];

const INSERT_AT: Vec2 = [5, 7];

const blocksOf = (drawn: readonly Groups[], { block: kind }: Saving): Groups => {
  if (kind !== 'nested') return block('PART', kind === 'turned' ? [0, 0] : INSERT_AT, drawn.flat());
  const half = Math.ceil(drawn.length / 2);
  return [
    ...block('INNER', [0, 0], drawn.slice(half).flat()),
    ...block('PART', INSERT_AT, [
      ...drawn.slice(0, half).flat(),
      0,
      'INSERT',
      8,
      '0',
      2,
      'INNER',
      10,
      0,
      20,
      0,
    ]),
  ];
};

/** Insertion that puts the block back where its contents were. */
const insertOf = ({ block: kind }: Saving): Groups => [
  0,
  'INSERT',
  8,
  '0',
  2,
  'part',
  ...(kind === 'turned' ? [10, 0, 20, 0, 50, 90] : [10, INSERT_AT[0], 20, INSERT_AT[1]]),
];

const placed = (s: Shape, { move, turnDeg, unit }: Saving): Shape => {
  const [c, si, k] = [
    Math.cos((turnDeg * Math.PI) / 180),
    Math.sin((turnDeg * Math.PI) / 180),
    unit?.perMm ?? 1,
  ];
  const at = ([x, y]: Vec2): Vec2 => [
    k * (c * x - si * y + move[0]),
    k * (si * x + c * y + move[1]),
  ];
  switch (s.kind) {
    case 'loop':
      return {
        ...s,
        loop: s.loop.map((v): Vertex => {
          const [x, y] = at([v.x, v.y]);
          return { x, y, bulge: v.bulge };
        }),
      };
    case 'circle':
      return { ...s, centre: at(s.centre), radius: k * s.radius };
    case 'line':
      return { ...s, from: at(s.from), to: at(s.to) };
    case 'text':
      return { ...s, at: at(s.at) };
  }
};

type Write = (value: number) => string;

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

const entitiesOf = (s: Shape, how: Saving): Groups[] => {
  const n = writer(how);
  const head = (type: string): Groups => [
    0,
    type,
    8,
    layerName(s.layer, how),
    ...(s.look === 'invisible' ? [60, 1] : s.look === 'paper' ? [67, 1] : []),
  ];
  switch (s.kind) {
    case 'text':
      return [[...head('TEXT'), 10, n(s.at[0]), 20, n(s.at[1]), 40, 3, 1, s.text]];
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

const circle = ([x, y]: Vec2, r: number, how: Saving, head: (type: string) => Groups): Groups[] => {
  const n = writer(how);
  const halves: Loop = [
    { x: x + r, y, bulge: 1 },
    { x: x - r, y, bulge: 1 },
  ];
  switch (how.circles) {
    case 'circle':
      return [[...head('CIRCLE'), 10, n(x), 20, n(y), 40, n(r)]];
    case 'ellipse':
      return [
        [
          ...head('ELLIPSE'),
          10,
          n(x),
          20,
          n(y),
          11,
          n(0),
          21,
          n(r),
          40,
          1,
          41,
          0,
          42,
          (2 * Math.PI).toFixed(6),
        ],
      ];
    case 'arcs':
      return [0, 120, 240].map((deg) => [
        ...head('ARC'),
        10,
        n(x),
        20,
        n(y),
        40,
        n(r),
        50,
        deg,
        51,
        deg + 120,
      ]);
    case 'polyline':
      return loop(halves, true, { ...how, loops: 'light' }, head);
    case 'spline':
      return [[...head('SPLINE'), ...rationalCircle([x, y], r, n)]];
  }
};

/**
 * A full circle as a rational spline of degree 2 through nine points (L. Piegl and W. Tiller, The
 * NURBS Book, 7.5; from memory).
 */
const rationalCircle = ([x, y]: Vec2, r: number, n: Write): Groups => {
  const corners: readonly Vec2[] = [
    [1, 0],
    [1, 1],
    [0, 1],
    [-1, 1],
    [-1, 0],
    [-1, -1],
    [0, -1],
    [1, -1],
    [1, 0],
  ];
  const knots = [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4];
  return [
    70,
    12,
    71,
    2,
    72,
    12,
    73,
    9,
    ...knots.flatMap((k) => [40, k]),
    ...corners.flatMap((_, i) => [41, i % 2 === 0 ? '1.0' : String(Math.SQRT1_2)]),
    ...corners.flatMap(([u, v]) => [10, n(x + r * u), 20, n(y + r * v), 30, 0]),
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

const loop = (
  given: Loop,
  isClosed: boolean,
  how: Saving,
  head: (type: string) => Groups,
): Groups[] => {
  const n = writer(how);
  const flag = isClosed ? 1 : 0;
  if (how.loops === 'light')
    return [
      [
        ...head('LWPOLYLINE'),
        90,
        given.length,
        70,
        flag,
        ...given.flatMap((v) => [
          10,
          n(v.x),
          20,
          n(v.y),
          ...(v.bulge === 0 ? [] : [42, String(v.bulge)]),
        ]),
      ],
    ];
  if (how.loops === 'heavy') {
    const vertices = given.flatMap((v) => [
      ...head('VERTEX'),
      10,
      n(v.x),
      20,
      n(v.y),
      30,
      0,
      ...(v.bulge === 0 ? [] : [42, String(v.bulge)]),
    ]);
    return [[...head('POLYLINE'), 66, 1, 10, 0, 20, 0, 30, 0, 70, flag, ...vertices, 0, 'SEQEND']];
  }
  return given.slice(0, isClosed ? given.length : given.length - 1).map((_, i) => {
    const { from, to, bulge } = pieceOf(given, i);
    if (bulge === 0)
      return [...head('LINE'), ...line(i % 3 === 1 ? to : from, i % 3 === 1 ? from : to, n)];
    const { centre, radius, startRad, sweepRad } = arcOf(from, to, bulge);
    const [a, b] = sweepRad > 0 ? [startRad, startRad + sweepRad] : [startRad + sweepRad, startRad];
    const deg = (rad: number): string => ((((rad * 180) / Math.PI) % 360) + 360).toFixed(9);
    return [
      ...head('ARC'),
      10,
      n(centre[0]),
      20,
      n(centre[1]),
      40,
      n(radius),
      50,
      deg(a),
      51,
      deg(b),
    ];
  });
};
