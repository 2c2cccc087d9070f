import { expect } from 'vitest';
import { setsOf } from '../../src/use/assembly/assembled.ts';
import type { MadeSet } from '../../src/use/assembly/assembled.ts';
import type { Made } from '../../src/use/make/make-parts.ts';

/** The left one of a pair of sets, when none of their pieces is stopped and each has its other hand. */
export const leftOfPair = (done: Made): MadeSet => {
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  for (const { result, stopped } of done.parts)
    expect([result.name, result.findings.filter((f) => f.severity === 'stop'), stopped]).toEqual([
      result.name,
      [],
      false,
    ]);
  const lefts = done.parts.filter(({ result }) => result.hand === 'left');
  for (const left of lefts) {
    const right = done.parts.find(
      ({ result }) => result.hand === 'right' && result.piece === left.result.piece,
    );
    expect(right?.result.blank?.areaMm2).toBeCloseTo(left.result.blank?.areaMm2 ?? 0, 4);
  }
  const [set] = setsOf(lefts);
  if (set === undefined) throw new Error('no set');
  return set;
};
