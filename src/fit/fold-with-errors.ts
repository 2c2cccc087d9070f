import { along, leftOf } from '../geometry/vec2.ts';
import type { Asked, AskedBend } from '../contract/asked.ts';
import { type Contour, contourOf } from '../measure/contours.ts';
import { type FoldedRegions, foldRegions, isMidSurface } from '../measure/folded.ts';
import type { FoldedFile } from '../measure/folded-file.ts';
import { type Crease, type Split, splitAtFolds } from '../measure/regions.ts';
import { AS_MADE, loopOf } from '../measure/placing.ts';

/** A blank as it was made, ready to be folded up well or badly. */
export interface BlankToFold {
  readonly asked: Asked;
  readonly outline: Contour;
  readonly holes: readonly Contour[];
  readonly split: Split;
}

/** What goes wrong when a part is folded: errors of the whole part, or of one fold. */
export interface FoldErrors {
  readonly thicknessMm?: number;
  readonly kFactor?: number;
  readonly insideRadiusMm?: number;
  /** A fold line shifted to the left of its direction. */
  readonly lands?: { readonly fold: string; readonly mm: number };
  readonly angle?: { readonly fold: string; readonly deg: number };
  /** Errors of single folds, on top of those that all have. */
  readonly own?: ReadonlyMap<string, OwnErrors>;
}

/** Errors of one fold by itself: its K, its inside radius and the length of its zone. */
export interface OwnErrors {
  readonly kFactor?: number;
  readonly insideRadiusMm?: number;
  readonly allowanceMm?: number;
}

/**
 * The blank, cut into regions; `undefined` where fold lines cross, but such a part never gets this
 * far.
 */
export const blankToFold = (asked: Asked): BlankToFold | undefined => {
  const outline = contourOf(loopOf(asked.cut.outline));
  const split = splitAtFolds(
    outline.loop,
    asked.bends.map(({ id, centreLine: [from, to] }) => ({ id, from, to })),
  );
  if ('crossing' in split) return undefined;
  return { asked, outline, holes: asked.cut.holes.map((h) => contourOf(loopOf(h))), split };
};

/** The part that results when its blank is folded with these errors. */
export const foldWithErrors = (
  { asked, outline, holes, split }: BlankToFold,
  errors: FoldErrors,
): FoldedFile => {
  const thicknessMm = asked.thicknessMm + (errors.thicknessMm ?? 0);
  const folds = { ...asked, thicknessMm };
  const bends = new Map(
    asked.bends.map((b) => [b.id, bentWith(b, asked.thicknessMm, thicknessMm, errors)]),
  );
  const directions = new Map(asked.bends.map((b) => [b.id, b.direction]));
  const creases = split.creases.map((c) =>
    c.id === errors.lands?.fold ? shifted(c, errors.lands.mm) : c,
  );
  const folded: FoldedRegions = foldRegions(
    { ...split, creases },
    bends,
    (id) => directions.get(id) ?? 'up',
    folds,
  );
  return { asked: folds, to: AS_MADE, outline, holes, marks: [], regions: split.regions, folded };
};

/**
 * The regions with the true length of a bend. Its metal is as long as its neutral line, A (r + K
 * t), whatever length was used, and it spreads to both sides of the line that it is folded at.
 */
const bentWith = (
  bend: AskedBend,
  t: number,
  thicknessMm: number,
  errors: FoldErrors,
): AskedBend => {
  if (isMidSurface(bend) || bend.angleDeg === 0) return bend;
  const angleDeg = bend.angleDeg + (errors.angle?.fold === bend.id ? errors.angle.deg : 0);
  const own = errors.own?.get(bend.id) ?? {};
  const kFactor = bend.kFactor + (own.kFactor ?? 0) + (errors.kFactor ?? 0);
  const radius = (own.insideRadiusMm ?? 0) + (errors.insideRadiusMm ?? 0);
  const more =
    ((bend.angleDeg * Math.PI) / 180) * (radius + kFactor * thicknessMm - bend.kFactor * t) +
    (own.allowanceMm ?? 0);
  return {
    ...bend,
    angleDeg,
    kFactor,
    insideRadiusMm: bend.insideRadiusMm + radius,
    allowanceMm: ((bend.allowanceMm + more) * angleDeg) / bend.angleDeg,
  };
};

const shifted = (c: Crease, mm: number): Crease => {
  const out = leftOf(c.dir);
  return {
    ...c,
    at: along(c.at, out, mm),
    ends: [along(c.ends[0], out, mm), along(c.ends[1], out, mm)],
  };
};
