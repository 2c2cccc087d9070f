import type { GivenFold } from '../forms/template.ts';

/**
 * The fold between a panel and the one after it in a chain, which turns by `turnDeg`, up where that is
 * more than 0. The one nearer to the root is the parent: where the fold lies before the root, the
 * panel after it.
 */
export const turnedFold = (
  id: string,
  [before, after]: readonly [GivenFold['parent'], GivenFold['child']],
  turnDeg: number,
  isBeforeRoot: boolean,
  insideRadiusMm: number,
): GivenFold => ({
  id,
  parent: isBeforeRoot ? after : before,
  child: isBeforeRoot ? before : after,
  angleDeg: Math.abs(turnDeg),
  direction: turnDeg < 0 ? 'down' : 'up',
  insideRadiusMm,
});
