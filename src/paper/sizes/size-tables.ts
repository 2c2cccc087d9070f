import { figure } from '../../text/figures.ts';
import type { Printed } from '../../text/printed.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { BlankSizes } from './blank-sizes.ts';
import { type Datum, fromDatum } from './datum.ts';
import type { KeyedHole } from './hole-keys.ts';
import { type Grid, type HoleGroup } from './hole-patterns.ts';
import { type CornerArc, type OutlineCorner, outlineCorners } from './outline-corners.ts';

/** A table of sizes, for any paper. */
export interface SizeTable {
  readonly title: string;
  readonly columns: readonly SizeColumn[];
  readonly rows: readonly (readonly string[])[];
  readonly captions?: readonly string[];
}

export interface SizeColumn {
  readonly name: string;
  readonly isBig?: boolean;
  readonly isText?: boolean;
}

/** In what the figures of a picture are, and to what. */
export const sizesText = ({ unit }: Printed): string =>
  unit === 'mm'
    ? 'In mm, to 0.1.'
    : 'In inches, to the nearest 1/32; what is over or short of that in thousandths behind it.';

/** Marks to the tenth that a scriber keeps to. */
const marks = ({ tape }: Printed, point: Vec2): string[] => point.map((mm) => tape(mm, 1));

const key = (name: string): SizeColumn => ({ name, isBig: true, isText: true });
const big = (name: string): SizeColumn => ({ name, isBig: true });
const words = (name: string): SizeColumn => ({ name, isText: true });

/** All tables that belong to the picture of a blank, in the order in which it is marked out. */
export const sizeTables = (sizes: BlankSizes): SizeTable[] => [
  ...cornersTable(sizes),
  ...foldsTable(sizes),
  ...holesTable(sizes),
];

/** What of a blank and its cut-outs is marked out corner by corner. */
const cornersTable = (sizes: BlankSizes): SizeTable[] => {
  const {
    drawn: { datum },
    print,
  } = sizes;
  const origin: Vec2 = [datum.x.at[0], datum.y.at[1]];
  const all = [
    ...sizes.tabled.corners,
    ...sizes.groups.flatMap(({ holes: [hole] }) =>
      hole === undefined ? [] : cutOutCorners(hole, origin),
    ),
  ];
  if (all.length === 0) return [];
  const hasRound = all.some((c) => c.roundMm !== undefined);
  const hasArc = all.some((c) => c.arc !== undefined);
  return [
    {
      title: 'Corners that the picture has no sizes of',
      columns: [
        key('Corner'),
        big(`x ${print.word}`),
        big(`y ${print.word}`),
        ...(hasRound ? [words('Rounded')] : []),
        ...(hasArc ? [words('To the next')] : []),
      ],
      rows: all.map((corner) => [
        corner.key,
        ...marks(print, fromDatum(datum, corner.at)),
        ...(hasRound ? [roundText(corner, print)] : []),
        ...(hasArc ? [arcText(corner.arc, datum, print)] : []),
      ]),
      captions: [
        'Corners are counted counter-clockwise round the blank. Of a rounded one: where its edges would meet.',
        ...(hasArc
          ? ['Arcs: OUT bulges, IN is hollowed out; about: the place of the centre.']
          : []),
      ],
    },
  ];
};

/** The corners of a cut-out whose name and size do not say what it looks like: `h4.1`. */
const cutOutCorners = ({ hole, kind, key: name }: KeyedHole, near: Vec2): OutlineCorner[] =>
  hole.kind === 'loop' && kind === 'cut-out' ? outlineCorners(hole.loop, near, `${name}.`) : [];

const roundText = ({ roundMm }: OutlineCorner, { machine }: Printed): string =>
  roundMm === undefined ? '' : `R${machine(roundMm)}`;

/** `R5 OUT`; `R4 IN about 12.5, 30`, where its centre has to be known. */
const arcText = (arc: CornerArc | undefined, datum: Datum, print: Printed): string => {
  if (arc === undefined) return 'straight';
  const { radiusMm, side, isLong, about } = arc;
  const centre =
    about === undefined ? '' : ` about ${marks(print, fromDatum(datum, about)).join(', ')}`;
  return `R${print.machine(radiusMm)} ${side.toUpperCase()}${centre}${isLong ? ', the long way' : ''}`;
};

