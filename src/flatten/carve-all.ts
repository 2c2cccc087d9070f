import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { tidyLoop } from '../geometry/tidy-loop.ts';
import { pieceOf, pointOn } from '../geometry/piece.ts';
import { NEARLY_PARALLEL_SINE, NO_FLAT_MM } from '../geometry/tolerance.ts';
import { cross, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Joint } from '../fold/joint.ts';
import type { Finding } from '../model/finding.ts';
import { carve } from './carve.ts';
import { type Draft, type DraftPanel, foldPieceOf, foldsOn, jointFrom, jointOf } from './draft.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import { type NotchSize, notchFor } from './notch.ts';
import type { CarveProblem } from './carve-end.ts';

/**
 * Moves in every folded edge of every panel. An edge that cannot be moved in gives a finding, and
 * its panel is left as it is.
 */
export const carveAll = (draft: Draft): void => {
  for (const target of draft.panels.values()) {
    const folds = foldsOn(draft, target.panel.id);
    if (folds.every((fold) => carveOne(draft, target, fold))) checkNotches(draft, target, folds);
  }
};

/**
 * Checks the notches: one that is deeper than its panel runs into the bend or the edge opposite.
 */
const checkNotches = (
  draft: Draft,
  { panel, loop }: DraftPanel,
  folds: readonly string[],
): void => {
  const bottoms = loop.flatMap((v, i) =>
    v.origin.kind === 'relief' ? [pointOn(pieceOf(loop, i), 0.5)] : [],
  );
  if (bottoms.length === 0 || selfCrossing(tidyLoop(loop)) === undefined) return;
  const over = Math.max(
    ...folds.flatMap((fold) => beyondTangent(jointFrom(draft, fold, panel.id), bottoms)),
    0,
  );
  const more = over > 0 ? `at least ${atLeast(over)} mm more` : 'more';
  draft.findings.push(
    foundOn(
      'no-room-for-relief',
      { panels: [panel.id], folds },
      `On ${panel.id} a relief runs into the bend or the edge opposite`,
      `give it ${more} between them, or make the inside radius smaller`,
    ),
  );
};

/**
 * How far points of the panel lie beyond a fold's tangent line. Points beyond its mould line are
 * the fold's own and do not count.
 */
const beyondTangent = (
  { parentAt, parentDir, figures }: Joint,
  points: readonly Vec2[],
): number[] =>
  points
    .map((p) => figures.setbackMm - dot(sub(p, parentAt), leftOf(parentDir)))
    .filter((over) => over < figures.setbackMm);

const carveOne = (draft: Draft, target: DraftPanel, fold: string): boolean => {
  const at = foldPieceOf(target.loop, fold);
  const panel = target.panel.id;
  const setbackOf = (id: string): number => jointOf(draft, id).figures.setbackMm;
  const carved =
    at < 0
      ? ({ kind: 'edge-vanishes' } as const)
      : carve(target.loop, at, {
          fold,
          panel,
          setbackMm: setbackOf(fold),
          notch: notchOf(draft, fold),
          setbackOf,
        });
  if ('kind' in carved) {
    draft.findings.push(problemFinding(draft, panel, fold, carved));
    return false;
  }
  target.loop = carved;
  return true;
};

const notchOf = (draft: Draft, fold: string): NotchSize | undefined => {
  const { angleDeg, insideRadiusMm, midSurface } = jointOf(draft, fold).fold;
  return angleDeg === 0 || midSurface === true
    ? undefined
    : notchFor(draft.part.relief, draft.part.thicknessMm, insideRadiusMm);
};

/** Whether two folds run along each other on a panel, so that what lies between them is a width. */
const areParallel = (draft: Draft, panel: string, ...folds: readonly string[]): boolean => {
  const [a, b] = folds.map((id) => {
    const { fold, parentDir, childDir } = jointOf(draft, id);
    return unit(fold.parent.panel === panel ? parentDir : childDir);
  }) as [Vec2, Vec2];
  return Math.abs(cross(a, b)) < NEARLY_PARALLEL_SINE;
};

/** Says that one fold's bend takes all of the stretch of another, which it meets at an angle. */
const leavesNone = (
  draft: Draft,
  {
    panels,
    folds: [fold],
  }: { readonly panels: readonly string[]; readonly folds: readonly string[] },
  { other }: { readonly other: string },
): Finding => {
  const [name, otherName] = [foldName(draft.part, fold ?? ''), foldName(draft.part, other)];
  const { setbackMm } = jointOf(draft, fold ?? '').figures;
  return foundOn(
    'leg-too-short',
    { panels, folds: [fold ?? '', other] },
    `On ${panels.join()} ${name} runs at an angle to ${otherName} and its bend, ${figure(setbackMm)} mm wide from the mould line, takes all of that fold's length`,
    `make ${otherName} longer, let it begin further from ${name}, or make the inside radius smaller`,
  );
};

const problemFinding = (
  draft: Draft,
  panel: string,
  fold: string,
  problem: CarveProblem,
): Finding => {
  const { setbackMm } = jointOf(draft, fold).figures;
  const name = foldName(draft.part, fold);
  const on = { panels: [panel], folds: [fold] };
  switch (problem.kind) {
    case 'panel-too-short':
      return {
        ...foundOn(
          'leg-too-short',
          on,
          `${panel} reaches ${figure(Math.max(0, problem.reachMm))} mm from the ${draft.part.measure} corner of ${name}, and the bend takes ${figure(setbackMm)} mm of it`,
          `make it longer than ${atLeast(setbackMm)} mm, or the inside radius smaller`,
        ),
        // As long as the bend takes is not enough: flat metal has to be left.
        ...lacks(Math.max(0, problem.reachMm), setbackMm + NO_FLAT_MM),
      };
    case 'swallows': {
      if (!areParallel(draft, panel, fold, problem.other)) return leavesNone(draft, on, problem);
      const needed = setbackMm + jointOf(draft, problem.other).figures.setbackMm;
      return foundOn(
        'leg-too-short',
        { panels: [panel], folds: [fold, problem.other] },
        `${panel} is too narrow for ${name} and ${foldName(draft.part, problem.other)}, whose bends take ${figure(needed)} mm of it`,
        `make it more than ${atLeast(needed)} mm between them, or the inside radii smaller`,
      );
    }
    case 'edge-vanishes':
      return foundOn(
        'fold-edge-vanishes',
        on,
        `On ${panel} nothing is left of ${name} between its neighbours, since the bends beside it meet before it begins`,
        'make the edge longer, or the inside radius smaller',
      );
    case 'no-room-for-relief':
      return foundOn(
        'no-room-for-relief',
        on,
        `On ${panel} there is no room for a relief beside ${name}`,
        `leave at least ${atLeast(problem.needMm)} mm between it and its neighbour`,
      );
  }
};
