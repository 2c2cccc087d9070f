import { NEARLY_PARALLEL_SINE } from '../geometry/tolerance.ts';
import { cross, dot, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Candidate, type Joint, type Line, meeting, type Opening } from './opening.ts';

/**
 * The same sides without what is turned outwards at either end: a brim closes nothing. The side
 * before it then reaches to where its faces meet those of the brim.
 */
export const withoutBrims = (
  chain: readonly Candidate[],
  joints: readonly Joint[],
  first: Candidate,
): Pick<Opening, 'sides' | 'joints'> => {
  let [sides, links] = [[...chain], [...joints]];
  const isFirst = ({ panel, edge }: Candidate): boolean =>
    panel === first.panel && edge === first.edge;
  for (;;) {
    const [last, before] = [sides.at(-1), sides.at(-2)];
    if (last === undefined || before === undefined || isFirst(last)) break;
    if (!isBrim(before, last, last)) break;
    sides = [...sides.slice(0, -2), reaching(before, last, 'to')];
    links = links.slice(0, -1);
  }
  for (;;) {
    const [head, after] = sides;
    if (head === undefined || after === undefined || isFirst(head)) break;
    if (!isBrim(head, after, head)) break;
    sides = [reaching(after, head, 'from'), ...sides.slice(2)];
    links = links.slice(1);
  }
  const at = sides.findIndex((side) => side.panel === first.panel && side.edge === first.edge);
  return {
    sides: [...sides.slice(at), ...sides.slice(0, at)],
    joints: [...links.slice(at), { kind: 'open' }, ...links.slice(0, at)],
  };
};

/** Whether the turn from one side to the next is outwards, or right over on the outside. */
const isBrim = (one: Candidate, other: Candidate, brim: Candidate): boolean => {
  const [d, e] = [directionOf(one), directionOf(other)];
  const turn = cross(d, e);
  if (Math.abs(turn) > NEARLY_PARALLEL_SINE || dot(d, e) > 0) return turn < 0;
  const wall = brim === one ? other : one;
  return dot(sub(brim.inside.from, wall.inside.from), wall.inward) < 0;
};

const reaching = (side: Candidate, to: Candidate, end: 'from' | 'to'): Candidate => {
  const extended = (which: 'inside' | 'outside'): Line => ({
    ...side[which],
    [end]: meeting(side[which], to[which]) ?? side[which][end],
  });
  return { ...side, inside: extended('inside'), outside: extended('outside') };
};

const directionOf = ({ inside }: Candidate): Vec2 => unit(sub(inside.to, inside.from));
