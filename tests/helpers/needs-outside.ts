import type { TestContext } from 'vitest';

/**
 * Skips a test whose outside reader is not installed, and says which. On a build server (CI=true)
 * it fails instead, since the reader has to be there.
 */
export const needsOutside = (ctx: TestContext, name: string, available: boolean): void => {
  if (available) return;
  if (process.env['CI'] === 'true') throw new Error(`${name} is not installed`);
  ctx.skip(`${name} is not installed`);
};
