import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { loopGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { NOISE_MM, PROOF_MM } from '../geometry/tolerance.ts';
import { distance } from '../geometry/vec2.ts';
import { type Finding, refuse } from '../model/finding.ts';
import { type Check, entryOf, type Hole, labelOf, laterNear, nameOf } from './check.ts';

/**
 * Two holes that run into each other, or one that lies inside the other. Only the first pair of two
 * patterns is reported.
 */
export const holesMeet: Check = {
  rule: 'holes-meet',
  title: 'Two holes run into each other, or lie one in the other.',
  severities: ['stop'],
  reason: 'The piece between them would fall out, and the cutter would cross its own cut.',
  source: 'geometry',
  measured: 'the distance between their edges',
  mend: 'Move one, or ask for one larger cut-out.',
  run: ({ holes }) => {
    const later = laterNear(holes);
    const pairs = new Map<string, { readonly pair: readonly [Hole, Hole]; count: number }>();
    for (const [i, a] of holes.entries()) {
      for (const b of later(i, 0)) {
        if (!doMeet(a, b)) continue;
        const key = `${entryOf(a)} ${entryOf(b)}`;
        const known = pairs.get(key);
        if (known === undefined) pairs.set(key, { pair: [a, b], count: 1 });
        else known.count += 1;
      }
    }
    return [...pairs.values()].map(({ pair: [a, b], count }) => told(a, b, count));
  },
};

function told(a: Hole, b: Hole, count: number): Finding {
  const apart = distance(a.centre, b.centre);
  // Holes that just touch have nothing between them either.
  const wanted = Math.max(((a.diameterMm ?? NaN) + (b.diameterMm ?? NaN)) / 2, apart + PROOF_MM);
  const isRound = a.diameterMm !== undefined && b.diameterMm !== undefined;
  const more =
    count === 1 ? '' : `, and ${count - 1} more ${count === 2 ? 'pair' : 'pairs'} of the same`;
  const what = `${nameOf(a)} and hole ${labelOf(b)} in ${b.panel} run into each other${isRound ? `, ${figure(apart)} mm apart from middle to middle` : ''}${more}`;
  const move = isRound ? `move one by more than ${atLeast(wanted - apart)} mm` : 'move one';
  const mends =
    entryOf(a) === entryOf(b)
      ? ['give the pattern a wider pitch, or smaller holes']
      : [move, 'ask for one larger cut-out'];
  return {
    ...refuse(holesMeet, [...a.inputs, ...b.inputs], what, [], ...mends),
    ...(a.panel === b.panel && { panel: a.panel }),
    at: b.centre,
    ...(isRound && lacks(apart, wanted)),
  };
}

const doMeet = (a: Hole, b: Hole): boolean =>
  loopGap(a.curve, b.curve, 2 * NOISE_MM) <= NOISE_MM || startsInside(a, b) || startsInside(b, a);

const startsInside = (inner: Hole, outer: Hole): boolean => {
  const [start] = inner.curve;
  return start !== undefined && isInside(outer.curve, [start.x, start.y]);
};
