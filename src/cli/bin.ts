import { type ImportModule, processConsole } from './console.ts';
import { run } from './main.ts';

/** Runs the command line of this process. The launcher calls it. */
export const start = (importModule: ImportModule): void => {
  void run(process.argv.slice(2), processConsole(importModule)).then((code) => {
    process.exitCode = code;
  });
};
