import { constants, Script } from 'node:vm';
import type { ImportModule } from '../../src/cli/console.ts';
import { run } from '../../src/cli/main.ts';
import type { Ran } from './command.ts';

/** Node's own import, which loads a file as it is: that of a test goes through vitest. */
const importModule = new Script('(url) => import(url)', {
  importModuleDynamically: constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
}).runInThisContext() as ImportModule;

let lastRun: Promise<unknown> = Promise.resolve();

/**
 * Runs a command line in a folder within this process: what it would print and end with. A process
 * has one current folder, so runs that are asked for together come one after the other.
 */
export const runWithin = (args: readonly string[], cwd: string): Promise<Ran> => {
  const ran = lastRun.then(() => runAlone(args, cwd));
  lastRun = ran.catch(() => undefined);
  return ran;
};

const runAlone = async (args: readonly string[], cwd: string): Promise<Ran> => {
  const printed = { out: '', err: '' };
  const before = process.cwd();
  process.chdir(cwd);
  try {
    const code = await run(args, {
      out: (text) => void (printed.out += `${text}\n`),
      err: (text) => void (printed.err += `${text}\n`),
      importModule,
    });
    return { code, ...printed };
  } finally {
    process.chdir(before);
  }
};
