import type { Loop, Vertex } from '../../src/geometry/loop.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { DrawingItem } from '../../src/model/drawing.ts';
import { CLUTTER, type Clutter } from './saved-clutter.ts';
import { dressed, onBack } from './saved-dialect.ts';
import { entitiesOf, type Groups } from './saved-entities.ts';

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
  readonly circles: 'circle' | 'ellipse' | 'arcs' | 'polyline' | 'spline' | 'fit';
  readonly loops: 'light' | 'heavy' | 'exploded';
  /** What the arcs of an exploded loop become; `fit` is a spline by the points that it passes. */
  readonly curves: 'arc' | 'ellipse' | 'spline' | 'fit';
  readonly texts: 'text' | 'lines';
  readonly block: 'none' | 'one' | 'nested' | 'turned' | 'scaled' | 'mirrored' | 'back' | 'deep';
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
  /** Whether entities are drawn seen from below, with their z axis towards -z. */
  readonly isOnBack: boolean;
  /** How high over the plane of the sheet the drawing lies, in units of the file. */
  readonly height: number;
  /** Whether each entity has its handle, colour, classes and comments, in padded lines. */
  readonly isDressed: boolean;
  /** What else is in the file, none of it to be cut. */
  readonly clutter: readonly Clutter[];
  /** Names of layers that are off, or frozen. */
  readonly off?: readonly string[];
  readonly frozen?: readonly string[];
}

