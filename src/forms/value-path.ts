import { shown } from './given.ts';
import type { ValuePath } from './yaml.ts';

/** What stands at a place inside a value; `undefined` where nothing does. */
export const valueAt = (whole: unknown, path: ValuePath): unknown =>
  path.reduce<unknown>(
    (value, step) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, step)
        ? (value as Record<string | number, unknown>)[step]
        : undefined,
    whole,
  );

/** A path as text: `cutters[0].kerf[2].thickness`; `top` for the whole. */
export const written = (path: ValuePath, top: string): string =>
  path
    .map((step, i) =>
      typeof step === 'number'
        ? `[${step}]`
        : `${i === 0 ? '' : '.'}${shown(step).replace(/^'|'$/g, '')}`,
    )
    .join('') || top;
