import { setbackMm } from '../bending/setback.ts';
import type { CommonValues } from '../forms/common.ts';
import { pieceOf } from '../geometry/piece.ts';
import { SAME_LENGTH_MM } from '../geometry/tolerance.ts';
import { cross, dot, sub, unit } from '../geometry/vec2.ts';
import type { Corner } from '../model/part.ts';
import { nearest } from '../text/nearest.ts';
import { letterOf } from './tree.ts';
import type { Figures } from './figures.ts';
import type { GivenCornerMap, GivenFlangeMap } from './given.ts';
import type { Flange, Piece } from './piece.ts';
import { edgeOf, flangeShape, shapeHeight, shapeWidth, SIZE } from './shape.ts';

/** How neighbouring flanges meet: the corners of the part, and its flanges with the tabs of laps. */
export interface Joined {
  readonly flanges: readonly Flange[];
  readonly corners: readonly Corner[];
}

const GAP = { kind: 'length', least: 0, most: 100 } as const;

/** Nothing where that told a problem. */
export function cornersOf(
  { given, base, flanges }: Piece,
  figures: Figures,
  values: CommonValues,
): Joined | undefined {
  let whole = flanges;
  const corners: Corner[] = [];
  const told = figures.problems.length;
  for (const [i, corner] of given.corners.entries()) {
    const at = `${given.at}corners[${i}]`;
    const read = readCorner(corner, at, flanges, figures);
    if (read === undefined) continue;
    const foldOf = (flange: Flange): string =>
      flange.given.fold ?? letterOf(flanges.findIndex(({ id }) => id === flange.id));
    const [one, other] = read.pair;
    corners.push({
      folds: [foldOf(one), foldOf(other)],
      style: corner.style === 'open' ? 'open' : 'butt',
      ...(read.through !== undefined && { through: foldOf(read.through) }),
      ...(read.gapMm !== undefined && { gapMm: read.gapMm }),
    });
    if (corner.style !== 'lapped' || read.through === undefined) continue;
    const short = read.through.id === one.id ? other : one;
    const parent = [base, ...flanges.map(({ shape }) => shape)].find(
      ({ id }) => id === short.parent,
    );
    const lapped =
      parent === undefined
        ? undefined
        : lap(
            {
              short: whole.find(({ id }) => id === short.id) ?? short,
              through: read.through,
              parent,
              corner,
              at,
              gapMm: read.gapMm ?? values.cornerGapMm,
            },
            figures,
            values,
          );
    if (lapped !== undefined)
      whole = [
        ...whole.map((flange) => (flange.id === short.id ? lapped.short : flange)),
        lapped.tab,
      ];
  }
  return figures.problems.length > told ? undefined : { flanges: whole, corners };
}

interface ReadCorner {
  readonly pair: readonly [Flange, Flange];
  readonly through: Flange | undefined;
  readonly gapMm: number | undefined;
}

function readCorner(
  corner: GivenCornerMap,
  at: string,
  flanges: readonly Flange[],
  figures: Figures,
): ReadCorner | undefined {
  const names = flanges.map(({ id }) => id);
  const flangeOf = (name: string, path: string): Flange | undefined => {
    const found = flanges.find(({ id }) => id === name.trim());
    if (found !== undefined) return found;
    const meant = nearest(name, names);
    return figures.problem(
      path,
      name,
      names.length === 0
        ? 'nothing, for there are no flanges'
        : `a flange: ${names.slice(0, 12).join(', ')}`,
      meant === undefined ? undefined : `did you mean ${meant}?`,
    );
  };
  const pair = corner.between.map((name) => flangeOf(name, `${at}.between`));
  const gapMm = corner.gap === undefined ? undefined : figures.read(corner.gap, `${at}.gap`, GAP);
  const [one, other] = pair;
  if (one === undefined || other === undefined || (corner.gap !== undefined && gapMm === undefined))
    return undefined;
  if (!isOnOnePanel(one, other) || one.id === other.id)
    return figures.problem(
      `${at}.between`,
      corner.between.join(' and '),
      'two flanges that are folded on one panel',
    );
  if (corner.style === 'open') return { pair: [one, other], through: undefined, gapMm };
  const through =
    corner.through === undefined ? undefined : flangeOf(corner.through, `${at}.through`);
  if (corner.through !== undefined && through === undefined) return undefined;
  return through === undefined || (through.id !== one.id && through.id !== other.id)
    ? figures.problem(
        `${at}.through`,
        corner.through,
        `the flange that runs on at the corner: ${one.id} or ${other.id}`,
      )
    : { pair: [one, other], through, gapMm };
}

