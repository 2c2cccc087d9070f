import { spawnSync } from 'node:child_process';

/** The tests of the command run what users run: the built bundle. */
export default function setup(): void {
  const built = spawnSync(process.execPath, ['src/tools/build.mjs', '--no-types'], { encoding: 'utf8' });
  if (built.status !== 0) throw new Error(`the build failed:\n${built.stderr}${built.stdout}`);
}
