import { figure } from '../figures.ts';
import type { FoldStep } from '../plan/part-plan.ts';

/** What is to be done at a step in parts: what counts first; how the blank is moved before, where it is; then how it is marked and held, and what else to know. */
export interface StepWords {
  readonly title: string;
  readonly moves: string | null;
  readonly lines: readonly string[];
}

export const stepWords = (s: FoldStep, number: number): StepWords => {
  const moves = [...(s.flip ? ['turn it over'] : []), ...(s.turnDeg > 0 ? [`turn it by ${figure(s.turnDeg, 1)} degrees`] : [])];
  const mark = s.sightLineMm === null ? `mark: by ${s.from}` : `mark: ${figure(s.sightLineMm, 1)} mm from ${s.from}`;
  const tools = s.fingersMm.length === 0 ? '' : `; tools ${s.fingersMm.map((w) => figure(w, 0)).join(' + ')} mm`;
  return {
    title: `${number}. Fold ${s.bend}: stop at ${figure(s.stopAtDeg, 1)} degrees`,
    moves: moves.length === 0 ? null : `first ${moves.join(' and ')}`,
    lines: [`${mark}; clamp ${s.clampedSide}${tools}`, ...(s.note === null ? [] : [s.note])],
  };
};

/** How the pictures of the steps are read. */
export const STEP_KEY = 'Black is clamped, white is swung, broken lines stand beside the tools. Not to scale.';
