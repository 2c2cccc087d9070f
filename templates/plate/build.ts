import {
  angleWish,
  assemble,
  cosDeg,
  hasStop,
  loopExtents,
  meeting,
  middle,
  outlineLoop,
  placeHole,
  placeHoles,
  pointFindings,
  refuse,
  residualFigures,
  sinDeg,
  spacingWishes,
  splitPlate,
  sub,
  withJoggles,
  without,
} from '../../src/template.ts';
import type {
  AskedPlace,
  Built,
  Cutout,
  Finding,
  FoldLine,
  GivenOutline,
  HoleFrame,
  Loop,
  NamedFoldLine,
  Place,
  SplitPlate,
  Vec2,
  Wish,
  WrittenFoldLine,
} from '../../src/template.ts';
import type { Plate } from './inputs.ts';

const frameOf = ({ thicknessMm }: Pick<Plate, 'thicknessMm'>): HoleFrame => ({
  origin: [0, 0],
  across: [1, 0],
  along: [0, 1],
  thicknessMm,
});

export function plate(v: Plate): Built {
  const at = placedPoints(v);
  const outline = loopThrough('outline', v.outline, at);
  const windows = v.cutouts.map((window, i) =>
    loopThrough(v.cutouts.length > 1 ? `cutouts ${i + 1}` : 'cutouts', window, at),
  );
  const folds = foldLinesOf(v, at);
  const measured = holesAtPoints(v, at);
  const wrong = [
    ...measured.findings,
    ...[outline, ...windows, folds].flatMap((read) => ('findings' in read ? read.findings : [])),
  ];
  if ('findings' in outline || 'findings' in folds || hasStop(wrong)) return { findings: wrong };
  const cutouts = windows.flatMap((read, i): Cutout[] =>
    'loop' in read ? [{ kind: 'loop', from: `cutouts ${i + 1}`, loop: read.loop }] : [],
  );
  const holes = [...placeHoles('holes', v.holes, frameOf(v)), ...measured.holes, ...cutouts];
  const slots = {
    longestMm: v.slotLength,
    landMm: v.slotLand ?? 2 * v.thicknessMm,
    widthMm: v.leastSlotMm,
    landInput: 'slotLand',
  };
  const lines = withJoggles(inTurn(folds.lines, outline.loop), v.thicknessMm, v.measure);
  const split = splitPlate(outline.loop, lines, holes, { insideRadiusMm: v.insideRadiusMm, slots });
  if ('findings' in split) return { findings: [...measured.findings, ...split.findings] };
  const figures = v.points === undefined ? [] : residualFigures(v.points);
  return {
    part: assemble(v, { ...split, wishes: wishesOf(v, split, lines, at) }),
    findings: measured.findings,
    ...(figures.length > 0 && { report: { figures } }),
  };
}

/**
 * What the inputs mean on the plate: the angle at each fold line, and the distances between its
 * holes.
 */
const wishesOf = (
  v: Plate,
  { panels, folds }: Exclude<SplitPlate, Findings>,
  lines: readonly NamedFoldLine[],
  at: ReadonlyMap<string, Vec2>,
): Wish[] => {
  const holes = v.holes.map(({ acrossMm, alongMm, number }): AskedPlace => ({
    from: `holes ${number}`,
    at: [acrossMm, alongMm],
  }));
  return [
    ...folds.flatMap(({ id, parent, child }) => {
      const line = lines.find((l) => `F${l.id}` === id);
      return line === undefined
        ? []
        : [
            angleWish(
              `folds, ${line.called.replace(' of folds', '')}`,
              line.angleDeg,
              parent.panel,
              child.panel,
            ),
          ];
    }),
    ...spacingWishes('holes', holes, panels),
    ...spacingWishes(
      'points',
      [...at].map(([from, place]) => ({ from, at: place })),
      panels,
    ),
  ];
};

type Findings = { readonly findings: readonly Finding[] };

/** An outline with its named points put in. */
const loopThrough = (
  input: string,
  outline: GivenOutline,
  at: ReadonlyMap<string, Vec2>,
): { readonly loop: Loop } | Findings => {
  const strangers = namesOf(outline).filter((name) => !at.has(name));
  if (strangers.length > 0) return { findings: [unknown(input, strangers, at)] };
  const read = outlineLoop(outline, (name) => at.get(name));
  return read.ok
    ? { loop: read.value }
    : {
        findings: [
          refuse(
            'outline-wrong',
            [inputOf(input)],
            `${input} cannot be drawn through its points`,
            [],
            read.mend ?? 'check them',
          ),
        ],
      };
};

const namesOf = ({ corners }: GivenOutline): string[] =>
  corners.flatMap(({ place }) => ('name' in place ? [place.name] : []));

