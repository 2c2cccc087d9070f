import { teardropProblem } from '../bending/hem.ts';
import { atLeast, figure } from '../figures.ts';
import { type Finding, stop } from '../model/finding.ts';

/** Why a teardrop hem cannot be, its depth being that of an input; `depthMm` is the same outside. */
export function impossibleTeardrop(hem: { readonly radiusMm: number; readonly thicknessMm: number; readonly depthMm: number }, input: string, given: number): Finding[] {
  const problem = teardropProblem(hem);
  if (problem === undefined) return [];
  return problem === 'no loop'
    ? [stop('no-loop', 'A teardrop hem has a loop: give hemRadius its inside radius, or hemShape flat.')]
    : [stop('hem-too-shallow', `The edge of a teardrop hem of radius ${figure(hem.radiusMm)} does not come down on the sheet in ${figure(given)}: give ${input} ${atLeast(given + problem)} or more, or a smaller hemRadius.`)];
}
