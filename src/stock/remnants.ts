import { type Extents, loopExtents } from '../geometry/extents.ts';
import { pointGap } from '../geometry/gap.ts';
import { type Loop, rectangle } from '../geometry/loop.ts';
import { holeFlaws, type Region } from '../geometry/region.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { isCircle } from '../geometry/shapes.ts';
import { SAME_LENGTH_MM, wholeDown } from '../geometry/tolerance.ts';
import type { LaidSheet } from '../model/laid.ts';
import { largestRectangle } from './largest-rectangle.ts';
import { leftOf, leftPaths, type PartOutlines } from './left.ts';
import { common, grown, type Paths, pathsOf, regionsOf, simpler, without } from './polygons.ts';

export const KEEPS = ['rectangles', 'outline'] as const;

/** What of a cut sheet goes back into the rack. */
export interface KeepOptions {
  /**
   * Clean rectangles, which are cut or sheared out of what is left; or each piece as it is, by its
   * outline. Rectangles when left out.
   */
  readonly keep?: (typeof KEEPS)[number] | undefined;
  /**
   * Least sides of the clean rectangle that a piece has to hold, mm: 100 x 200 when left out, under
   * which hardly a bracket goes on it (common practice is to keep what is worth a look).
   */
  readonly leastShortMm?: number | undefined;
  readonly leastLongMm?: number | undefined;
}

/** A piece that is kept, in the coordinates of the sheet that it is cut from. */
export interface KeptPiece extends Region {
  readonly isRectangle: boolean;
  readonly box: Extents;
}

const LEAST_SHORT_MM = 100;
const LEAST_LONG_MM = 200;
/** The most pieces that are kept of one sheet. */
const MOST_PIECES = 20;
/** Strips narrower than twice this hold nothing and only bend, mm. */
const STRIP_MM = 5;
/** Outlines are written with this step, mm, and may have lost corners nearer than `FINE_MM`. */
const STEP_MM = 0.1;
const FINE_MM = 0.2;
/** A hole that is nowhere farther than this from one that was there, mm, is that one. */
const ALONG_MM = 1;

/**
 * What is kept of a sheet when its parts are cut, the largest first. Rectangles are whole
 * millimetres long and wide, but for a side that is the sheet's own; each is the largest in what
 * the ones before it left.
 */
export const remnantsOf = (
  sheet: LaidSheet,
  outlines: PartOutlines,
  options: KeepOptions = {},
): readonly KeptPiece[] => {
  const left = leftPaths(sheet, outlines);
  return options.keep === 'outline'
    ? wholePieces(left, sheet.stock.holes, options)
    : rectanglesIn(left, options);
};

/** The largest clean rectangle that is left of a sheet, of whatever size. */
export const cleanRectangle = (sheet: LaidSheet, outlines: PartOutlines): Extents | undefined =>
  leftOf(sheet, outlines)
    .flatMap((region) => largestRectangle(region) ?? [])
    .reduce<Extents | undefined>(
      (a, b) => (a === undefined || areaOf(b) > areaOf(a) ? b : a),
      undefined,
    );

const isLargeEnough = (
  box: Extents,
  { leastShortMm = LEAST_SHORT_MM, leastLongMm = LEAST_LONG_MM }: KeepOptions,
): boolean => {
  const [long, short] = [box.maxX - box.minX, box.maxY - box.minY].toSorted((a, b) => b - a);
  return (
    (long ?? 0) >= leastLongMm - SAME_LENGTH_MM && (short ?? 0) >= leastShortMm - SAME_LENGTH_MM
  );
};

