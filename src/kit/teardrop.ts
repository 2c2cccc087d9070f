import { teardropProblem } from '../bending/hem.ts';
import { figure } from '../text/figures.ts';
import { type Finding, orTry, refuse } from '../model/finding.ts';
import { just, orMore } from '../model/mend.ts';

/**
 * Reason why a teardrop hem is impossible when its depth is that of an input; `depthMm` is the same
 * depth measured outside.
 */
export function impossibleTeardrop(
  hem: { readonly radiusMm: number; readonly thicknessMm: number; readonly depthMm: number },
  input: string,
  given: number,
): Finding[] {
  const problem = teardropProblem(hem);
  if (problem === undefined) return [];
  const radius = `hemRadius ${figure(hem.radiusMm)}`;
  return problem === 'no loop'
    ? [
        orTry(
          refuse(
            'no-loop',
            ['hemShape', 'hemRadius'],
            `hemShape teardrop has a loop, and ${radius} makes none`,
            [just('hemShape', 'flat')],
          ),
          'hemRadius',
        ),
      ]
    : [
        orTry(
          refuse(
            'hem-too-shallow',
            [input, 'hemRadius'],
            `${input} ${figure(given)} is too little for the edge of a teardrop hem of ${radius} to come down on the sheet`,
            [orMore(input, given + problem)],
          ),
          'hemRadius',
        ),
      ];
}