/** The ends of fold lines that the picture has no sizes of: those that run askew. */
const foldsTable = ({ tabled: { folds }, drawn: { datum }, print }: BlankSizes): SizeTable[] =>
  folds.length === 0
    ? []
    : [
        {
          title: 'Ends of the fold lines that the picture has no sizes of',
          columns: [key('Fold'), big('from x'), big('y'), big('to x'), big('y')],
          rows: folds.map(({ id, centreLine }) => [
            id,
            ...centreLine.flatMap((p) => marks(print, fromDatum(datum, p))),
          ]),
        },
      ];

const holesTable = (sizes: BlankSizes): SizeTable[] => {
  const { groups, drawn, print } = sizes;
  const slots = drawn.flat.bends.flatMap(({ id }) => {
    const count = drawn.flat.cutouts.filter((h) => h.kind === 'loop' && h.fold === id).length;
    return count === 0 ? [] : [`Along fold ${id}: a row of ${count} slots, cut with the outline.`];
  });
  if (groups.length === 0 && slots.length === 0) return [];
  return [
    {
      title: 'Holes',
      columns: [
        key('Hole'),
        key('Size'),
        words('Kind'),
        big(`x ${print.word}`),
        big(`y ${print.word}`),
        words('On, given as'),
      ],
      rows: groups.map((group) => holeRow(group, sizes)),
      captions: [
        ...(groups.some((g) => g.pattern?.kind === 'circle')
          ? [
              'On a pitch circle (PC): x and y of its middle; angles counter-clockwise from the right.',
            ]
          : []),
        ...(groups.some((g) => g.pattern?.kind === 'grid')
          ? ['Of rows: x and y of the first hole.']
          : []),
        ...slots,
      ],
    },
  ];
};

const holeRow = (group: HoleGroup, { drawn: { datum }, print }: BlankSizes): string[] => {
  const first = group.holes[0] as KeyedHole;
  const count = group.holes.length;
  return [
    group.key,
    count === 1 ? first.size : `${count} x ${first.size}`,
    [kindText(first), ...patternTexts(group, print)].join(', '),
    ...marks(print, fromDatum(datum, group.at)),
    `${first.hole.panel}: ${calledText(group)}`,
  ];
};

/** The input that a hole came from, which stands behind its name in findings: `holesA 2`. */
const calledText = ({ holes }: HoleGroup): string => {
  const [first, last] = [holes[0], holes.at(-1)].map((h) => (h as KeyedHole).hole.from);
  return first === last ? (first as string) : `${first as string} ...`;
};

/** `slot, upright`. */
const kindText = ({ kind, leanDeg }: KeyedHole): string =>
  leanDeg === undefined ? kind : `${kind}, ${leanText(leanDeg)}`;

const leanText = (leanDeg: number): string =>
  isNear(leanDeg, 0) || isNear(leanDeg, 180)
    ? 'level'
    : isNear(leanDeg, 90)
      ? 'upright'
      : `at ${figure(leanDeg, 1)}°`;

const isNear = (deg: number, to: number): boolean => Math.abs(deg - to) < 0.05;

const patternTexts = ({ pattern, holes }: HoleGroup, print: Printed): string[] => {
  if (pattern === undefined) return [];
  if (pattern.kind === 'circle')
    return [
      `on PC ${print.tape(pattern.diameterMm, 1)}`,
      `first at ${figure(pattern.firstDeg)}°`,
      `then every ${figure(360 / holes.length)}°`,
    ];
  return [
    ...(pattern.count > 1 ? [stepText(pattern.count, pattern.step, print)] : []),
    ...(pattern.rows > 1 ? [rowsText(pattern, print)] : []),
  ];
};

const rowsText = ({ rows, rowStep, count }: Grid, print: Printed): string =>
  count > 1 ? `${rows} such rows ${stepsOf(rowStep, print)}` : stepText(rows, rowStep, print);

const stepText = (count: number, step: Vec2, print: Printed): string =>
  `${count} in a row ${stepsOf(step, print)}`;

/** `every 20 to the right`; `every (12, 5)` of a slanting row. */
const stepsOf = ([x, y]: Vec2, { machine }: Printed): string => {
  // To the hundredth, for it adds up from hole to hole.
  const step = (mm: number): string => machine(Math.abs(mm));
  if (Math.abs(y) < 0.005) return `every ${step(x)} to the ${x > 0 ? 'right' : 'left'}`;
  if (Math.abs(x) < 0.005) return `every ${step(y)} ${y > 0 ? 'up' : 'down'}`;
  const side = (v: number, on: string, back: string): string => `${step(v)} ${v > 0 ? on : back}`;
  return `every ${side(x, 'right', 'left')}, ${side(y, 'up', 'down')}`;
};
