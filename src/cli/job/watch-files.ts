import { unwatchFile, watchFile } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/** Files that are waited on. */
export interface WatchedFiles {
  /** Waits on these from now on, and on no others. They need not be there. */
  readonly watch: (paths: readonly string[]) => void;
  /** Until one of them has been written, taken away or put there since the last time. */
  readonly changed: () => Promise<void>;
}

/**
 * How often files are looked at. They are, as the system tells nothing more of a folder that was
 * deleted and made again.
 */
const EVERY_MS = 200;

/** Editors save in several steps; what they do within this time is one change. */
const SETTLE_MS = 150;

export const watchFiles = (): WatchedFiles => {
  let watched: readonly string[] = [];
  let hasChanged = false;
  let wake: () => void = () => undefined;
  const onChange = (): void => {
    hasChanged = true;
    wake();
  };
  return {
    watch: (paths) => {
      for (const path of watched) if (!paths.includes(path)) unwatchFile(path, onChange);
      for (const path of paths)
        if (!watched.includes(path)) watchFile(path, { interval: EVERY_MS }, onChange);
      watched = [...paths];
    },
    changed: async () => {
      await new Promise<void>((done) => {
        wake = done;
        if (hasChanged) done();
      });
      await wait(SETTLE_MS);
      hasChanged = false;
    },
  };
};