const rectanglesIn = (left: Paths, options: KeepOptions): KeptPiece[] => {
  const kept: KeptPiece[] = [];
  let paths = left;
  while (kept.length < MOST_PIECES) {
    const boxes = regionsOf(paths).flatMap((region) => {
      const found = mayHold(region, options) ? largestRectangle(region) : undefined;
      const box = found && inWhole(found);
      return box !== undefined && isLargeEnough(box, options) ? [box] : [];
    });
    const [best, ...others] = boxes;
    if (best === undefined) break;
    const box = others.reduce((a, b) => (areaOf(b) > areaOf(a) ? b : a), best);
    const outline = rectangle(box.minX, box.minY, box.maxX - box.minX, box.maxY - box.minY);
    kept.push({ isRectangle: true, box, outline, holes: [] });
    paths = without(paths, pathsOf({ outline, holes: [] }));
  }
  return kept;
};

/** Whether a region is not too small already by its box. */
const mayHold = ({ outline }: Region, options: KeepOptions): boolean => {
  const box = loopExtents(outline);
  return box !== undefined && isLargeEnough(box, options);
};

const areaOf = ({ minX, minY, maxX, maxY }: Extents): number => (maxX - minX) * (maxY - minY);

/** A rectangle from the same corner, its sides rounded down to what a tape reads. */
const inWhole = ({ minX, minY, maxX, maxY }: Extents): Extents => ({
  minX,
  minY,
  maxX: minX + wholeDown(maxX - minX),
  maxY: minY + wholeDown(maxY - minY),
});

/**
 * Each piece by its outline, without what hangs on by a narrow strip. It is first shrunk by as much
 * as fewer corners and rounded figures may add to it.
 */
const wholePieces = (left: Paths, known: readonly Loop[], options: KeepOptions): KeptPiece[] => {
  const slack = FINE_MM + STEP_MM;
  // Grown corners may reach farther than what was there before.
  const opened = common(grown(grown(left, -(STRIP_MM + slack)), STRIP_MM), grown(left, -slack));
  return regionsOf(simpler(opened, FINE_MM))
    .filter((region) => mayHold(region, options))
    .flatMap((region): readonly KeptPiece[] => {
      const piece = rounded(region, known.filter(isCircle));
      if (!isSound(piece)) return rectanglesIn(pathsOf(region), options);
      const [clean, box] = [largestRectangle(piece), loopExtents(piece.outline)];
      return clean !== undefined && box !== undefined && isLargeEnough(clean, options)
        ? [{ ...piece, isRectangle: false, box }]
        : [];
    })
    .slice(0, MOST_PIECES);
};

/** In steps; a round hole that the stock had already stays the circle that it is. */
const rounded = ({ outline, holes }: Region, circles: readonly Loop[]): Region => ({
  outline: inSteps(outline),
  holes: holes.map((hole) => circles.find((circle) => runsAlong(hole, circle)) ?? inSteps(hole)),
});

const runsAlong = (hole: Loop, circle: Loop): boolean =>
  hole.every(({ x, y }) => pointGap([x, y], circle) <= ALONG_MM);

const inSteps = (loop: Loop): Loop =>
  loop
    .map(({ x, y }) => ({ x: step(x), y: step(y), bulge: 0 }))
    .filter((v, i, all) => {
      const next = all[(i + 1) % all.length];
      return next === undefined || v.x !== next.x || v.y !== next.y;
    });

const step = (mm: number): number => Math.round(mm / STEP_MM) / Math.round(1 / STEP_MM);

/** More corners or holes than these, and nobody lays anything on it by eye. */
const MOST_CORNERS = 400;
const MOST_HOLES = 100;

/**
 * Whether a piece can be kept by its outline. Rounding may let that touch itself in a corner, and a
 * piece like a sieve is of no use whole: of both the clean rectangles are kept.
 */
const isSound = (region: Region): boolean =>
  region.outline.length > 2 &&
  region.outline.length <= MOST_CORNERS &&
  region.holes.length <= MOST_HOLES &&
  selfCrossing(region.outline) === undefined &&
  region.holes.every(
    (hole) => isCircle(hole) || (hole.length > 2 && selfCrossing(hole) === undefined),
  ) &&
  holeFlaws(region).length === 0;