/** Both grow on one panel, or one of them on the other. */
const isOnOnePanel = (one: Flange, other: Flange): boolean =>
  one.parent === other.parent || one.parent === other.id || other.parent === one.id;

interface Lap {
  readonly short: Flange;
  readonly through: Flange;
  readonly parent: Flange['shape'];
  readonly corner: GivenCornerMap;
  readonly at: string;
  readonly gapMm: number;
}

/**
 * A lapped corner of two square flanges: the one that does not run on ends a thickness and a gap
 * before the inside of the other, and carries a tab on that end, turned by the corner of the base,
 * which lies against it.
 */
function lap(
  { short, through, parent, corner, at, gapMm }: Lap,
  figures: Figures,
  values: CommonValues,
): { readonly short: Flange; readonly tab: Flange } | undefined {
  const lapMm = corner.lap === undefined ? 20 : figures.read(corner.lap, `${at}.lap`, SIZE);
  if (lapMm === undefined) return undefined;
  const isSquare = [short, through].every(
    ({ angleDeg, shape, joggleMm, direction }) =>
      angleDeg === 90 && shape.isPlain && joggleMm === undefined && direction === short.direction,
  );
  const meeting = cornerBetween(parent, short.edge, through.edge);
  if (
    !isSquare ||
    meeting === undefined ||
    shapeWidth(short.shape) < (edgeOf(short.shape, 'end')?.lengthMm ?? 0) - SAME_LENGTH_MM
  )
    return figures.problem(
      `${at}.style`,
      corner.style,
      'lapped between two flanges of 90 degrees, the same way up, on edges with a corner between them',
      'grow a flange on left or right of one of them instead',
    );
  const { side, turnDeg } = meeting;
  const edgeMm = edgeOf(parent, short.edge)?.lengthMm ?? 0;
  const inset = (values.thicknessMm + gapMm) / Math.sin((turnDeg * Math.PI) / 180);
  const [from, to] = short.stretch ?? [0, edgeMm];
  const isAtStart = parent.backwards.has(short.edge) !== (side === 'right');
  const stretch = isAtStart
    ? ([Math.max(from, inset), to] as const)
    : ([from, Math.min(to, edgeMm - inset)] as const);
  const notch = 2 * Math.max(values.thicknessMm, values.leastSlotMm);
  const heightMm = shapeHeight(short.shape);
  const foot = setbackMm(90, short.radiusMm, values.thicknessMm, values.measure) + notch;
  const given: GivenFlangeMap = {
    name: `${short.id} tab at ${through.id}`,
    on: `${short.id} ${side}`,
    height: lapMm,
  };
  if (heightMm - foot < notch)
    return figures.problem(
      `${at}.style`,
      corner.style,
      `lapped on a flange at least ${Math.ceil(foot + notch)} high: above the bend there is no room for a tab`,
      'give butt',
    );
  return {
    short: {
      ...short,
      stretch,
      shape: flangeShape(short.id, {
        widthMm: stretch[1] - stretch[0],
        heightMm,
        inLeftMm: 0,
        inRightMm: 0,
      }),
    },
    tab: {
      id: given.name,
      at,
      given,
      parent: short.id,
      edge: side,
      stretch: [foot, heightMm],
      shape: flangeShape(given.name, {
        widthMm: heightMm - foot,
        heightMm: lapMm,
        inLeftMm: 0,
        inRightMm: 0,
      }),
      foot: 'foot',
      footStretch: undefined,
      angleDeg: turnDeg,
      direction: short.direction,
      radiusMm: values.insideRadiusMm,
      hasOwnRadius: false,
      rule: undefined,
      joggleMm: undefined,
    },
  };
}

/** Which end of a flange looks at its neighbour, and by how much the outline turns there. */
const cornerBetween = (
  { outline }: Flange['shape'],
  short: string,
  through: string,
): { readonly side: 'left' | 'right'; readonly turnDeg: number } | undefined => {
  const [i, j] = [short, through].map((name) => outline.findIndex(({ edge }) => edge === name));
  if (i === undefined || j === undefined || i < 0 || j < 0) return undefined;
  const isNext = (i + 1) % outline.length === j;
  if (!isNext && (j + 1) % outline.length !== i) return undefined;
  const [first, second] = (isNext ? [i, j] : [j, i]).map((index) => {
    const piece = pieceOf(outline, index);
    return unit(sub(piece.to, piece.from));
  });
  if (first === undefined || second === undefined) return undefined;
  const turnDeg = (Math.atan2(cross(first, second), dot(first, second)) * 180) / Math.PI;
  // A flange runs against the edge that it grows on: its left end lies where the edge ends.
  return turnDeg > 1 && turnDeg < 179 ? { side: isNext ? 'left' : 'right', turnDeg } : undefined;
};
