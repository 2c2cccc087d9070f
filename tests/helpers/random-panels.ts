import fc from 'fast-check';

/**
 * Random inputs of the family `panels`: a base, and flanges on it and on each other, up to as many
 * as asked for, with every key of the notation. Most of them make sense by themselves; whether they
 * do together is for the tool to say.
 */
export const randomPanels = (mostFlanges: number): fc.Arbitrary<Record<string, unknown>> =>
  fc
    .record({
      base: fc.nat(),
      isCalm: fc.boolean(),
      flanges: fc.array(FLANGE, { maxLength: mostFlanges }),
      corners: fc.array(fc.record({ at: fc.nat(), style: fc.nat(), gap: fc.nat(3) }), {
        maxLength: 2,
      }),
      part: fc.record({
        thickness: fc.constantFrom(0.8, 1, 1.5, 2, 3),
        radius: fc.constantFrom(undefined, undefined, 0, 1, 2.5),
        measure: fc.constantFrom('outside', 'inside'),
        cornerRadius: fc.constantFrom(undefined, undefined, 1, 3),
        relief: fc.constantFrom(undefined, 'round', 'slit'),
        rule: fc.constantFrom(undefined, 'k:0.42', 'faa'),
        material: fc.constantFrom('s235', '5754-h111'),
        cornerGap: fc.constantFrom(undefined, 0.5, 1.5),
      }),
    })
    .map(({ base, isCalm, flanges, corners, part }) => {
      const tree = grown(base, isCalm ? flanges.map(calm) : flanges);
      const pairs = pairsOf(tree.flanges);
      return {
        name: 'random',
        base: tree.base,
        flanges: tree.flanges.map(({ map }) => map),
        ...(pairs.length > 0 && !isCalm && { corners: cornersOn(pairs, corners) }),
        ...withoutNothing(isCalm ? { ...part, cornerRadius: undefined, radius: 1 } : part),
        hand: 'both',
      };
    });

/** How one flange is to be, as numbers that are turned into words once its edge is known. */
const FLANGE = fc.record({
  edge: fc.nat(),
  stretch: fc.nat(5),
  from: fc.integer({ min: 0, max: 60 }),
  long: fc.integer({ min: 15, max: 100 }),
  height: fc.integer({ min: 4, max: 60 }),
  angle: fc.oneof(
    { weight: 5, arbitrary: fc.constant(90) },
    { weight: 3, arbitrary: fc.constantFrom(30, 45, 60, 120, 135) },
    { weight: 2, arbitrary: fc.integer({ min: 1, max: 360 }).map((n) => n / 2) },
    { weight: 1, arbitrary: fc.constantFrom(0.5, 1, 179, 180) },
  ),
  down: fc.boolean(),
  shape: fc.nat(16),
  extra: fc.nat(40),
  size: fc.nat(100),
});
type Wanted = typeof FLANGE extends fc.Arbitrary<infer T> ? T : never;

/** The same flange, small and plain, so that trees of many are parts too. */
const calm = (one: Wanted): Wanted => ({
  ...one,
  angle: one.angle > 120 ? 90 : one.angle,
  height: 9 + (one.height % 9),
  from: 15 + (one.from % 20),
  long: 20 + (one.long % 45),
  stretch: 1,
  shape: one.shape % 7,
  extra: [2, 3, 7][one.extra] ?? 40,
  size: one.size % 12,
});

/** A stretch of an edge on which nothing grows yet. */
interface Free {
  readonly panel: string;
  readonly edge: string;
  /** Of the whole edge, mm. */
  readonly edgeMm: number;
  readonly from: number;
  readonly to: number;
  /** How far the panel reaches behind the edge, mm. */
  readonly deepMm: number;
  readonly depth: number;
}

interface Grown {
  readonly map: Readonly<Record<string, unknown>>;
  readonly parent: string;
  readonly edge: string;
}

const BASES: readonly {
  readonly base: Readonly<Record<string, unknown>> | string;
  readonly edges: readonly (readonly [edge: string, mm: number, deepMm: number])[];
}[] = [
  {
    base: { size: '160 x 100', holes: '80,50,M8', cornerChamfer: 2 },
    edges: [
      ['bottom', 160, 100],
      ['right', 100, 160],
      ['top', 160, 100],
      ['left', 100, 160],
    ],
  },
  {
    base: { name: 'floor plate', width: 240, depth: 'floor_plate.width/2', slits: '20,60 30,60' },
    edges: [
      ['bottom', 240, 120],
      ['right', 120, 240],
      ['top', 240, 120],
      ['left', 120, 240],
    ],
  },
  {
    base: {
      outline: '0,0 edge front; 200,0; 200,80 r6; 160,140 edge rear; 0,140',
      cutouts: '90,60; 110,60; 100,80|20,120; 40,120; 40,150; 20,150',
    },
    edges: [
      ['front', 200, 140],
      ['2', 78, 200],
      ['3', 70, 100],
      ['5', 140, 160],
    ],
  },
  {
    // Round a corner that looks inwards, and clockwise.
    base: { outline: '0,0; 0,150; 60,150; 60,60; 180,60; 180,0', name: 'angle' },
    edges: [
      ['1', 150, 60],
      ['3', 90, 60],
      ['4', 120, 60],
      ['5', 60, 180],
      ['6', 180, 60],
    ],
  },
  {
    base: 'polygon 6 180',
    edges: ['1', '2', '3', '4', '5', '6'].map((edge) => [edge, 103.9, 180] as const),
  },
  {
    base: { ring: { outer: 300, inner: 140, from: 15, to: 130 }, holes: '0,110,12x20' },
    edges: [
      ['start', 80, 100],
      ['end', 80, 100],
    ],
  },
  {
    base: { outline: '0,0; 120,0; 150,40 arc; 120,80; 0,80 c10', holes: [] },
    edges: [
      ['1', 120, 80],
      ['4', 110, 80],
      ['5', 70, 120],
    ],
  },
];