/** The fold lines with their named points put in. */
const foldLinesOf = (
  v: Plate,
  at: ReadonlyMap<string, Vec2>,
): { readonly lines: readonly FoldLine[] } | Findings => {
  const strangers = v.folds.flatMap(({ from, to }) =>
    [from, to].flatMap((place) => ('name' in place && !at.has(place.name) ? [place.name] : [])),
  );
  if (strangers.length > 0) return { findings: [unknown('folds', strangers, at)] };
  const point = (place: Place): Vec2 => ('at' in place ? place.at : (at.get(place.name) ?? [0, 0]));
  return {
    lines: v.folds.map((line) => ({ ...line, from: point(line.from), to: point(line.to) })),
  };
};

/**
 * Fold lines counter-clockwise round the centre of the plate's extents, beginning at its left, the
 * nearer first, so that the order in which they are written makes no difference to the part.
 */
const inTurn = (lines: readonly FoldLine[], outline: Loop): readonly WrittenFoldLine[] => {
  const { minX, minY, maxX, maxY } = loopExtents(outline) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const centre: Vec2 = [(minX + maxX) / 2, (minY + maxY) / 2];
  const placed = lines.map((line, index) => {
    const [x, y] = sub(middle(line.from, line.to), centre);
    const turn = sixDecimals((Math.atan2(y, x) * 180) / Math.PI);
    return {
      line: { ...line, written: index + 1 },
      key: [
        turn === -180 ? 180 : turn,
        sixDecimals(Math.hypot(x, y)),
        ...[...line.from, ...line.to].map(sixDecimals),
      ],
    };
  });
  const firstDifference = (a: readonly number[], b: readonly number[]): number =>
    a.map((n, i) => n - (b[i] ?? 0)).find((d) => d !== 0) ?? 0;
  return placed.toSorted((a, b) => firstDifference(a.key, b.key)).map(({ line }) => line);
};

/**
 * The value to six decimals: far below what a person can tell apart, far above the noise of the
 * arithmetic.
 */
const sixDecimals = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/**
 * Points that were measured on the job, by coordinates or by tape distances. The first one is put
 * at pointsX, pointsY, and the figure is turned about it so that its own x axis (for tape
 * distances, the direction to the second point) points pointsTurn upward from level.
 */
const placedPoints = (v: Plate): ReadonlyMap<string, Vec2> => {
  const all = v.points?.points ?? [];
  const [first] = all;
  const [c, s] = [cosDeg(v.pointsTurn), sinDeg(v.pointsTurn)];
  return new Map(
    all.map(({ name, x, y }): [string, Vec2] => {
      const [dx, dy] = [x - (first?.x ?? 0), y - (first?.y ?? 0)];
      return [name, [v.pointsX + c * dx - s * dy, v.pointsY + s * dx + c * dy]];
    }),
  );
};

/**
 * Holes at the points: each point has one, except those that an outline or a fold line runs to,
 * unless pointHoles names them.
 */
function holesAtPoints(
  v: Plate,
  at: ReadonlyMap<string, Vec2>,
): { readonly holes: readonly Cutout[]; readonly findings: readonly Finding[] } {
  const named = v.pointHoles ?? [];
  const ends = v.folds
    .flatMap(({ from, to }) => [from, to])
    .flatMap((place) => ('name' in place ? [place.name] : []));
  const lines = new Set([...[v.outline, ...v.cutouts].flatMap(namesOf), ...ends]);
  const holes = [...at].flatMap(([name, [acrossMm, alongMm]]): Cutout[] => {
    const own = named.find((p) => p.name === name);
    const hole = own === undefined ? (lines.has(name) ? null : v.pointHole) : own.hole;
    return hole === null
      ? []
      : [
          {
            ...placeHole({ acrossMm, alongMm, ...meeting(hole, 'points') }, name, frameOf(v)),
            inputs: ['points'],
          },
        ];
  });
  const strangers = named.filter(({ name }) => !at.has(name)).map(({ name }) => name);
  return {
    holes,
    findings: [
      ...(v.points === undefined ? [] : pointFindings(v.points)),
      ...(strangers.length > 0 ? [unknown('pointHoles', strangers, at)] : []),
    ],
  };
}

function unknown(input: string, names: readonly string[], at: ReadonlyMap<string, Vec2>): Finding {
  const written = input === 'pointHoles' ? [] : ['write x,y'];
  const what = `${input} names ${[...new Set(names)].join(', ')}, but ${at.size === 0 ? 'no points are given' : `the points are ${[...at.keys()].join(', ')}`}`;
  return refuse(
    'unknown-point',
    [inputOf(input), 'points'],
    what,
    input === 'pointHoles' && at.size === 0 ? [without(input)] : [],
    at.size === 0 ? 'give points' : 'name one of them',
    ...written,
  );
}

/** Name of the input: `cutouts` for `cutouts 2`. */
const inputOf = (place: string): string => place.split(' ')[0] ?? place;
