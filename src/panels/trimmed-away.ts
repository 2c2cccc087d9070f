import { flatten } from '../flatten/flatten.ts';
import type { Loop } from '../geometry/loop.ts';
import { levelCrossings, pieceOf, pointOn } from '../geometry/piece.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';
import { type Finding, hasStop, refuse } from '../model/finding.ts';
import type { Part } from '../model/part.ts';
import { atMost, figure } from '../text/figures.ts';
import { ANY_RULE } from './body.ts';
import type { CutPanel } from './cut-panel.ts';
import { shapeHeight } from './shape.ts';
import type { Bend } from './tree.ts';

/**
 * Flanges that their neighbours leave nothing of at the height that was asked for: each is cut back
 * at its corners, and where both cuts meet it ends. The height that is told leaves an end as wide as
 * the sheet is thick.
 */
export const trimmedAway = (
  part: Part,
  panels: readonly CutPanel[],
  bends: readonly Bend[],
): Finding[] => {
  const flat = flatten(part, ANY_RULE);
  if (hasStop(flat.findings)) return [];
  return panels.flatMap(({ shape, isBase, input }): Finding[] => {
    const region = flat.panels.find(({ id }) => id === shape.id)?.region;
    // What is folded on at the end takes its bend from there.
    const isFolded = bends.some((b) => b.parent === shape.id && b.parentSide.edge === 'end');
    if (isBase || isFolded || !shape.isPlain || region === undefined) return [];
    const [asked, top] = [shapeHeight(shape), Math.max(...region.map(({ y }) => y))];
    if (top > asked - PROOF_MM) return [];
    const most = highest(region, part.thicknessMm, top);
    return [
      refuse(
        'flange-trimmed-away',
        [input],
        `${shape.id} is to be ${figure(asked)} high, and what its neighbours leave of it ends ${figure(top)} up`,
        [],
        ...(most === undefined ? [] : [`make it at most ${atMost(most)} high`]),
        'give it from and to farther from its corners, or let it run on at a butt corner',
      ),
    ];
  });
};

/** The greatest height at which a region is still so wide; nothing where it is so nowhere. */
const highest = (region: Loop, widthMm: number, top: number): number | undefined => {
  const widthAt = (y: number): number => {
    const xs = region.flatMap((_, i) => {
      const piece = pieceOf(region, i);
      return levelCrossings(piece, [0, 1], y).map((share) => pointOn(piece, share)[0]);
    });
    return xs.length < 2 ? 0 : Math.max(...xs) - Math.min(...xs);
  };
  let [low, high] = [Math.min(...region.map(({ y }) => y)), top];
  if (widthAt((low + high) / 2) < widthMm && widthAt(low + PROOF_MM) < widthMm) return undefined;
  for (let step = 0; step < STEPS; step++) {
    const half = (low + high) / 2;
    [low, high] = widthAt(half) >= widthMm ? [half, high] : [low, half];
  }
  return low;
};

/** So often a height is halved: to a thousandth of a millimetre of any flange. */
const STEPS = 25;
