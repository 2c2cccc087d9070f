import { signal } from '@preact/signals';

/** How the folded part is looked at. */

/** Strokes that are made, in parts of one too; all of them where it is left alone. */
export const strokes = signal<number | undefined>(undefined);
/** Of what stands in the way of folding, which one is looked at. */
export const atBlocked = signal<number | undefined>(undefined);
export const apart = signal(0);
export const isSet = signal(false);
export const cut = signal<{ readonly axis: 0 | 1 | 2; readonly at: number } | undefined>(undefined);
/** Where it is seen from, degrees about the upright and up; the first view where it is left alone. */
export const from = signal<readonly [number, number] | null>(null);
export const zoom = signal(1);

/** To the right of the front and a little above. */
export const BEGIN: readonly [number, number] = [-60, 25];
const STEEPEST_DEG = 89;
const MOST_ZOOM = 12;
const LEAST_ZOOM = 0.5;

export const turn = (side: number, up: number): void => {
  const [s, u] = from.value ?? BEGIN;
  from.value = [s + side, Math.max(-STEEPEST_DEG, Math.min(STEEPEST_DEG, u + up))];
};

export const nearer = (by: number): void => {
  zoom.value = Math.max(LEAST_ZOOM, Math.min(MOST_ZOOM, zoom.value * by));
};
