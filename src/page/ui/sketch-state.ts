import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { SketchAnswer } from '../core/drawn-questions.ts';
import { slow } from './cores.ts';
import { jobText, partAsk, place } from './state.ts';

/** Pictures of the part with a letter at each measure. */
export const sketches = signal<readonly SketchAnswer[]>([]);
/** Milliseconds of rest after which letters are drawn anew. */
const SKETCH_REST = 350;

/** The letters of a part, drawn when the hand rests. */
export const useSketches = (index: number): void => {
  useEffect(() => {
    sketches.value = [];
  }, [index]);
  useEffect(() => {
    const ask = async (): Promise<void> => {
      const found = await slow.ask('sketch', partAsk(index));
      if (found !== undefined && place.value.part === index) sketches.value = found;
    };
    const timer = setTimeout(() => void ask(), sketches.value.length === 0 ? 0 : SKETCH_REST);
    return () => clearTimeout(timer);
  }, [jobText.value, index]);
};
