import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * The tests of the command run what users run: the built bundle. What it compiles stays out of the
 * user's own folder.
 */
export default function setup(): () => void {
  const built = spawnSync(process.execPath, ['src/tools/build.mjs', '--no-types'], {
    encoding: 'utf8',
  });
  if (built.status !== 0) throw new Error(`the build failed:\n${built.stderr}${built.stdout}`);
  const cache = mkdtempSync(join(tmpdir(), 'blankwright-cache-'));
  process.env['XDG_CACHE_HOME'] = cache;
  return () => rmSync(cache, { recursive: true, force: true });
}
