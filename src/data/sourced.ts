import type { Sourced } from '../model/material.ts';

/** Figures with their source and how sure it is. */

export const published = <T>(value: T, source: string): Sourced<T> => ({
  value,
  basis: 'published',
  source,
});

export const practice = <T>(value: T, source = 'common practice'): Sourced<T> => ({
  value,
  basis: 'common practice',
  source,
});

export const fromMemory = <T>(value: T, source = 'from memory'): Sourced<T> => ({
  value,
  basis: 'from memory',
  source,
});
