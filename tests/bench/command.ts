import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Answer, compare, type Timed } from './measure.ts';

const MAKE = 'make bracket-angle --leg-a 60 --leg-b 40 --width 80 --material s275 --thickness 3 --radius 3';

/** How long the whole command takes, from the shell and back, against Node doing nothing. */
export default (): Answer[] => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const command = (line: string): Timed => spawned(['dist/blankwright.cjs', ...line.split(' ')]);
  const bare = spawned(['-e', '0']);
  try {
    return [
      ['--version', command('--version')],
      ['bend', command('bend --thickness 3 --radius 3 --angle 90')],
      ['make bracket-angle', spawned(['dist/blankwright.cjs', ...MAKE.split(' '), '--out', folder])],
      ['describe bracket-angle --json', command('describe bracket-angle --json')],
    ].map(([name, work]) => ({
      question: `blankwright ${String(name)}`,
      ...compare(work as Timed, bare, 25),
      against: 'node -e 0',
      aim: 'at most 1.5',
    }));
  } finally {
    rmSync(folder, { recursive: true });
  }
};

const spawned =
  (args: readonly string[]): Timed =>
  () => {
    const start = performance.now();
    const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
    if (status !== 0) throw new Error(`${args.join(' ')}: ${stderr}`);
    return performance.now() - start;
  };