const grown = (
  pick: number,
  wanted: readonly Wanted[],
): { readonly base: unknown; readonly flanges: readonly Grown[] } => {
  const { base, edges } = BASES[pick % BASES.length] as (typeof BASES)[number];
  const named = typeof base === 'string' ? undefined : base['name'];
  const id = typeof named === 'string' ? named : 'base';
  const free = edges.map(([edge, mm, deepMm]) => freeEdge(id, edge, mm, deepMm, 0));
  const flanges: Grown[] = [];
  for (const one of wanted) {
    const [edge] = free.splice(one.edge % Math.max(1, free.length), 1);
    if (edge === undefined) break;
    const name = `p${flanges.length + 1}`;
    const { map, from, to, edges: own } = flangeOn(name, edge, one);
    flanges.push({ map, parent: edge.panel, edge: edge.edge });
    free.push(
      ...[
        { ...edge, to: from - GAP_MM },
        { ...edge, from: to + GAP_MM },
      ].filter((left) => left.to - left.from > LEAST_MM),
    );
    if (edge.depth < 4)
      free.push(
        ...own
          .filter(([, mm]) => mm > LEAST_MM)
          .map(([e, mm, deepMm]) => freeEdge(name, e, mm, deepMm, edge.depth + 1)),
      );
  }
  return { base, flanges };
};

/** Between flanges on one edge, and what is too short to grow anything on, mm. */
const GAP_MM = 8;
const LEAST_MM = 8;

const freeEdge = (
  panel: string,
  edge: string,
  edgeMm: number,
  deepMm: number,
  depth: number,
): Free => ({ panel, edge, edgeMm, from: 0, to: edgeMm, deepMm, depth });

/** A flange in its words, the stretch that it takes, and what may grow on it in its turn. */
function flangeOn(name: string, free: Free, one: Wanted) {
  const { panel, edge, edgeMm, deepMm } = free;
  const room = free.to - free.from;
  const isWhole = room === edgeMm && one.stretch < 2 && one.long > 66;
  const width = isWhole ? edgeMm : Math.max(LEAST_MM, Math.floor((room * one.long) / 100));
  const start = isWhole ? 0 : free.from + Math.floor(((room - width) * one.from) / 60);
  const heightMm = Math.min(one.height, Math.max(5, Math.round(deepMm / 2)));
  const { own, edges } = shapeOf(one, width, heightMm);
  const { said, from } = isWhole
    ? { said: {}, from: 0 }
    : stretchOf(room === edgeMm ? one.stretch : one.stretch % 2, start, width, edgeMm);
  const map = {
    name,
    on: `${panel} ${edge}`,
    angle: one.angle,
    direction: one.down ? 'down' : 'up',
    ...said,
    ...own,
    ...extraOf(one, width, heightMm),
  };
  return { map, from, to: from + width, edges };
}

const stretchOf = (kind: number, from: number, width: number, edgeMm: number) => {
  switch (kind) {
    case 2:
    case 3:
      return { said: { width, align: 'left' }, from: 0 };
    case 4:
      return { said: { width, align: 'right' }, from: edgeMm - width };
    case 5:
      return { said: { width }, from: (edgeMm - width) / 2 };
    case 0:
      return { said: { from, to: from + width }, from };
    default:
      return { said: { from: `${from}mm`, width: `${width / 25.4}in` }, from };
  }
};

type OwnEdge = readonly [edge: string, mm: number, deepMm: number];

