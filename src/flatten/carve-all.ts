import { atLeast, figure } from '../figures.ts';
import { type Finding, stop } from '../model/finding.ts';
import { carve, type CarveProblem } from './carve.ts';
import { type Draft, type DraftPanel, foldPieceOf, foldsOn, jointOf } from './draft.ts';
import { type NotchSize, notchFor } from './notch.ts';

/** Moves in every folded edge of every panel. What cannot be moved in is a finding, and its panel is left there. */
export const carveAll = (draft: Draft): void => {
  for (const target of draft.panels.values()) {
    for (const fold of foldsOn(draft, target.panel.id)) {
      if (!carveOne(draft, target, fold)) break;
    }
  }
};

const carveOne = (draft: Draft, target: DraftPanel, fold: string): boolean => {
  const at = foldPieceOf(target.loop, fold);
  const panel = target.panel.id;
  const setbackOf = (id: string): number => jointOf(draft, id).figures.setbackMm;
  const carved =
    at < 0
      ? ({ kind: 'edge-vanishes' } as const)
      : carve(target.loop, at, { fold, panel, setbackMm: setbackOf(fold), notch: notchOf(draft, fold), setbackOf });
  if ('kind' in carved) {
    draft.findings.push(problemFinding(draft, panel, fold, carved));
    return false;
  }
  target.loop = carved;
  return true;
};

const notchOf = (draft: Draft, fold: string): NotchSize | undefined => {
  const { angleDeg, insideRadiusMm } = jointOf(draft, fold).fold;
  return angleDeg === 0 ? undefined : notchFor(draft.part.relief, draft.part.thicknessMm, insideRadiusMm);
};

const problemFinding = (draft: Draft, panel: string, fold: string, problem: CarveProblem): Finding => {
  const { setbackMm } = jointOf(draft, fold).figures;
  switch (problem.kind) {
    case 'panel-too-short':
      return stop(
        'leg-too-short',
        `${panel} reaches ${figure(Math.max(0, problem.reachMm))} mm from the outside corner of fold ${fold}, and the bend takes ${figure(setbackMm)} mm of it. Make it longer than ${atLeast(setbackMm)} mm, or the inside radius smaller.`,
      );
    case 'swallows': {
      const needed = setbackMm + jointOf(draft, problem.other).figures.setbackMm;
      return stop(
        'leg-too-short',
        `${panel} is too narrow for folds ${fold} and ${problem.other}: the two bends take ${figure(needed)} mm of it. Make it more than ${atLeast(needed)} mm between them, or the inside radii smaller.`,
      );
    }
    case 'edge-vanishes':
      return stop(
        'fold-edge-vanishes',
        `On ${panel} nothing is left of fold ${fold} between its neighbours: the bends beside it meet before it begins. Make the edge longer, or the inside radius smaller.`,
      );
    case 'no-room-for-relief':
      return stop(
        'no-room-for-relief',
        `On ${panel} there is no room for a relief beside fold ${fold}: leave at least ${atLeast(problem.needMm)} mm between it and its neighbour.`,
      );
  }
};
