import { unwatchFile, watchFile } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/** Files that are waited on. */
export interface WatchedFiles {
  /** Watches these paths from now on, and no others. They need not exist. */
  readonly watch: (paths: readonly string[]) => void;
  /** Resolves when one of them has been written, removed or created since the last time. */
  readonly changed: () => Promise<void>;
}

/**
 * How often the files are looked at. The system reports nothing more about a folder that was
 * deleted and made again, so they have to be looked at.
 */
const EVERY_MS = 200;

/** Time in which several changes count as one, since editors save in several steps. */
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