export const AS_IT_IS: Saving = {
  circles: 'circle',
  loops: 'light',
  curves: 'arc',
  texts: 'text',
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
  isOnBack: false,
  height: 0,
  isDressed: false,
  clutter: [],
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

/** The text of a file as a program saves it. */
export const saved = (shapes: readonly Shape[], how: Saving): string => {
  const entities = shapes
    .map((s) => mappedShape(s, placing(how), 1, how.unit?.perMm ?? 1))
    .flatMap((s) => entitiesOf(...inBlock(s, how)))
    .map((groups) => (how.isOnBack ? onBack(groups, how.height) : groups))
    .map((groups, i) => ({
      groups,
      key: (Math.imul(i + 1, 2654435761) ^ Math.imul(how.order, 40503)) >>> 0,
    }));
  if (how.order !== 0) entities.sort((a, b) => a.key - b.key);
  const drawn = entities.map((e) => e.groups);
  const cluttered = CLUTTER.filter(({ kind }) => how.clutter.includes(kind));
  const blocks = blocksOf(drawn, how);
  const all: Groups = [
    ...section('HEADER', header(how)),
    ...section('TABLES', [0, 'TABLE', 2, 'LAYER', 70, 9, ...layerTable(how), 0, 'ENDTAB']),
    ...(blocks.length === 0 ? [] : section('BLOCKS', blocks)),
    ...section('ENTITIES', [
      ...(how.block === 'none' ? drawn.flat() : insertOf(how)),
      ...cluttered.flatMap((c) => c.entities),
    ]),
    0,
    'EOF',
  ];
  const written = how.isDressed ? dressed(all) : all;
  return `${written.join(how.newline)}${how.newline}`;
};

const header = ({ unit }: Saving): Groups =>
  unit === undefined
    ? [9, '$ACADVER', 1, 'AC1009']
    : [9, '$ACADVER', 1, 'AC1015', 9, '$INSUNITS', 70, unit.code];

const section = (name: string, groups: Groups): Groups => [
  0,
  'SECTION',
  2,
  name,
  ...groups,
  0,
  'ENDSEC',
];

const layerTable = ({ off = [], frozen = [], clutter }: Saving): Groups => [
  ...off.flatMap((name) => [0, 'LAYER', 2, name, 70, 0, 62, -7, 6, 'CONTINUOUS']),
  ...[...frozen, ...(clutter.includes('frozen') ? ['CONSTRUCTION'] : [])].flatMap((name) => [
    0,
    'LAYER',
    2,
    name,
    70,
    1,
    62,
    7,
    6,
    'CONTINUOUS',
  ]),
];

type Map = (p: Vec2) => Vec2;

/** The same shape at another place; `bulge` is -1 where it is mirrored, `size` how many times larger. */
export const mappedShape = (s: Shape, to: Map, bulge: 1 | -1, size: number): Shape => {
  switch (s.kind) {
    case 'loop':
      return {
        ...s,
        loop: s.loop.map((v): Vertex => {
          const [x, y] = to([v.x, v.y]);
          return { x, y, bulge: bulge * v.bulge };
        }),
      };
    case 'circle':
      return { ...s, centre: to(s.centre), radius: size * s.radius };
    case 'line':
      return { ...s, from: to(s.from), to: to(s.to) };
    case 'text':
      return { ...s, at: to(s.at) };
  }
};

const placing = ({ move, turnDeg, unit }: Saving): Map => {
  const [c, si] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const k = unit?.perMm ?? 1;
  return ([x, y]) => [k * (c * x - si * y + move[0]), k * (si * x + c * y + move[1])];
};

/** How many times smaller the contents of a scaled block are. */
const SCALED = 25.4;

/** A shape as it is in its block, which is put in turned, scaled or mirrored, so that it is what it was. */
const inBlock = (s: Shape, how: Saving): [Shape, Saving] => {
  switch (how.block) {
    case 'turned':
      return [mappedShape(s, ([x, y]) => [y, -x], 1, 1), how];
    case 'mirrored':
    case 'back':
      return [mappedShape(s, ([x, y]) => [-x, y], -1, 1), how];
    case 'scaled': {
      const unit = { code: 0, perMm: (how.unit?.perMm ?? 1) / SCALED };
      return [
        mappedShape(s, ([x, y]) => [x / SCALED, y / SCALED], 1, 1 / SCALED),
        { ...how, unit },
      ];
    }
    default:
      return [s, how];
  }
};

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

const insert = (name: string, [x, y]: Vec2, ...more: Groups): Groups => [
  0,
  'INSERT',
  8,
  '0',
  2,
  name,
  10,
  x,
  20,
  y,
  ...more,
];

const INSERT_AT: Vec2 = [5, 7];
/** How often blocks lie in blocks where they lie deep: an even number, since each undoes another. */
const DEEP = 8;

const blocksOf = (drawn: readonly Groups[], { block: kind }: Saving): Groups => {
  switch (kind) {
    case 'none':
      return [];
    case 'one':
      return block('PART', INSERT_AT, drawn.flat());
    case 'nested': {
      const half = Math.ceil(drawn.length / 2);
      return [
        ...block('INNER', [0, 0], drawn.slice(half).flat()),
        ...block('PART', INSERT_AT, [...drawn.slice(0, half).flat(), ...insert('INNER', [0, 0])]),
      ];
    }
    case 'deep':
      return [
        ...block('D0', INSERT_AT, drawn.flat()),
        ...Array.from({ length: DEEP - 1 }, (_, i) =>
          block(i === DEEP - 2 ? 'PART' : `D${i + 1}`, INSERT_AT, deepInsert(i)),
        ).flat(),
      ];
    default:
      return block('PART', [0, 0], drawn.flat());
  }
};

/** Put in twice as large and turned, and in the next block undone. */
const deepInsert = (level: number): Groups =>
  insert(
    `D${level}`,
    INSERT_AT,
    ...(level % 2 === 0 ? [41, 2, 42, 2, 50, 30] : [41, 0.5, 42, 0.5, 50, -30]),
  );

/** Insertion that puts the block back where its contents were. */
const insertOf = ({ block: kind }: Saving): Groups => {
  switch (kind) {
    case 'turned':
      return insert('part', [0, 0], 50, 90);
    case 'scaled':
      return insert('part', [0, 0], 41, SCALED, 42, SCALED, 43, SCALED);
    case 'mirrored':
      return insert('part', [0, 0], 41, -1);
    case 'back':
      return insert('part', [0, 0], 210, 0, 220, 0, 230, -1);
    case 'deep':
      return insert('part', INSERT_AT, 41, 0.5, 42, 0.5, 50, -30);
    default:
      return insert('part', INSERT_AT);
  }
};