/** The keys that give a flange its shape, and its edges that are straight. */
function shapeOf(
  { shape, size }: Wanted,
  mm: number,
  h: number,
): { readonly own: Readonly<Record<string, unknown>>; readonly edges: readonly OwnEdge[] } {
  const leaning = (own: Readonly<Record<string, unknown>>, left: number, right: number) => ({
    own: { height: h, ...own },
    edges: [
      ['left', Math.hypot(h, left), mm / 2],
      ['right', Math.hypot(h, right), mm / 2],
      ['end', mm - left - right, h],
    ] as const,
  });
  const most = (Math.atan((mm / h) * 0.4) * 180) / Math.PI;
  const tan = (deg: number): number => h * Math.tan((deg * Math.PI) / 180);
  switch (shape) {
    case 6: {
      const taper = Math.floor(Math.min(most, (size % 40) - 5));
      return leaning({ taper }, tan(taper), tan(taper));
    }
    case 7: {
      const taperLeft = Math.floor(Math.min(most, size % 50));
      return leaning({ taperLeft, taperRight: '2deg' }, tan(taperLeft), tan(2));
    }
    case 8: {
      const endWidth = Math.round(mm * (0.4 + size / 150));
      return leaning({ endWidth }, (mm - endWidth) / 2, (mm - endWidth) / 2);
    }
    case 9:
      return {
        own: { outline: `0,0; ${mm},0; ${mm},${h} r2; ${mm / 2},${h + 6}; 0,${h} c1` },
        edges: [['2', h - 2, mm / 2]],
      };
    case 10:
      // Its foot is not the first of its edges, and folded in part.
      return {
        own: {
          outline: `${mm + 4},${h}; -3,${h}; -3,-2 edge foot-line; ${mm + 4},-2`,
          foot: 'foot-line',
          footFrom: 3,
          footTo: 3 + mm,
        },
        edges: [['1', mm + 7, h]],
      };
    case 11:
      return leaning({ joggle: Math.max(1, size / 12), angle: size % 2 === 0 ? 45 : 90 }, 0, 0);
    case 12:
      return size % 2 === 0
        ? { own: { angle: 180, height: Math.min(h, 12) }, edges: [] }
        : { own: { angle: 180, hemShape: 'teardrop', height: 14, radius: 1.5 }, edges: [] };
    default:
      return leaning({}, 0, 0);
  }
}

/** What a flange may have besides. */
const extraOf = (
  { extra, size, shape }: Wanted,
  mm: number,
  h: number,
): Readonly<Record<string, unknown>> => {
  const across = (mm / 2).toFixed(1);
  const isPlain = shape < 9 || shape > 12;
  switch (extra) {
    case 0:
      return { radius: size / 20 };
    case 1:
      return { rule: 'k:0.35', radius: 2 };
    case 2:
      return isPlain ? { holes: `from foot ${h / 2 + 3}, middle, M5` } : {};
    case 3:
      return isPlain ? { holes: `from end 5, from right ${across}, 4.5` } : {};
    case 4:
      return { holes: `x ${across}, y ${h / 2 + 2}, 3 x 8` };
    case 5:
      // Over the free end of a plain one.
      return {
        cutouts: `${mm / 3},${h - 3}; ${mm / 2},${h - 3}; ${mm / 2},${h + 9}; ${mm / 3},${h + 9}`,
      };
    case 6:
      // Over its own fold.
      return { cutouts: `${mm / 3},-4; ${mm / 2},-4; ${mm / 2},${h / 3}; ${mm / 3},${h / 3}` };
    case 7:
      return { slits: `${across},${h / 2} ${across},${h / 2 + 4}` };
    case 8:
      return { cornerRadius: 1 + (size % 6) };
    case 9:
      return { cornerChamfer: 1 + (size % 6) };
    case 10:
      return { slots: true, slotLength: 20, slotLand: 5 };
    case 11:
      return isPlain ? { height: `${h} + radius` } : {};
    case 12:
      return {
        holes: [{ outline: `${mm / 3},${h / 2}; ${mm / 2},${h / 2}; ${mm / 2},${h / 2 + 4}` }],
      };
    default:
      return {};
  }
};

/** Flanges that stand on one panel, or one on the other; `isSquare` of those that may be lapped. */
const pairsOf = (flanges: readonly Grown[]): readonly Pair[] =>
  flanges.flatMap((one, i) =>
    flanges
      .slice(i + 1)
      .filter((other) => other.parent === one.parent || other.parent === one.map['name'])
      .map((other) => ({
        names: [String(one.map['name']), String(other.map['name'])] as const,
        isSquare: [one, other].every(
          ({ map }) => map['angle'] === 90 && map['direction'] === one.map['direction'],
        ),
      })),
  );

interface Pair {
  readonly names: readonly [string, string];
  readonly isSquare: boolean;
}

const cornersOn = (
  pairs: readonly Pair[],
  wanted: readonly { readonly at: number; readonly style: number; readonly gap: number }[],
): string[] =>
  wanted.map(({ at, style, gap }) => {
    const { names, isSquare } = pairs[at % pairs.length] as Pair;
    const [one, other] = names;
    const said = ['open', `butt through ${one}`, `butt through ${other}`];
    if (isSquare) said.push(`lapped through ${one} lap 12`);
    return `${one} and ${other} ${said[style % said.length]}${gap > 0 ? ` gap ${gap / 2}` : ''}`;
  });

const withoutNothing = (values: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));
