import { spawnSync } from 'node:child_process';

/** A reader of square codes from outside the project (Debian package zbar-tools). */
export const hasZbar = spawnSync('zbarimg', ['--version']).status === 0;

/** The texts of the square codes in a picture (PNG). */
export const codesIn = (file: string): string[] => {
  const run = spawnSync('zbarimg', ['--quiet', '--raw', '-Sdisable', '-Sqrcode.enable', file], {
    encoding: 'utf8',
  });
  // 4: no code was found.
  if (run.status !== 0 && run.status !== 4) throw new Error(run.stderr);
  return run.stdout.split('\n').filter((line) => line !== '');
};
